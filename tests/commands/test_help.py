"""Every command and every option says what it is for."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

import pytest

from bucktail.cli import parser


def all_parsers() -> Iterator[tuple[str, argparse.ArgumentParser]]:
    """("serve", its parser), ("outbox import", its parser) and so on, the whole tree."""

    def below(words: str, made: argparse.ArgumentParser) -> Iterator[tuple[str, object]]:
        yield words, made
        for action in made._actions:
            if isinstance(action, argparse._SubParsersAction):
                for name, inner in action.choices.items():
                    yield from below(f"{words} {name}".strip(), inner)

    yield from below("", parser())  # type: ignore[misc]


ALL = dict(all_parsers())


def test_the_commands_are_all_there() -> None:
    expected = {"serve", "pair", "setup", "tags print", "outbox import", "outbox list", "rebuild"}
    assert expected <= set(ALL)


@pytest.mark.parametrize("words", ALL, ids=lambda words: words or "bucktail")
def test_help_is_printed_and_says_what_the_command_is_for(words, bucktail, monkeypatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    said = bucktail(*words.split(), "--help")
    assert said.code == 0
    assert said.err == ""
    assert said.out.startswith(f"usage: bucktail {words}".rstrip())
    description = ALL[words].description or ""
    assert description.split()[:6] == said.out.split("\n\n", 1)[1].split()[:6]
    assert len(description.split()) >= 8


@pytest.mark.parametrize("words", ALL, ids=lambda words: words or "bucktail")
def test_every_option_is_explained(words) -> None:
    for action in ALL[words]._actions:
        if isinstance(action, argparse._SubParsersAction):
            unexplained = set(action.choices) - {one.dest for one in action._choices_actions}
            assert unexplained == set()
        else:
            assert action.help, f"{words}: {action.dest}"


@pytest.mark.parametrize("words", ["serve", "pair", "setup", "outbox import", "rebuild"])
def test_help_fits_a_terminal_of_eighty_columns(words, bucktail, monkeypatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    long = [line for line in bucktail(*words.split(), "--help").out.splitlines() if len(line) > 80]
    assert long == []


def test_an_unknown_command_names_those_there_are(bucktail) -> None:
    said = bucktail("fly")
    assert said.code == 2
    assert "'serve'" in said.err
