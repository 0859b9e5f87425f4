"""What holds things to a wall: the way through its layers, loads and what carries them."""
