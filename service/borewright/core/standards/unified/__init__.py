"""Unified inch threads UN, UNR, UNJ (ASME B1.1, B1.15)."""
