"""How likely a hole and its thread are good: distributions of what tools make, and the chance of acceptance."""
