"""Borewright: from a thread callout to the complete specification of a tapped hole."""

__version__ = "0.1.0"
