"""The room as it is: walls, corners, outline, openings, floors, what is boxed in, the way in."""
