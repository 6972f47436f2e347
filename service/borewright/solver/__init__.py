"""Exact optima from a kept solver (HiGHS): the one place that knows it."""
