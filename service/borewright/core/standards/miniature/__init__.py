"""Unified miniature threads UNM (ASME B1.10)."""
