"""How high everything comes: floors, legs, worktops, hung and tall units, plinths, the household."""
