"""Order of work, coats, deliveries and money."""
