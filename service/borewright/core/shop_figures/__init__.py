"""What a shop measured instead of what the tables assume: the fit of its measurements, and the figures of the fit.

The figures themselves (`figures`, `serving`) belong to every request and are loaded with it, the fit by whoever asks.
"""
