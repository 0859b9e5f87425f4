"""The room from above: what stands in it, what opens, and what is left to pass."""
