"""The tapped joint: its geometry, the areas that carry load, the screw, which part fails first, the least torque."""
