"""Machining: part materials, hardness, speeds, feeds, torque, power, time."""
