"""Descriptions of more than one paragraph, filled to the width of the terminal."""

from __future__ import annotations

import argparse


class Paragraphs(argparse.HelpFormatter):
    """Help whose description keeps its blank lines; argparse would run it all together."""

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        parts = text.strip().split("\n\n")
        return "\n\n".join(super(Paragraphs, self)._fill_text(p, width, indent) for p in parts)
