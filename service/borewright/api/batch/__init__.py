"""Batches: many items in one request, each answered on its own, in order."""
