"""The published documents: OpenAPI and JSON Schemas, and what writes them."""
