"""The cooking table, made of raw and cooked rows of one food table; read on in matching, exclusions, curves, tables."""
