"""The hole along its axis: depths, run-out, countersink, and the tools that must reach its bottom."""
