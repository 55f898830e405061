"""Section stock: angle, channel and tube, by their sides and their wall.

A piece of section stock is cut in one dimension. How a saw cut and the dressing of its ends use it
up, and the cut list, are reckoned on the phone, without a network (web/src/offcuts/sections); this
computer only keeps what was measured, says where it cannot be, and prints it on the tag.
"""

from __future__ import annotations

from typing import Literal

Form = Literal["angle", "channel", "tube"]
Hand = Literal["left", "right", "none"]

#: The forms of section stock, and how many sides each is described by (a round tube by one).
SECTION_FORMS: tuple[Form, ...] = ("angle", "channel", "tube")
HANDS: tuple[Hand, ...] = ("left", "right", "none")
