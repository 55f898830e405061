"""Templates of steps: every one can be recorded as it stands, and says what it should."""

from __future__ import annotations

from typing import Any

import pytest

from bucktail.events.marks import part_wants
from bucktail.parts.for_phone import outputs
from bucktail.parts.operations import operations
from bucktail.parts.templates import Template, read_templates, steps_for, templates
from bucktail.sync.wire.bodies import StepsSet

HEADER = (
    "template,name,form,film,edges,fit,drill,deburr,dimple,countersink,clean,prime,rivet,"
    "supplied,along_lines,window_h,together,text\n"
)
PLAIN = "plain,Plain,not,do,do,do,do,do,not,not,do,do,do,pilot,no,8,,A plain part"


def named(name: str) -> Template:
    return next(one for one in templates() if one.template == name)


def steps_of(template: Template) -> dict[str, Any]:
    return steps_for(template.template, count=164)


@pytest.mark.parametrize("template", templates(), ids=lambda one: one.template)
def test_every_template_is_a_body_that_the_record_takes(template: Template) -> None:
    assert StepsSet().validate(steps_of(template)) == {}


@pytest.mark.parametrize("template", templates(), ids=lambda one: one.template)
def test_no_part_is_both_dimpled_and_countersunk(template: Template) -> None:
    assert (template.ops["dimple"], template.ops["countersink"]) != ("do", "do")


@pytest.mark.parametrize("template", templates(), ids=lambda one: one.template)
def test_nothing_is_primed_that_is_not_cleaned(template: Template) -> None:
    wants = part_wants(steps_of(template))
    for side in ("inside", "outside"):
        assert wants[f"prime:{side}"] == wants[f"clean:{side}"]


@pytest.mark.parametrize("template", templates(), ids=lambda one: one.template)
def test_what_one_tap_records_is_in_working_order_and_loses_nothing(template: Template) -> None:
    """A later operation of a group must not set back an earlier one of the same group."""
    order = [row.op for row in operations()]
    undone = {row.op: set(row.undone_by) for row in operations()}
    for group in template.together:
        assert list(group) == sorted(group, key=order.index)
        for at, op in enumerate(group):
            assert not undone[op] & set(group[at + 1 :])


def test_a_small_clip_takes_film_edges_and_holes_in_one_tap() -> None:
    assert named("small clip").together[0] == ("film", "edges", "deburr")


def test_a_flush_skin_is_dimpled_and_primed_inside_only() -> None:
    wants = part_wants(steps_of(named("skin flush")))
    assert wants["dimple"] == "do"
    assert (wants["prime:inside"], wants["prime:outside"]) == ("do", "not")


def test_coated_steel_keeps_its_coat() -> None:
    wants = part_wants(steps_of(named("coated steel")))
    assert {wants[key] for key in ("clean:inside", "prime:outside", "dimple")} == {"bare"}


def test_the_clean_window_is_eight_hours_throughout() -> None:
    assert {one.window_h for one in templates()} == {8}


@pytest.mark.parametrize(
    ("row", "said"),
    [
        (PLAIN.replace("Plain,not", "Plain,perhaps", 1), "form: 'perhaps'"),
        (PLAIN.replace("not,do,do", "inside do|outside not,do,do", 1), "form has no sides"),
        (PLAIN.replace("pilot", "punched"), "supplied"),
        (PLAIN.replace("8,,", "8,film|polish,"), "polish"),
        (PLAIN.replace("8,,", "soon,,"), "soon"),
        (PLAIN.replace("not,do,do", "not,inside do|inside not,do", 1), "film"),
        (f"{PLAIN}\n{PLAIN}", "twice"),
    ],
)
def test_a_row_that_says_something_unknown_is_refused_by_name(row: str, said: str) -> None:
    with pytest.raises(ValueError, match=r"templates\.csv") as caught:
        read_templates(HEADER + row)
    assert said in str(caught.value)


def test_the_phone_gets_both_tables() -> None:
    assert set(outputs()) == {
        "web/src/generated/operations.json",
        "web/src/generated/templates.json",
    }
