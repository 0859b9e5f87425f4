"""What stands and hangs in the runs: where each thing comes to stand, whether it fits, what keeps it there."""
