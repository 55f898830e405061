"""One label: where its symbol and its words go, and drawing them.

A label is a rectangle in printer dots. The symbol sits at its left with the words beside it, or
at its top with the words below.
"""

from __future__ import annotations

from dataclasses import dataclass

from fpdf import FPDF

from bucktail.tags.code import grouped
from bucktail.tags.draw import (
    MM_AN_INCH,
    CannotPrint,
    Size,
    Symbol,
    dots_above,
    dots_below,
    draw_symbol,
    largest_symbol,
    least_square_mm,
    matrix,
)
from bucktail.tags.ink import POINTS_AN_INCH, Box, Triangle, fill
from bucktail.tags.lettering import CAP_HEIGHT, LINE, Lettering
from bucktail.tags.typeset import (
    CODE_EMS,
    CODE_LEAST_POINTS,
    CODE_PITCH,
    Block,
    LabelText,
    typeset,
)

INSET_MM = 1.0  # words keep this far from the label's edge; the symbol has its quiet zone
GRAIN = "grain"
ARROW_EMS = 9.0  # length of the grain arrow where there is room, in type sizes of its word
_GROUP_EMS = 3.8  # five bold symbols, in type sizes; wider groups are rare and set smaller
_LEAST_EM_MM = CODE_LEAST_POINTS * MM_AN_INCH / POINTS_AN_INCH
_WORDS_WIDTH_MM = _GROUP_EMS * _LEAST_EM_MM + INSET_MM
_WORDS_HEIGHT_MM = CODE_EMS * _LEAST_EM_MM + INSET_MM


@dataclass(frozen=True)
class Shape:
    """Where things go on every label of a run, in dots from the label's top left corner."""

    size: Size
    symbol: Symbol
    symbol_left: int
    symbol_top: int
    words_left: int
    words_top: int
    words_width: int
    words_height: int
    below: bool


