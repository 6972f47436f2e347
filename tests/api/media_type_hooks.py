"""Loaded by schemathesis: lines of JSON are sent as the text that they are, workbooks as bytes."""

import schemathesis

schemathesis.serializer.alias("application/x-ndjson", "text/plain")
schemathesis.serializer.alias(
    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "application/octet-stream"
)
