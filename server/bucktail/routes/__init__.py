"""The HTTP edge: one file per noun."""
