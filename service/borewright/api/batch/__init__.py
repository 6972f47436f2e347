"""Batches: many items in one request, each answered on its own, in order."""

from .answers import Job
from .reply import CSV, NDJSON, XML, reply

__all__ = ["CSV", "NDJSON", "XML", "Job", "reply"]
