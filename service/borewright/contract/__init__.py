"""The edge: request schemas, units, replies, and the documents that publish them."""
