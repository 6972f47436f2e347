"""ISO metric trapezoidal threads (ISO 2901 to 2904)."""
