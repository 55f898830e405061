"""`bucktail reckon`: answers, refusals, and that it needs nothing but itself."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from bucktail.rules.rulebook import SUMS

STACK = ("stack=.032,.040", "diameter=1/8")


def test_an_answer_is_one_flat_object(bucktail) -> None:
    said = bucktail("reckon", "rivet", *STACK, "--json")
    assert (said.code, said.err) == (0, "")
    answer = json.loads(said.out)
    assert said.out.count("\n") == 1
    assert answer["verdict"] == "meets"
    assert answer["part_number"] == "MS20470AD4-4"
    assert answer["length_mm"] == 6.35
    assert (
        answer["read_as"] == "stack .032 in + .040 in; diameter 1/8 in; head protruding; kind solid"
    )
    assert not any(isinstance(value, dict) for value in answer.values())
    assert {"verdict", "source", "caution", "read_as"} <= set(answer)


def test_an_answer_to_read_has_a_line_for_everything(bucktail) -> None:
    said = bucktail("reckon", "rivet", *STACK)
    answer = json.loads(bucktail("reckon", "rivet", *STACK, "--json").out)
    assert said.code == 0
    lines = dict(line.split(maxsplit=1) for line in said.out.splitlines())
    assert lines == {key: str(value) for key, value in answer.items() if value != ""}


@pytest.mark.parametrize(
    ("asked", "verdict"),
    [
        (("rivet", *STACK), "meets"),
        (("edge", "edge=.1875", "diameter=1/8"), "fails"),
        (("diameter", "sheets=.032"), "check"),
        (("flush", "thickness=.040", "diameter=1/8", "angle=120"), "not covered"),
    ],
)
def test_any_verdict_ends_with_0(bucktail, asked, verdict) -> None:
    said = bucktail("reckon", *asked, "--json")
    assert said.code == 0
    assert json.loads(said.out)["verdict"] == verdict


@pytest.mark.parametrize(
    ("asked", "said_so"),
    [
        (("fly",), "There is no sum \u201cfly\u201d. The sums are: rivet, edge, flush, hole"),
        (("rivet", "stack=.032"), "diameter: Rivet diameter is needed, for example diameter=1/8."),
        (("rivet",), "stack: Layers from the factory head is needed"),
        (("rivet", *STACK, "colour=red"), "colour: The sum rivet takes stack, diameter, head"),
        (("rivet", *STACK, "diameter=1/8"), "diameter: It is given twice. Give it once."),
        (("rivet", "stack"), "\u201cstack\u201d has no =. Write key=value"),
        (("rivet", *STACK, "head="), "head: Nothing is written after the =."),
        (("rivet", "stack=.032,.040", "diameter=abc"), "diameter: \u201cabc\u201d cannot be read"),
        (("rivet", "stack=-.032", "diameter=1/8"), "cannot be below zero"),
        (("rivet", "stack=0", "diameter=1/8"), "must be more than zero"),
        (("rivet", "stack=1e9", "diameter=1/8"), "Write the figure out in full"),
        (("rivet", "stack=.032 in 0.8 mm", "diameter=1/8"), "one length in one unit"),
        (("rivet", "stack=.8", "diameter=1/8"), "Which did you mean, .8 in or .8 mm?"),
        (("rivet", "stack=" + "x" * 1000, "diameter=1/8"), "That is too much text."),
        (("rivet", "stack=\U0001f600", "diameter=1/8"), "Write inches as 1/32"),
        (("hole", "diameter=7/64"), "Rivet diameters are 1/16"),
    ],
)
def test_what_cannot_be_read_ends_with_2_and_a_sentence(bucktail, asked, said_so) -> None:
    said = bucktail("reckon", *asked)
    assert said.code == 2
    assert said.out == ""
    assert said_so in said.err
    assert said.err.count("\n") == 1
    as_json = bucktail("reckon", *asked, "--json")
    assert as_json.code == 2
    told = json.loads(as_json.out)
    assert set(told) == {"unreadable", "why"}
    assert told["why"] + "\n" == said.err


def test_the_unit_is_that_of_bare_figures_and_of_the_sentences(bucktail) -> None:
    inches = json.loads(bucktail("reckon", "edge", "edge=.25", "diameter=1/8", "--json").out)
    metric = bucktail("reckon", "edge", "edge=6.35", "diameter=3.2", "--unit", "mm", "--json")
    found = json.loads(metric.out)
    assert "1/4 in" in inches["why"]
    assert "6.35 mm" in found["why"]
    assert found["read_as"] == "edge 6.35 mm; diameter 3.18 mm; head protruding"
    assert found["edge_d"] == inches["edge_d"] == 2
    assert bucktail("reckon", "edge", "edge=1/4", "diameter=1/8", "--unit", "ft").code == 2


def test_the_help_lists_every_sum_with_what_it_takes(bucktail) -> None:
    said = bucktail("reckon", "--help").out
    for one in SUMS:
        assert f"\n  {one.name}" in said
        assert one.question in said
        for take in one.takes:
            assert f"{take.key}={take.example}" in said


def test_every_sum_answers_its_own_example(bucktail) -> None:
    for one in SUMS:
        needed = [f"{take.key}={take.example}" for take in one.takes if not take.optional]
        said = bucktail("reckon", one.name, *needed, "--json")
        answer = json.loads(said.out)
        if said.code == 2:  # a mass asks for one of two ways to give its size
            assert answer["unreadable"] == "length", (one.name, answer)
        else:
            assert answer["verdict"] != "not covered", (one.name, answer)


def test_it_opens_nothing_and_needs_no_home() -> None:
    """A process of its own, with no home, no workshop, and every way to a database barred."""
    program = (
        "import builtins, socket, sqlite3, sys\n"
        "from bucktail.storage import opening\n"
        "from bucktail import cli\n"
        "def barred(*_, **__): raise AssertionError('opened')\n"
        "opening.open_workshop = sqlite3.connect = socket.socket.connect = barred\n"
        "sys.exit(cli.main(['reckon', 'rivet', 'stack=.032,.040', 'diameter=1/8', '--json']))\n"
    )
    done = subprocess.run(
        [sys.executable, "-I", "-c", program],
        capture_output=True,
        text=True,
        check=False,
        cwd="/",
        env={"HOME": "/nowhere/at/all", "BUCKTAIL_WORKSHOP": "/nowhere/workshop"},
    )
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["dash"] == 4


def test_a_reader_that_has_enough_is_no_trouble() -> None:
    command = f"{sys.executable} -m bucktail.cli reckon --help | head -1"
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("usage: bucktail reckon")
