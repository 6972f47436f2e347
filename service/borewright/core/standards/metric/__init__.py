"""ISO metric threads M and MJ (ISO 261, ISO 965, ISO 5855)."""
