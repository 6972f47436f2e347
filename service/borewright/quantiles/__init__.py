"""Quantiles of the usual distributions from a kept library (SciPy): the one place that knows it."""
