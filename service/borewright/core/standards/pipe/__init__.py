"""Pipe threads: American (ASME B1.20.1, B1.20.3), ISO 7-1, ISO 228-1."""
