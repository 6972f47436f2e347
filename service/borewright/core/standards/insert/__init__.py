"""Holes for helical coil inserts (ASME B18.29.1, B18.29.2M)."""
