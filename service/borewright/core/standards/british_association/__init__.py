"""British Association threads (BS 93)."""
