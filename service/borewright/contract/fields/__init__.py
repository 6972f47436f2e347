"""Strict fields of requests: JSON types, quantities with units, objects."""
