"""Appliances, sinks and hoods: where they are, what hangs over them and what lies beside them."""
