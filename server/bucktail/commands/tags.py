"""`bucktail tags`: makes blank tags, checks typed codes, prints labels."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable
from datetime import UTC, datetime
from pathlib import Path
from typing import TypeAlias

from bucktail.commands.folders import add_workshop_option, own_workshop
from bucktail.commands.whole_file import CannotWrite, WholeFile
from bucktail.tags.code import NoUnusedCode, check
from bucktail.tags.draw import RESOLUTIONS, SIZES, CannotPrint
from bucktail.tags.paper import COMMON_GRIDS, SHEET_NAMES
from bucktail.tags.payload import read_payload
from bucktail.tags.sheet import MOST_LABELS, LabelText, Printed, Printing, plan, print_labels

Parsers: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"

_PRINT_HELP = """\
Makes a PDF of tags: a QR symbol, the code in two groups of five, and the name
of the thing the tag is on. For an offcut also alloy, thickness and a grain
arrow: stick it on along the grain.

  bucktail tags print --out tags.pdf --new 21
  bucktail tags print --out tags.pdf --size bin --paper letter C03ZM-HVP8Z
  bucktail tags print --out tags.pdf --paper 50x25mm --dpi 203 --stdin < codes

Print the file at actual size (100 %) on a printer of the resolution given with
--dpi, so that every square is a whole number of dots. Sheets carry a bar: if
it is not 100 mm, printing was scaled."""


def add_parser(subparsers: Parsers) -> None:
    """bucktail tags new | check | print."""
    parser = subparsers.add_parser(
        "tags",
        help="make, check and print tags",
        description="Makes blank tags, checks typed codes, and prints labels.",
    )
    actions = parser.add_subparsers(dest="action", required=True, metavar="ACTION")
    _add_new(actions)
    _add_check(actions)
    _add_print(actions)


def _add_new(actions: Parsers) -> None:
    parser = actions.add_parser(
        "new",
        help="make blank tags and list their codes",
        description="Makes blank tags in the workshop, which is made if it is not there, and "
        "prints one ten-symbol code a line. A blank tag is attached to a part, an offcut or a "
        "place with the phone.",
    )
    parser.add_argument(
        "-n", dest="count", type=int, required=True, metavar="N", help=f"how many, 1-{MOST_LABELS}"
    )
    add_workshop_option(parser)
    parser.set_defaults(run=run_new)


def _add_check(actions: Parsers) -> None:
    parser = actions.add_parser(
        "check",
        help="check typed codes",
        description="Reads codes, or what a QR reader returned, one a line, and answers each "
        "line with 'ok CODE' or 'bad TEXT REASON'. Says whether a code is well formed, not "
        "whether it is in use. Exit code 1 if any line was bad.",
    )
    parser.set_defaults(run=run_check)


def _add_print(actions: Parsers) -> None:
    grids = "".join(
        f"\n  {SHEET_NAMES[sheet]}: {grid.name}"
        for sheet, listed in COMMON_GRIDS.items()
        for grid in listed
    )
    parser = actions.add_parser(
        "print",
        help="make a PDF of labels",
        description=_PRINT_HELP,
        epilog=f"common label sheets (from memory: measure yours):{grids}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("codes", nargs="*", metavar="CODE", help="tags to print")
    parser.add_argument("--new", type=int, metavar="N", help="make N blank tags and print them")
    parser.add_argument("--stdin", action="store_true", help="read codes to print, one a line")
    parser.add_argument("--out", type=Path, required=True, metavar="FILE.pdf", help="the PDF")
    parser.add_argument("--replace", action="store_true", help="write over FILE.pdf")
    _add_how(parser)
    add_workshop_option(parser)
    parser.set_defaults(run=run_print)


def _add_how(parser: argparse.ArgumentParser) -> None:
    """The options that say how the labels look and what they are printed on."""
    parser.add_argument(
        "--size",
        default="normal",
        metavar="SIZE",
        help="; ".join(
            f"{size.name}, {size.square_least_mm:g}-{size.square_most_mm:g} mm"
            for size in SIZES.values()
        )
        + " (default: normal)",
    )
    parser.add_argument(
        "--paper",
        default="a4",
        metavar="PAPER",
        help="a4, letter, or one label of a label printer such as 50x25mm (default: a4)",
    )
    parser.add_argument(
        "--dpi",
        type=int,
        default=300,
        metavar="DPI",
        help=f"the printer's dots an inch: {', '.join(map(str, RESOLUTIONS))} (default: 300)",
    )
    parser.add_argument(
        "--grid",
        default="",
        metavar="CxR",
        help="labels on the sheet, columns x rows; with measures in mm CxR:WxH or, with the gaps "
        "between labels, CxR:WxH+GXxGY",
    )
    parser.add_argument(
        "--skip", type=int, default=0, metavar="K", help="labels already used on the first sheet"
    )
    parser.add_argument(
        "--address",
        default="",
        metavar="URL",
        help="put URL/tag/CODE into the symbol, so that a phone's own camera opens it; the code "
        "alone reads from further off",
    )


def run_new(options: argparse.Namespace) -> int:
    """Make blank tags and list their codes."""
    try:
        codes = _new_tags(options.workshop or own_workshop(), options.count)
    except (CannotPrint, NoUnusedCode) as trouble:
        return _sorry(trouble)
    for code in codes:
        print(code)
    return 0


def _new_tags(folder: Path, count: int) -> list[str]:
    from bucktail.workshop.printing import record_new_tags

    _require_count(count)
    return record_new_tags(folder, count)


def _require_count(count: int) -> None:
    if not 1 <= count <= MOST_LABELS:
        raise CannotPrint(f"Ask for 1 to {MOST_LABELS} new tags at a time, not {count}.")


def run_check(_options: argparse.Namespace) -> int:
    """Judge every line of standard input."""
    worst = 0
    for line in _lines():
        found = read_payload(line) if "://" in line else check(line)
        if found.ok:
            print(f"ok {found.code}")
        else:
            worst = 1
            print(f"bad {_visible(line)} {found.sentence}")
    return worst


def _lines() -> Iterable[str]:
    """Lines of standard input, trimmed; bytes that are no text become replacement characters."""
    for number, line in enumerate(sys.stdin.buffer):
        text = line.decode("utf-8", errors="replace")
        yield (text.removeprefix("\ufeff") if number == 0 else text).strip(" \t\r\n")


def _visible(text: str) -> str:
    """The text with control characters, and the backslash that marks them, escaped."""
    return "".join(
        ch if ch.isprintable() and ch != "\\" else ch.encode("unicode_escape").decode()
        for ch in text
    )


def run_print(options: argparse.Namespace) -> int:
    """Make the PDF. New tags are recorded only once the file can be written."""
    how = Printing(
        size=options.size,
        paper=options.paper,
        dpi=options.dpi,
        grid=options.grid,
        skip=options.skip,
        address=options.address,
    )
    try:
        laid = plan(how)
        codes = _wanted(options)
        with WholeFile(options.out, options.replace) as out:
            folder = options.workshop or own_workshop()
            made = [] if codes else _new_tags(folder, options.new)
            not_printed = made
            try:
                printed = _print(folder, codes or made, how)
                out.write(printed.pdf)
                not_printed = []
            finally:
                _list(not_printed)
    except (CannotPrint, CannotWrite, NoUnusedCode) as trouble:
        return _sorry(trouble)
    for note in printed.notes:
        print(f"bucktail: {note}", file=sys.stderr)
    tags, pages = len(codes or made), printed.pages
    print(f"{_count(tags, 'tag')} on {_count(pages, 'page')} in {options.out}. {laid.summary}.")
    return 0


def _print(folder: Path, codes: list[str], how: Printing) -> Printed:
    from bucktail.workshop.printing import names_for

    texts: dict[str, LabelText] = names_for(folder, codes)
    labels = [(code, texts.get(code, LabelText())) for code in codes]
    return print_labels(labels, how, datetime.now(UTC))


def _wanted(options: argparse.Namespace) -> list[str]:
    """The codes asked for, checked; empty when new ones are to be made."""
    ways = [bool(options.codes), options.stdin, options.new is not None]
    if sum(ways) != 1:
        raise CannotPrint("Say which tags to print: codes, or --stdin, or --new N; one of these.")
    if options.new is not None:
        _require_count(options.new)
        return []
    typed = [line for line in _lines() if line] if options.stdin else options.codes
    if not typed:
        raise CannotPrint("There is no tag to print: no codes came in.")
    if len(typed) > MOST_LABELS:
        raise CannotPrint(f"{len(typed)} tags are too many for one file: {MOST_LABELS} at most.")
    codes = []
    for place, text in enumerate(typed, start=1):
        found = check(text)
        if not found.ok:
            raise CannotPrint(f"Code {place}, {_visible(text)}: {found.sentence} Nothing was made.")
        codes.append(found.code)
    return codes


def _list(codes: list[str]) -> None:
    """Name new tags that are recorded but stand on no paper, so that none is lost."""
    if codes:
        print(
            f"bucktail: {_count(len(codes), 'blank tag')} made and recorded, but not printed. "
            "Print them by their codes:",
            *codes,
            sep="\n",
            file=sys.stderr,
        )


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _sorry(trouble: Exception) -> int:
    print(f"bucktail: {trouble}", file=sys.stderr)
    return 1
