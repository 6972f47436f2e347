"""A kept hole specification held against what the service answers now: what differs, why, and whether it matters."""
