"""The replies of API v1, section by section: each schema documents its section and writes it from a record."""
