"""Part materials: names, hardness, strength."""