def shape(size: Size, modules: int, width_mm: float, height_mm: float, dpi: int) -> Shape:
    """Lay out a label of the given width and height in millimetres.

    Takes whichever of words beside and words below gives the larger symbol, then the larger
    room for words. Raises CannotPrint, naming the smallest labels that would do.
    """
    width, height = dots_below(width_mm, dpi), dots_below(height_mm, dpi)
    inset = dots_above(INSET_MM, dpi)
    found: list[Shape] = []
    beside = largest_symbol(size, modules, min(height_mm, width_mm - _WORDS_WIDTH_MM), dpi)
    if beside and height_mm >= _WORDS_HEIGHT_MM:
        side = beside.side_dots
        edge = min(inset, height // 15)  # less on a low label, where words need every dot
        words = (side, edge, width - side - inset, height - 2 * edge)
        found.append(Shape(size, beside, 0, (height - side) // 2, *words, False))
    below = largest_symbol(size, modules, min(width_mm, height_mm - _WORDS_HEIGHT_MM), dpi)
    if below and width_mm >= _WORDS_WIDTH_MM + INSET_MM:
        side = below.side_dots
        gap = inset // 4  # round letters rise a little above the others
        words = (inset, side + gap, width - 2 * inset, height - side - inset)
        found.append(Shape(size, below, (width - side) // 2, 0, *words, True))
    if not found:
        raise CannotPrint(_too_small(size, modules, width_mm, height_mm, dpi))
    return max(found, key=lambda each: (each.symbol.dots, each.words_width * each.words_height))


def smallest_labels(size: Size, modules: int, dpi: int) -> tuple[tuple[int, int], tuple[int, int]]:
    """The smallest labels, (width, height) in whole millimetres: words beside, words below."""
    square = least_square_mm(size, modules, dpi)
    beside = (square + _WORDS_WIDTH_MM, max(square, _WORDS_HEIGHT_MM))
    below = (max(square, _WORDS_WIDTH_MM + INSET_MM), square + _WORDS_HEIGHT_MM)
    return (_up(beside[0]), _up(beside[1])), (_up(below[0]), _up(below[1]))


def _up(millimetres: float) -> int:
    return -int(-(millimetres - 1e-6) // 1)


def _too_small(size: Size, modules: int, width_mm: float, height_mm: float, dpi: int) -> str:
    (wide, low), (narrow, tall) = smallest_labels(size, modules, dpi)
    sentence = (
        f"A {size.name} tag does not fit a label of {width_mm:g} x {height_mm:g} mm at {dpi} dots "
        f"an inch. The smallest that would do are {wide} x {low} mm and {narrow} x {tall} mm."
    )
    return sentence if size.name == "tiny" else sentence + " Or choose a smaller tag."


def draw_label(
    pdf: FPDF,
    lettering: Lettering,
    corner: tuple[int, int],
    plan: Shape,
    code: str,
    text: LabelText,
    address: str = "",
) -> tuple[str, ...]:
    """Draw one label, its top left corner at `corner` in dots.

    Returns what could not be printed as given, one phrase each; empty when all is there.
    """
    left, top = corner
    at = (left + plan.symbol_left, top + plan.symbol_top)
    draw_symbol(pdf, matrix(code, address), plan.symbol, *at)
    groups = (code[:5], code[5:])
    most = (plan.size.code_points, plan.size.text_points)
    block = typeset(lettering, plan.words_width, plan.words_height, groups, text, most)
    _draw_block(pdf, lettering, (left, top), plan, groups, block)
    return tuple(f"{grouped(code)}: {note}" for note in block.notes)


def _draw_block(
    pdf: FPDF,
    lettering: Lettering,
    corner: tuple[int, int],
    plan: Shape,
    groups: tuple[str, str],
    block: Block,
) -> None:
    """Draw the code and the rows under it; beside the symbol they stand in the middle."""
    code_em, em = lettering.dots(block.code_points), lettering.dots(block.text_points)
    used = code_em * block.ems[0] + em * block.ems[1]
    y = corner[1] + plan.words_top + (0 if plan.below else (plan.words_height - used) / 2)
    left = corner[0] + plan.words_left

    def put(text: str, baseline: float, points: float, bold: bool) -> None:
        spare = plan.words_width - lettering.width(text, points, bold)
        lettering.put(text, left + (spare / 2 if plan.below else 0), baseline, points, bold)

    for row, group in enumerate(groups):
        put(group, y + code_em * (CAP_HEIGHT + row * CODE_PITCH), block.code_points, True)
    baseline = y + code_em * block.ems[0] + em * 0.75
    for line in block.lines:
        put(line.text, baseline, block.text_points, False)
        baseline += em * LINE
    if block.arrow:
        length = min(plan.words_width, ARROW_EMS * em)
        start = left + ((plan.words_width - length) / 2 if plan.below else 0)
        _draw_arrow(pdf, lettering, (start, baseline), length, block.text_points)


def _draw_arrow(
    pdf: FPDF, lettering: Lettering, at: tuple[float, float], length: float, points: float
) -> None:
    """A double-headed arrow with the word grain, which stands on its baseline, at its middle."""
    em = lettering.dots(points)
    word = lettering.width(GRAIN, points)
    (start, baseline), end = at, at[0] + length
    middle = baseline - 0.26 * em
    head, thick = 0.55 * em, max(0.09 * em, 2)
    gap_start = start + (length - word) / 2
    lettering.put(GRAIN, gap_start, baseline, points, False)
    boxes: list[Box] = []
    heads: list[Triangle] = []
    for tip, inward, stop in ((start, 1, gap_start), (end, -1, gap_start + word)):
        back, shaft_end = tip + inward * head, stop - inward * 0.3 * em
        heads.append(((tip, middle), (back, middle - head / 2), (back, middle + head / 2)))
        if inward * (shaft_end - back) > 0:
            boxes.append((min(back, shaft_end), middle - thick / 2, abs(shaft_end - back), thick))
    fill(pdf, lettering.dpi, boxes, heads)
