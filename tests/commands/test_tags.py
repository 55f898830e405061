"""`bucktail tags`: new, check and print, run as a person would, in a workshop of its own."""

from __future__ import annotations

import argparse
import io
import sys
from pathlib import Path

import pypdfium2
import pytest

from bucktail.commands import tags
from bucktail.storage.codes import all_codes
from bucktail.storage.opening import open_workshop
from bucktail.tags.code import is_code, with_check_symbols
from bucktail.tags.sheet import LabelText
from bucktail.workshop import printing

ONE, TWO = with_check_symbols("C03ZMHVP"), with_check_symbols("VHKPZ4DD")


class Bench:
    """Runs commands and keeps what they said."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.folder = folder
        self.workshop = folder / "workshop"
        self.out = folder / "tags.pdf"
        self._capsys = capsys

    def run(self, *words: str) -> tuple[int, str, str]:
        parser = argparse.ArgumentParser(prog="bucktail")
        tags.add_parser(parser.add_subparsers(required=True))
        options = parser.parse_args(["tags", *words])
        code = options.run(options)
        said = self._capsys.readouterr()
        return code, said.out, said.err

    def print(self, *words: str) -> tuple[int, str, str]:
        return self.run("print", "--out", str(self.out), "--workshop", str(self.workshop), *words)

    def recorded(self) -> set[str]:
        with open_workshop(self.workshop) as session:
            return set(all_codes(session))

    def words_on_paper(self) -> str:
        pages = pypdfium2.PdfDocument(self.out.read_bytes())
        return "\n".join(page.get_textpage().get_text_range() for page in pages)


@pytest.fixture
def bench(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Bench:
    return Bench(tmp_path, capsys)


def typed(monkeypatch: pytest.MonkeyPatch, text: bytes) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text)))


# --- new -----------------------------------------------------------------------------------------


def test_new_tags_are_listed_and_recorded_in_a_workshop_made_for_them(bench: Bench) -> None:
    assert not bench.workshop.exists()
    code, out, err = bench.run("new", "-n", "12", "--workshop", str(bench.workshop))
    listed = out.splitlines()
    assert (code, err, len(listed)) == (0, "", 12)
    assert all(is_code(each) for each in listed)
    assert bench.recorded() == set(listed)
    _, more, _ = bench.run("new", "-n", "3", "--workshop", str(bench.workshop))
    assert bench.recorded() == {*listed, *more.split()} and len(bench.recorded()) == 15


@pytest.mark.parametrize("count", ["0", "-4", "1001"])
def test_a_count_out_of_range_makes_nothing(bench: Bench, count: str) -> None:
    code, out, err = bench.run("new", f"-n{count}", "--workshop", str(bench.workshop))
    assert (code, out) == (1, "") and "Ask for 1 to 1000 new tags" in err
    assert not bench.workshop.exists()


# --- check ---------------------------------------------------------------------------------------


def test_check_answers_every_line(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = [
        ONE,
        f"  {TWO[:5].lower()}-{TWO[5:]}\t",
        ONE[:9],
        "",
        f"https://bench.local/tag/{ONE}",
        "https://example.org/",
        "abc\x1b[31m\\",
    ]
    typed(monkeypatch, b"\xef\xbb\xbf" + "\r\n".join(lines).encode() + b"\n\xff\xfe")
    code, out, err = bench.run("check")
    answers = out.splitlines()
    assert (code, err) == (1, "")
    assert answers[:2] == [f"ok {ONE}", f"ok {TWO}"]
    assert answers[2] == f"bad {ONE[:9]} A tag has 10 symbols and this has 9: 1 is missing."
    assert answers[3] == "bad  Type the ten symbols on the tag, two groups of five."
    assert answers[4] == f"ok {ONE}"
    assert answers[5].startswith("bad https://example.org/ This QR code holds a web address")
    assert answers[6].startswith(r"bad abc\x1b[31m\\ “U+001B” in place 4")
    assert answers[7].startswith("bad \ufffd\ufffd “") and len(answers) == 8


def test_check_is_content_when_every_line_is_good(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, f"{ONE}\n{TWO}\n".encode())
    assert bench.run("check") == (0, f"ok {ONE}\nok {TWO}\n", "")
    typed(monkeypatch, b"")
    assert bench.run("check") == (0, "", "")


# --- print ---------------------------------------------------------------------------------------


def test_print_named_and_unnamed_tags(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    named = {ONE: LabelText("Left rear spar web")}
    monkeypatch.setattr(printing, "names_for", lambda folder, codes: named)
    code, out, err = bench.print(ONE.lower(), f"{TWO[:5]} {TWO[5:]}")
    assert (code, err) == (0, "")
    assert out.startswith(f"2 tags on 1 page in {bench.out}. A4, 3 x 7 labels of 63.5 x 38.1 mm")
    words = bench.words_on_paper()
    for group in (ONE[:5], ONE[5:], TWO[:5], TWO[5:], "Left rear spar web"):
        assert group in words


def test_print_new_tags(bench: Bench) -> None:
    code, out, _ = bench.print("--new", "2", "--paper", "50x25mm", "--dpi", "203")
    assert code == 0 and out.startswith("2 tags on 2 pages")
    words = bench.words_on_paper()
    assert len(bench.recorded()) == 2
    assert all(tag[:5] in words and tag[5:] in words for tag in bench.recorded())


def test_print_codes_from_standard_input(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    typed(monkeypatch, f"{ONE}\n\n{TWO}\n".encode())
    code, out, _ = bench.print("--stdin", "--size", "bin", "--skip", "7")
    assert code == 0 and out.startswith("2 tags on 2 pages")
    assert bench.recorded() == set(), "printing existing tags makes none"


def test_what_does_not_fit_is_said(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    text = LabelText("Outboard leading edge skin, left, lower, forward of the spar")
    monkeypatch.setattr(printing, "names_for", lambda folder, codes: {ONE: text})
    code, _, err = bench.print(ONE, "--size", "tiny")
    assert code == 0 and f"{ONE[:5]} {ONE[5:]}: shortened to" in err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "one of these"),
        ((ONE, "--new", "3"), "one of these"),
        (("--new", "0"), "1 to 1000 new tags"),
        ((ONE, TWO[:7]), f"Code 2, {TWO[:7]}: A tag has 10 symbols and this has 7"),
        ((ONE, "a\x07"), r"Code 2, a\x07: “U+0007” in place 2"),
        ((ONE, "--size", "huge"), "say tiny, normal, bin"),
        (("--new", "3", "--paper", "20x20mm"), "The smallest that would do are"),
        (("--new", "3", "--skip", "21"), "skip 0 to 20"),
        (("--new", "3", "--grid", "3by7"), "columns x rows"),
        (("--new", "3", "--address", "bench.local"), "must begin with https://"),
    ],
)
def test_a_wrong_request_makes_and_records_nothing(
    bench: Bench, words: tuple[str, ...], said: str
) -> None:
    code, out, err = bench.print(*words)
    assert (code, out) == (1, "") and said in err
    assert list(bench.folder.iterdir()) == []


def test_a_file_already_there_is_kept(bench: Bench) -> None:
    bench.out.write_text("precious")
    code, _, err = bench.print("--new", "1")
    assert code == 1 and "is already there and was left as it is" in err
    assert bench.out.read_text() == "precious" and not bench.workshop.exists()
    assert bench.print(ONE, "--replace")[0] == 0
    assert bench.out.read_bytes().startswith(b"%PDF")


def test_a_folder_that_is_not_there_is_said_before_tags_are_made(bench: Bench) -> None:
    bench.out = bench.folder / "nowhere" / "tags.pdf"
    code, _, err = bench.print("--new", "1")
    assert code == 1 and "cannot be written (No such file or directory)" in err
    bench.out = bench.folder
    assert "is a folder" in bench.print("--new", "1", "--replace")[2]
    assert list(bench.folder.iterdir()) == []


def test_new_tags_that_could_not_be_printed_are_named(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    code, _, err = bench.print("--new", "2")
    assert code == 1 and "could not be written (No space left on device)" in err
    assert "2 blank tags made and recorded, but not printed" in err
    assert all(tag in err for tag in bench.recorded()) and len(bench.recorded()) == 2
    assert [each.name for each in bench.folder.iterdir()] == ["workshop"], "no half a file is left"
