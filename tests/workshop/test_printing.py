"""New tags are recorded before they are shown, and paper says what a tag is on."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from bucktail.storage.cards import states
from bucktail.storage.codes import all_codes
from bucktail.storage.opening import open_workshop
from bucktail.tags.code import ALPHABET, NoUnusedCode, is_code
from bucktail.workshop.printing import RUN, names_for, record_new_tags
from bucktail.workshop.recorder import Recorder


def test_new_tags_are_recorded_in_a_workshop_that_is_made_if_absent(tmp_path: Path) -> None:
    made = record_new_tags(tmp_path / "new", RUN + 3)
    assert len(set(made)) == RUN + 3
    assert all(is_code(code) for code in made)
    with open_workshop(tmp_path / "new") as session:
        assert all_codes(session) == set(made)
        assert sorted(len(state["codes"]) for _, state in states(session, "tags")) == [3, RUN]


def test_a_random_source_that_repeats_itself_is_asked_again(tmp_path: Path) -> None:
    first = record_new_tags(tmp_path, 1, draw=random.Random(1).randrange)
    # the same seed again would give the same code first, which is taken by now
    again = record_new_tags(tmp_path, 1, draw=random.Random(1).randrange)
    assert first != again


def test_a_source_that_never_changes_ends_in_a_clear_error(tmp_path: Path) -> None:
    record_new_tags(tmp_path, 1, draw=lambda _n: 0)
    with pytest.raises(NoUnusedCode, match="random"):
        record_new_tags(tmp_path, 1, draw=lambda n: n - len(ALPHABET))
    with open_workshop(tmp_path) as session:
        assert len(all_codes(session)) == 1


def test_paper_names_the_part_and_the_metal_of_an_offcut(tmp_path: Path) -> None:
    part, offcut, blank = record_new_tags(tmp_path, 3)
    rectangle = {
        "kind": "rectangle",
        "a": {"nm": 254_000_000, "text": "10"},
        "b": {"nm": 127_000_000, "text": "5"},
    }
    stock = {
        "alloy": "2024",
        "temper": "T3",
        "clad": "clad",
        "form": "sheet",
        "thickness": {"nm": 812_800, "text": ".032"},
        "measured": "over film",
        "known_by": "mill marking",
        "shape": rectangle,
        "grain": "a",
    }
    with open_workshop(tmp_path) as session:
        recorder = Recorder(session)
        rib = recorder.record("part.added.v1", {"name": 'Rib "4"', "number": "=1+1"})
        recorder.record("tag.attached.v1", {"code": part, "on": "metal"}, subject=rib)
        sheet = recorder.record("offcut.added.v1", stock)
        recorder.record("tag.attached.v1", {"code": offcut, "on": "metal"}, subject=sheet)
    texts = names_for(tmp_path, [part, offcut, blank])
    assert set(texts) == {part, offcut}
    assert (texts[part].name, texts[part].detail) == ('Rib "4"', ("=1+1",))
    assert texts[offcut].name == "2024-T3 clad"
    assert texts[offcut].detail == (".032 in over film",)
    assert texts[offcut].grain_arrow


def test_paper_names_the_section_of_a_length_of_stock(tmp_path: Path) -> None:
    (tag,) = record_new_tags(tmp_path, 1)
    inch = {"nm": 25_400_000, "text": "1"}
    stock = {
        "alloy": "6061",
        "temper": "T6",
        "clad": "bare",
        "form": "angle",
        "section": {"sides": [inch, {"nm": 19_050_000, "text": "3/4"}], "hand": "none"},
        "thickness": {"nm": 1_600_200, "text": ".063"},
        "measured": "bare",
        "known_by": "mill marking",
        "shape": {"kind": "length", "length": {"nm": 609_600_000, "text": "24"}},
        "grain": "unknown",
    }
    with open_workshop(tmp_path) as session:
        recorder = Recorder(session)
        length = recorder.record("offcut.added.v1", stock)
        recorder.record("tag.attached.v1", {"code": tag, "on": "metal"}, subject=length)
    text = names_for(tmp_path, [tag])[tag]
    assert text.name == "6061-T6 bare"
    assert text.detail == ("angle 1 x 3/4 in", "wall .063 in")
    assert not text.grain_arrow
