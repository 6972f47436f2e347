"""Sheets of holes as spreadsheets save them: what their headings and cells mean."""
