"""Acme and stub Acme threads (ASME B1.5, B1.8)."""
