"""Pieces cut from leftover sheet: what a builder knows in, a blank with its rivets out.

Each composes the rules beside it; none has a number of its own.
"""
