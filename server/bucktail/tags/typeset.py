"""Setting the words of a label into the room beside or below its symbol.

The code comes first, two groups of five in bold, one above the other. Below it the name, the
detail lines and the grain arrow. Type shrinks before anything is cut; a name is cut before
a detail line is left off; whatever was cut or left off is reported. Lengths are printer dots,
type sizes points.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from bucktail.tags.lettering import CAP_HEIGHT, LINE, Lettering, Line

CODE_LEAST_POINTS = 6.0
TEXT_LEAST_POINTS = 5.0
CODE_PITCH = 0.95  # from the first group's line to the second's, in type sizes
CODE_EMS = CODE_PITCH + CAP_HEIGHT  # height of both groups, in type sizes
NAME_LINES = 4
GAP = 0.34  # between the code and the text below it, in type sizes of the code


@dataclass(frozen=True)
class LabelText:
    """What stands on a label besides its code; all of it may be empty.

    `grain_arrow` draws a double-headed arrow along the label: it is stuck on along the grain.
    """

    name: str = ""
    detail: tuple[str, ...] = ()
    grain_arrow: bool = False


@dataclass(frozen=True)
class Block:
    """The words of one label as they will stand: code size, lines, arrow, what was lost."""

    code_points: float
    text_points: float
    lines: tuple[Line, ...]
    arrow: bool
    notes: tuple[str, ...] = ()

    @property
    def rows(self) -> int:
        """Rows below the code, the arrow counted as one."""
        return len(self.lines) + self.arrow

    @property
    def ems(self) -> tuple[float, float]:
        """Heights of the code and of the rows below it, each in its own type sizes."""
        if not self.rows:
            return CODE_EMS, 0.0
        return CODE_EMS + GAP, (self.rows - 1) * LINE + 1


@dataclass
class _Wanted:
    """The words asked for, made printable."""

    name: str = ""
    detail: list[str] = field(default_factory=list)
    arrow: bool = False
    notes: list[str] = field(default_factory=list)

    @property
    def fixed(self) -> int:
        return len(self.detail) + self.arrow


def typeset(
    lettering: Lettering,
    width: float,
    height: float,
    code: tuple[str, str],
    text: LabelText,
    most: tuple[float, float],
) -> Block:
    """Find the largest setting of the two code groups and `text` in width x height dots.

    `most` gives the largest type sizes in points, for the code and for the text. The code is
    always set, smaller than CODE_LEAST_POINTS only where its five widest symbols need it.
    """
    wanted = _printable(lettering, text)
    widest = max(lettering.width(group, 100, bold=True) for group in code) / 100
    em = lettering.dots(1)
    largest = min(most[0], width / widest, height / (CODE_EMS * em))
    if not (wanted.name or wanted.fixed):
        return Block(_tenth(largest), 0, (), False, tuple(wanted.notes))
    settings = _settings(largest, most[1])
    for code_points, points in settings:
        block = _set(lettering, width, wanted, code_points, points)
        if block and _height(block, em) <= height:
            return block
    for code_points, _ in settings:
        left = height - (CODE_EMS + GAP) * em * code_points
        room = max(int((left / (em * TEXT_LEAST_POINTS) - 1) / LINE + 1), 0)
        if room >= wanted.fixed + bool(wanted.name):
            break
    return _cut(lettering, width, wanted, code_points, room)


def _settings(code: float, text: float) -> list[tuple[float, float]]:
    """Type sizes (code, text) to try in turn, from the largest on.

    Both shrink together to seven tenths, then the text alone to its least, then the code.
    """
    code_least = min(code, CODE_LEAST_POINTS)
    text = min(text, 0.8 * code)
    sizes = [
        (max(code * part / 20, code_least), max(text * part / 20, TEXT_LEAST_POINTS))
        for part in range(20, 13, -1)
    ]
    code, text = sizes[-1]
    while text > TEXT_LEAST_POINTS:
        text = max(text - 0.5, TEXT_LEAST_POINTS)
        sizes.append((code, text))
    while code > code_least:
        code = max(code - 0.5, code_least)
        sizes.append((code, text))
    return [(_tenth(code), _tenth(text)) for code, text in sizes]


def _printable(lettering: Lettering, text: LabelText) -> _Wanted:
    wanted = _Wanted(arrow=text.grain_arrow)
    replaced = False
    wanted.name, replaced = lettering.printable(text.name)
    for each in text.detail:
        line, lost = lettering.printable(each)
        replaced = replaced or lost
        if line:
            wanted.detail.append(line)
    if replaced:
        wanted.notes.append("has letters or signs that cannot be printed; they show as ?")
    return wanted


def _tenth(points: float) -> float:
    return int(points * 10 + 1e-6) / 10


def _height(block: Block, em: float) -> float:
    code_ems, text_ems = block.ems
    return em * (code_ems * block.code_points + text_ems * block.text_points)


def _set(
    lettering: Lettering, width: float, wanted: _Wanted, code_points: float, points: float
) -> Block | None:
    """A setting in which nothing is cut, or None."""
    lines = lettering.wrap(wanted.name, width, points, NAME_LINES) if wanted.name else []
    lines += [lettering.fit(each, width, points) for each in wanted.detail]
    if any(line.cut for line in lines):
        return None
    return Block(code_points, points, tuple(lines), wanted.arrow, tuple(wanted.notes))


def _cut(
    lettering: Lettering, width: float, wanted: _Wanted, code_points: float, room: int
) -> Block:
    """A setting at the smallest type into `room` rows, with notes on what is lost."""
    points, notes = TEXT_LEAST_POINTS, list(wanted.notes)
    # alloy and thickness come first among the details, so the arrow ranks third
    arrow = wanted.arrow and room > min(2, len(wanted.detail))
    kept = wanted.detail[: max(room - arrow, 0)]
    rows = room - len(kept) - arrow
    detail = [lettering.fit(each, width, points) for each in kept]
    name: list[Line] = []
    if wanted.name and rows > 0:
        name = lettering.wrap(wanted.name, width, points, min(rows, NAME_LINES))
    elif wanted.name:
        notes.append(f"no room for “{wanted.name}”")
    notes += [f"no room for “{each}”" for each in wanted.detail[len(kept) :]]
    if wanted.arrow and not arrow:
        notes.append("no room for the grain arrow")
    notes += [f"shortened to “{line.text}”" for line in (*name, *detail) if line.cut]
    return Block(code_points, points, (*name, *detail), arrow, tuple(notes))
