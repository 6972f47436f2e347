"""Other forms of a specification: B2MML, section drawings."""
