"""The record: what may be written down, and what a thing's state is once it is."""
