"""Loaded by schemathesis: lines of JSON are sent as the text that they are."""

import schemathesis

schemathesis.serializer.alias("application/x-ndjson", "text/plain")
