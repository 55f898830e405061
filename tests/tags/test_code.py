"""The ten-symbol code: what it refuses and how one is made."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bucktail.tags.code import (
    ALPHABET,
    MOST_TRIES,
    NoUnusedCode,
    check,
    is_code,
    new_code,
    syndromes,
    times,
    with_check_symbols,
)
from bucktail.tags.vectors import fixed_draws

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


# --- the field and the code ---------------------------------------------------------------------


def test_the_alphabet_leaves_out_what_is_misread() -> None:
    assert len(ALPHABET) == len(set(ALPHABET)) == 32
    assert not set("ILOU") & set(ALPHABET)


def test_the_field_has_an_element_of_order_31() -> None:
    powers = list(itertools.accumulate(range(31), lambda value, _: times(value, 2), initial=1))
    assert len(set(powers[:31])) == 31 and powers[31] == 1  # x^5 + x^2 + 1 is primitive
    assert powers[5] == 0b101  # x^5 = x^2 + 1


def test_multiplication_is_that_of_a_field() -> None:
    for a, b in itertools.product(range(32), repeat=2):
        assert times(a, b) == times(b, a)
        assert (times(a, b) == 0) == (a == 0 or b == 0)
        for c in (1, 7, 19, 31):
            assert times(a, times(b, c)) == times(times(a, b), c)
            assert times(a, b ^ c) == times(a, b) ^ times(a, c)


@given(SYMBOLS)
def test_the_first_eight_symbols_are_the_data(data: str) -> None:
    code = with_check_symbols(data)
    assert code[:8] == data and len(code) == 10 and is_code(code)


@given(SYMBOLS, SYMBOLS)
def test_codes_differ_in_three_places_or_more(left: str, right: str) -> None:
    pairs = zip(with_check_symbols(left), with_check_symbols(right), strict=True)
    differ = sum(a != b for a, b in pairs)
    assert differ >= 3 or left == right


@pytest.mark.parametrize("data", ["", "0000000", "000000000", "0000000U", "0000000a"])
def test_only_eight_symbols_of_the_alphabet_are_completed(data: str) -> None:
    with pytest.raises(ValueError, match="8 symbols"):
        with_check_symbols(data)


# --- every single, double and swapped symbol ----------------------------------------------------


def syndromes_of(*errors: tuple[int, int]) -> tuple[int, int]:
    word = [0] * 10
    for place, value in errors:
        word[place] = value
    return syndromes(word)


@given(SYMBOLS, st.lists(st.integers(0, 31), min_size=10, max_size=10))
def test_a_wrong_word_has_the_syndromes_of_its_error_alone(data: str, error: list[int]) -> None:
    """Linearity: what makes the two tests below a proof for all 2^40 codes."""
    values = [ALPHABET.index(symbol) for symbol in with_check_symbols(data)]
    received = [value ^ wrong for value, wrong in zip(values, error, strict=True)]
    assert syndromes(received) == syndromes(error)


def test_every_single_error_is_refused_in_every_code() -> None:
    errors = [(place, value) for place in PLACES for value in range(1, 32)]
    assert len(errors) == 310
    assert all(syndromes_of(error) != (0, 0) for error in errors)


def test_every_double_error_is_refused_in_every_code() -> None:
    """45 pairs of places x 31 x 31 errors; a swap is a double error of two equal values."""
    tried = 0
    for left, right in itertools.combinations(PLACES, 2):
        for one, two in itertools.product(range(1, 32), repeat=2):
            tried += 1
            assert syndromes_of((left, one), (right, two)) != (0, 0)
    assert tried == 45 * 31 * 31


def test_single_errors_directly() -> None:
    for code in sample(200):
        for place in PLACES:
            for symbol in ALPHABET.replace(code[place], ""):
                wrong = replaced(code, (place, symbol))
                assert not is_code(wrong), f"{wrong} passes for {code}"


def test_double_errors_directly() -> None:
    for code in sample(4):
        for left, right in itertools.combinations(PLACES, 2):
            for one in ALPHABET.replace(code[left], ""):
                for two in ALPHABET.replace(code[right], ""):
                    assert not is_code(replaced(code, (left, one), (right, two)))


def test_swaps_directly() -> None:
    tried = 0
    for code in sample(2000):
        for left, right in itertools.combinations(PLACES, 2):
            if code[left] != code[right]:
                tried += 1
                assert not is_code(replaced(code, (left, code[right]), (right, code[left])))
    assert tried > 80_000


def test_look_alikes_that_are_both_in_use_are_told_apart() -> None:
    """5 S, 8 B, 2 Z, 6 G, 0 D, 0 Q, V W, 1 7: any of them misread once or twice in one code."""
    pairs = ("5S", "8B", "2Z", "6G", "0D", "0Q", "VW", "17", "MN", "3B")
    other = {a: b for pair in pairs for a, b in (pair, pair[::-1])}
    tried = 0
    for code in sample(3000):
        places = [place for place in PLACES if code[place] in other]
        for count in (1, 2):
            for chosen in itertools.combinations(places, count):
                tried += 1
                wrong = replaced(code, *((place, other[code[place]]) for place in chosen))
                assert check(wrong).reason == "check"
    assert tried > 10_000


def test_three_wrong_symbols_pass_about_once_in_1024() -> None:
    draw = fixed_draws("noise")
    words = ("".join(ALPHABET[draw(32)] for _ in range(10)) for _ in range(40_000))
    passed = sum(is_code(word) for word in words)
    assert 15 < passed < 75  # 39 expected


# --- making codes -------------------------------------------------------------------------------


def test_new_codes_are_valid_and_not_taken() -> None:
    codes = sample(500)
    assert len(set(codes)) == 500 and all(map(is_code, codes))


def recorded(values: list[int]) -> Callable[[int], int]:
    left = iter(values)
    return lambda below: next(left)


def test_a_taken_code_is_drawn_again() -> None:
    first = new_code(recorded([1] * 8), ())
    again = new_code(recorded([1] * 8 + [1] * 8 + [2] * 8), {first})
    assert again == with_check_symbols("22222222") != first


def test_a_source_that_repeats_itself_ends_with_a_clear_error() -> None:
    calls = 0

    def stuck(below: int) -> int:
        nonlocal calls
        calls += 1
        return 5

    with pytest.raises(NoUnusedCode, match="random numbers repeats itself"):
        new_code(stuck, {with_check_symbols("55555555")})
    assert calls == 8 * MOST_TRIES


@pytest.mark.parametrize("value", [-1, 32])
def test_a_source_outside_its_range_is_an_error(value: int) -> None:
    with pytest.raises(ValueError, match="outside 0-31"):
        new_code(lambda below: value, ())
