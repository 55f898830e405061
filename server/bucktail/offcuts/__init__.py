"""Offcuts: what they are made of, and what still fits in them."""
