"""The plan of a hole: choices, operations in shop order, headline, and the orchestrator that asks every subject."""
