"""What a QR symbol held: one of our tags, or a plain reason why not.

A tag's symbol holds the ten-symbol code alone, or a web address that ends in /tag/CODE so that
a phone's own camera can open it. The camera's path repairs and folds nothing: a bare code must
be exactly the ten symbols that were printed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bucktail.tags.code import ALPHABET, CODE_SYMBOLS, check, is_code

_ADDRESS = re.compile(r"https?://[^/?#]", re.IGNORECASE | re.ASCII)
_TAG_ENDING = re.compile(r"https?://[^/?#]+(?:/[^?#]*)?/tag/([^/?#]*)/?", re.IGNORECASE | re.ASCII)
_TRIMMED = " \t\r\n"


@dataclass(frozen=True)
class Payload:
    """What a symbol held.

    `code` is the tag's ten symbols, or empty when there is a problem; then `reason` is one of
    empty, foreign, symbol, length, check and `sentence` says it in plain words.
    """

    code: str
    reason: str = ""
    sentence: str = ""

    @property
    def ok(self) -> bool:
        """True when the symbol held a well-formed tag code (it need not exist)."""
        return not self.reason


def read_payload(text: str) -> Payload:
    """Judge the text a QR reader returned; never raises, never repairs."""
    held = text.strip(_TRIMMED)
    if not held:
        return Payload("", "empty", "This QR code holds nothing. Scan the code on a tag.")
    ending = _TAG_ENDING.fullmatch(held)
    if ending:
        found = check(ending[1])
        if found.ok:
            return Payload(found.code)
        sentence = f"This address ends like a tag's, but not with a tag. {found.sentence}"
        return Payload("", found.reason, sentence)
    if is_code(held):
        return Payload(held)
    if len(held) == CODE_SYMBOLS and all(symbol in ALPHABET for symbol in held):
        return Payload(
            "",
            "check",
            "This QR code has ten symbols as a tag has, but they do not belong together: "
            "it is not one of your tags.",
        )
    if _ADDRESS.match(held):
        return Payload("", "foreign", "This QR code holds a web address that is not a tag.")
    return Payload("", "foreign", "This QR code is not a tag: it holds something else.")
