"""How units are joined to one another: screws, boards and glue."""
