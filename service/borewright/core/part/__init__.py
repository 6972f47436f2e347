"""All tapped holes of a part planned together: which tools serve which holes, in which order, in what time."""
