"""Points, circuits, wastes and air."""
