"""Pages for people: the sheet a trade is handed, and the report, as HTML that stands by itself."""
