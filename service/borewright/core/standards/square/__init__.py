"""Square threads, taken by the dimensions stated."""
