"""What a shop measured instead of what the tables assume: the fit of its measurements, and the figures of the fit."""
