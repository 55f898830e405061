"""Reading a code: what is folded, the reasons given, what is suggested, what a QR symbol held."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bucktail.tags.code import (
    ALPHABET,
    check,
    fold_typed,
    grouped,
    is_code,
    new_code,
    suggest,
    with_check_symbols,
)
from bucktail.tags.payload import read_payload
from bucktail.tags.vectors import fixed_draws, outputs

PLACES = range(10)
SYMBOLS = st.text(alphabet=ALPHABET, min_size=8, max_size=8)


def sample(count: int, seed: str = "sample") -> list[str]:
    draw = fixed_draws(seed)
    codes: list[str] = []
    while len(codes) < count:
        codes.append(new_code(draw, codes))
    return codes


def replaced(code: str, *changes: tuple[int, str]) -> str:
    symbols = list(code)
    for place, symbol in changes:
        symbols[place] = symbol
    return "".join(symbols)


# --- folding and checking -----------------------------------------------------------------------


def test_folding_undoes_what_people_type() -> None:
    assert fold_typed(" o0-iI lL\t") == "001111"
    assert fold_typed("5s8b2zu") == "5S8B2ZU"  # left to the check symbols


@given(SYMBOLS)
def test_a_code_is_taken_however_it_is_typed(data: str) -> None:
    code = with_check_symbols(data)
    untidy = grouped(code).lower().replace("0", "o").replace("1", "l").replace(" ", " - ")
    assert check(untidy).code == code
    assert check(code).ok


@given(st.text())
def test_any_text_gets_a_code_or_a_sentence(text: str) -> None:
    found = check(text)
    assert found.ok != bool(found.sentence)
    assert found.ok == is_code(fold_typed(text))
    read = read_payload(text)
    assert read.ok != bool(read.sentence)


def test_reasons_are_precise() -> None:
    code = sample(1)[0]
    assert check("").sentence == "Type the ten symbols on the tag, two groups of five."
    assert check(code[:9]).sentence == "A tag has 10 symbols and this has 9: 1 is missing."
    assert check(code + "77").sentence == "A tag has 10 symbols and this has 12: 2 are too many."
    assert check("AB" + "U" + code).sentence.startswith("“U” in place 3 is never used")
    assert check(code[:4] + "\u0007" + code[5:]).sentence.startswith("“U+0007” in place 5")
    assert "do not belong together" in check(code[1:] + code[0]).sentence


# --- suggestions --------------------------------------------------------------------------------


def test_the_last_four_symbols_suggest() -> None:
    known = sample(300)
    for code in known[:40]:
        assert (code, "last") in {(s.code, s.why) for s in suggest(code[-4:].lower(), known)}


def test_one_wrong_symbol_suggests_only_a_code_that_exists() -> None:
    known = sample(50)
    for code in known:
        wrong = replaced(code, (6, ALPHABET[(ALPHABET.index(code[6]) + 9) % 32]))
        assert [(s.code, s.why) for s in suggest(wrong, known)] == [(code, "one-wrong")]
        assert suggest(wrong, [other for other in known if other != code]) == []


def test_at_most_one_existing_code_is_one_symbol_away() -> None:
    """Codes differ in three places or more, so a suggestion of one wrong symbol is never a pick."""
    known = sample(2000)
    for code in known[:20]:
        for place in PLACES:
            wrong = replaced(code, (place, "7" if code[place] != "7" else "8"))
            assert sum(s.why == "one-wrong" for s in suggest(wrong, known, limit=99)) == 1


def test_other_slips_suggest() -> None:
    known = sample(40)
    code = next(c for c in known if len(set(c)) >= 9)
    swapped = replaced(code, (2, code[7]), (7, code[2]))
    expected = {
        swapped: "swapped",
        code[:5] + code[6:]: "one-missing",
        code[:5] + "U" + code[5:]: "one-extra",
        code[:7]: "first",
        code[3:]: "last",
        grouped(code): "same",
    }
    for typed, why in expected.items():
        assert [(s.code, s.why) for s in suggest(typed, known)] == [(code, why)]


def test_two_wrong_symbols_suggest_nothing_of_that_kind() -> None:
    code = with_check_symbols("ABCDEFGH")
    assert suggest(replaced(code, (0, "7"), (1, "7")), [code]) == []


def test_ends_come_first_up_to_four_symbols_and_beginnings_from_five_on() -> None:
    head, tail, both = "77777ABCDE", "ABCDE77777", "77777A7777"
    all_sevens = "7777777777"
    known = [head, tail, both, all_sevens]
    four = [(s.code, s.why) for s in suggest("7777", known)]
    assert four == [(all_sevens, "last"), (both, "last"), (tail, "last"), (head, "first")]
    five = [(s.code, s.why) for s in suggest("77777", known)]
    assert five == [(all_sevens, "first"), (both, "first"), (head, "first"), (tail, "last")]


def test_suggestions_keep_to_the_limit_and_need_two_symbols() -> None:
    known = ["AA" + code[2:] for code in sample(30)]
    assert len(suggest("AA", known, limit=7)) == 7
    assert suggest("A", known) == [] and suggest("", known) == [] and suggest("AA", known, 0) == []


# --- what a QR symbol held ----------------------------------------------------------------------


def test_a_bare_code_or_a_tag_address_is_read() -> None:
    code = sample(1)[0]
    for text in (
        code,
        f"\n{code} ",
        f"https://bench.local:8443/tag/{code}",
        f"http://127.0.0.1/deep/down/tag/{code}/",
        f"HTTPS://BENCH.LOCAL/TAG/{code}",
    ):
        assert read_payload(text).code == code


def test_the_camera_folds_nothing_in_a_bare_code() -> None:
    code = with_check_symbols("0ABC1DEF")
    for text in (code.lower(), grouped(code), code.replace("0", "O"), code.replace("1", "I")):
        assert read_payload(text).reason == "foreign"


@pytest.mark.parametrize(
    ("text", "reason", "words"),
    [
        ("", "empty", "holds nothing"),
        ("https://example.org/offer", "foreign", "web address that is not a tag"),
        ("WIFI:S:shed;;", "foreign", "something else"),
        ("ftp://bench.local/tag/7777777777", "foreign", "something else"),
        ("ABCDEFGH00", "check", "not one of your tags"),
        ("https://bench.local/tag/", "empty", "ends like a tag's"),
        ("https://bench.local/tag/ABCDEFGH00", "check", "do not belong together"),
        ("https://bench.local/tag/ABC", "length", "7 are missing"),
        ("https://bench.local/tag/ABCDE%20F00", "symbol", "“%” in place 6"),
    ],
)
def test_other_symbols_get_a_reason(text: str, reason: str, words: str) -> None:
    found = read_payload(text)
    assert (found.code, found.reason) == ("", reason)
    assert words in found.sentence


# --- the vectors the phone runs -----------------------------------------------------------------


def test_vectors_are_the_same_each_time_and_cover_every_reason() -> None:
    [(path, text)] = outputs().items()
    assert path == "tests/vectors/tagcode.json" and outputs()[path] == text
    vectors = json.loads(text)
    reasons = {"", "empty", "symbol", "length", "check"}
    assert {case["reason"] for case in vectors["check"]} == reasons
    assert {case["reason"] for case in vectors["payload"]} == reasons | {"foreign"}
    whys = {found["why"] for case in vectors["suggest"]["cases"] for found in case["found"]}
    every = {"same", "last", "first", "one-wrong", "swapped", "one-missing", "one-extra"}
    assert whys == every
