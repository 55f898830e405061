"""Bucktail: the phone at the bench of someone building a riveted metal aircraft at home."""

__version__ = "0.1.0"
