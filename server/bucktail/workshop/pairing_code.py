"""Secrets and typed codes as symbols, and the link that carries a secret to a phone.

The symbols, and what people may type instead of them, are those of the tags, so that one habit
serves for both. The lengths differ (26 and 8; a tag has 10), so none is taken for another.
"""

from __future__ import annotations

import re

from bucktail.tags.code import ALPHABET, fold_typed

SECRET_BITS, SECRET_SYMBOLS = 128, 26
TYPED_BITS, TYPED_SYMBOLS = 40, 8
LINK_KEY = "pair"


def in_symbols(data: bytes) -> str:
    """Bytes as base-32 symbols, five bits each, the last one filled up with zeros."""
    count = -(-len(data) * 8 // 5)
    bits = int.from_bytes(data, "big") << (count * 5 - len(data) * 8)
    return "".join(ALPHABET[bits >> 5 * (count - 1 - at) & 31] for at in range(count))


def pairing_link(url: str, secret: str) -> str:
    """The link in the QR symbol. A fragment is not sent to a server (RFC 9110, 7.1), so the secret
    stands in no log. `url` is the origin without a slash at the end."""
    return f"{url}/#{LINK_KEY}={secret}"


def code_in(text: str) -> str | None:
    """The symbols of a secret or typed code, out of a link or what a person typed; None if none."""
    fragment = re.search(rf"#{LINK_KEY}=([^&\s]+)", text)
    symbols = fold_typed(fragment.group(1) if fragment else text)
    if len(symbols) not in (SECRET_SYMBOLS, TYPED_SYMBOLS) or set(symbols) - set(ALPHABET):
        return None
    return symbols


def shown_in_fours(typed: str) -> str:
    """A typed code the way a person reads it off: “7KQ2 M0XD”."""
    return f"{typed[:4]} {typed[4:]}"
