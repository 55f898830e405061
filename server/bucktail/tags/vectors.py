"""Vectors for the tag-code check, written from the Python so that the phone must agree with it.

The draws are a fixed sequence made from SHA-256 of a counter, so the file is the same every
time it is written.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import asdict

from bucktail.tags.code import ALPHABET, check, fold_typed, grouped, new_code, suggest
from bucktail.tags.payload import read_payload

PATH = "tests/vectors/tagcode.json"


def fixed_draws(seed: str) -> Callable[[int], int]:
    """A draw function for `new_code` that repeats for the same `seed`: for vectors and tests."""
    count = 0

    def draw(below: int) -> int:
        nonlocal count
        count += 1
        digest = hashlib.sha256(f"{seed} {count}".encode()).digest()
        return int.from_bytes(digest, "big") % below

    return draw


def outputs() -> dict[str, str]:
    """The vector file as {path below the repository root: text}."""
    draw = fixed_draws("tag codes")
    codes: list[str] = []
    for _ in range(12):
        codes.append(new_code(draw, codes))
    vectors = {
        "alphabet": ALPHABET,
        "codes": [{"code": code, "grouped": grouped(code)} for code in codes],
        "fold": [{"typed": typed, "folded": fold_typed(typed)} for typed in _typed(codes)],
        "check": [{"typed": typed, **asdict(check(typed))} for typed in _typed(codes)],
        "payload": [{"text": text, **asdict(read_payload(text))} for text in _payloads(codes)],
        "suggest": _suggestions(codes),
    }
    return {PATH: json.dumps(vectors, ensure_ascii=True, indent=1) + "\n"}


def _swap(code: str, left: int, right: int) -> str:
    symbols = list(code)
    symbols[left], symbols[right] = symbols[right], symbols[left]
    return "".join(symbols)


def _other(symbol: str, step: int = 1) -> str:
    return ALPHABET[(ALPHABET.index(symbol) + step) % len(ALPHABET)]


def _typed(codes: list[str]) -> list[str]:
    """What people type: right, untidy, and wrong in every way there is a sentence for."""
    one, two, three = codes[0], codes[1], codes[2]
    wrong = [one[:place] + _other(one[place], 3) + one[place + 1 :] for place in range(10)]
    doubled = [
        _other(code[0]) + code[1:4] + _other(code[4], 7) + code[5:] for code in (one, two, three)
    ]
    return [
        *codes,
        *(grouped(code).lower() for code in codes),
        f"  {one[:5]}-{one[5:]}\r\n",
        f"{one[:5]}\u2013{one[5:]}",
        f"{one[:5]}\u00a0{one[5:]}",
        "0123456789ABCDEFGHJKMNPQRSTVWXYZ",
        "oOiIlL",
        "OIL0000000",
        *wrong,
        *doubled,
        _swap(one, 0, 1),
        _swap(two, 4, 5),
        _swap(three, 2, 9),
        "",
        "   - ",
        one[:9],
        one[:1],
        one + "7",
        one + one,
        one[:3] + "U" + one[4:],
        one[:9] + "*",
        "\u00e9" + one[1:],
        "\u0000" + one[1:],
        one[:5] + "\u200b" + one[5:],
        one[:5] + "\U0001f9f0" + one[6:],
        "\uff11" + one[1:],
        "\u0131\u017f",
    ]


def _payloads(codes: list[str]) -> list[str]:
    """What a camera may hand over: tags, damaged tags, and other people's symbols."""
    one, two = codes[0], codes[1]
    return [
        one,
        f" {two}\n",
        one.lower(),
        grouped(one),
        one[:9],
        _other(one[0]) + one[1:],
        f"https://bench.local:8443/tag/{one}",
        f"http://192.168.1.20:8480/tag/{two}",
        f"HTTPS://BENCH.LOCAL/TAG/{two}",
        f"https://bench.local/some/where/tag/{one}/",
        f"https://bench.local/tag/{one.lower()}",
        f"https://bench.local/tag/{one[:5]}-{one[5:]}",
        f"https://bench.local/tag/{_other(one[0])}{one[1:]}",
        f"https://bench.local/tag/{one[:7]}",
        f"https://bench.local/tag/{one[:5]}%20{one[5:]}",
        "https://bench.local/tag/",
        f"https://bench.local/tag/{one}?from=poster",
        f"https://bench.local/tag/{one}#top",
        f"https://bench.local/tags/{one}",
        f"https:///tag/{one}",
        f"ftp://bench.local/tag/{one}",
        f"http\u017f://bench.local/tag/{one}",
        f"javascript:alert('/tag/{one}')",
        "https://example.org/",
        "WIFI:T:WPA;S:hangar;P:secret;;",
        "",
        " \n",
        "\u0000",
    ]


def _suggestions(codes: list[str]) -> dict[str, object]:
    """Typed beginnings, ends and slips against a handful of existing codes."""
    one, two, three = codes[0], codes[1], codes[2]
    unknown = new_code(fixed_draws("an unknown tag"), codes)
    # codes that begin with another's end, so that the order of the answers matters
    known = [*codes, "7777777777", three[-4:] + codes[4][4:], one[5:] + codes[5][5:]]
    cases = [
        (one[-4:].lower(), 5),
        (one[:4], 5),
        (one[:5], 5),
        (one[5:], 5),
        (three[-4:], 5),
        (one[:1], 5),
        ("", 5),
        ("77", 5),
        ("7777", 5),
        ("77777", 5),
        (one[:2], 0),
        (one[0] + _other(one[1]) + one[2:], 5),
        (_swap(two, 3, 8), 5),
        (one[:4] + one[5:], 5),
        (one[:4] + "9" + one[4:], 5),
        (one[:4] + "U" + one[5:], 5),
        (grouped(one), 5),
        (unknown, 5),
        (_other(one[0]) + _other(one[1]) + one[2:], 5),
        (three[-4:], 1),
    ]
    found = [
        {
            "typed": typed,
            "limit": limit,
            "found": [asdict(each) for each in suggest(typed, known, limit)],
        }
        for typed, limit in cases
    ]
    return {"known": known, "cases": found}
