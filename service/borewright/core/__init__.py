"""The domain: standard library only, no web framework, no unit library, no clock, no network."""
