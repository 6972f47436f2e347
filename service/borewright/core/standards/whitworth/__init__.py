"""Whitworth threads BSW and BSF (BS 84)."""
