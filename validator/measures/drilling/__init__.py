"""Where the drill goes, what may run there, and what is known to be behind a wall."""
