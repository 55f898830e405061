"""Tables that do not say where they are from do not load."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from bucktail.rules.sources import (
    SEEN,
    TableRefused,
    bibliography,
    load_table,
    read_bibliography,
    read_table,
    source,
)

GOOD = """# title: Something
# source: ac43-4-50
# unit: in
# range: .016 to .128
# checked-on: 2026-11-25
size,value
.016,1
"""


def test_a_table_with_all_its_headings_loads() -> None:
    table = read_table("something", GOOD)
    assert [one.document for one in table.sources] == ["AC 43.13-1B"]
    assert table.rows == ({"size": ".016", "value": "1"},)


@pytest.mark.parametrize("heading", ["title", "source", "unit", "range", "checked-on"])
def test_a_table_that_lacks_a_heading_is_refused_by_name(heading: str) -> None:
    text = re.sub(rf"# {heading}: .*\n", "", GOOD)
    with pytest.raises(TableRefused, match=f"does not say its {heading}"):
        read_table("something", text)


@pytest.mark.parametrize(
    ("before", "after", "message"),
    [
        ("ac43-4-50", "nowhere", "no source 'nowhere'"),
        ("2026-11-25", "last week", "checked-on is not a day"),
        (".016,1\n", "", "empty"),
        (".016,1\n", ".016\n", "wrong length"),
        (".016,1\n", ".016,1,2\n", "wrong length"),
        ("# unit: in\n", "# unit: in\n# unit: mm\n", "said twice"),
        ("size,value\n.016,1\n", "size,source\n.016,\n", "no source ''"),
    ],
)
def test_a_faulty_table_is_refused(before: str, after: str, message: str) -> None:
    with pytest.raises(TableRefused, match=message):
        read_table("something", GOOD.replace(before, after))


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        ("x,Title,Document,,read", "incomplete"),
        ("x,Title,Document,paragraph,heard", "incomplete"),
        ("x,T,D,p,read\nx,T,D,p,read", "stands twice"),
    ],
)
def test_a_faulty_bibliography_is_refused(rows: str, message: str) -> None:
    with pytest.raises(TableRefused, match=message):
        read_bibliography("id,title,document,paragraph,seen\n" + rows)


def test_every_table_in_the_folder_loads() -> None:
    names = sorted(
        entry.name.removesuffix(".csv")
        for entry in files("bucktail.rules").joinpath("tables").iterdir()
        if entry.name.endswith(".csv") and entry.name != "bibliography.csv"
    )
    assert {"gauges", "materials", "structure_reasons", "thickness_tolerance"} <= set(names)
    for name in names:
        assert load_table(name).sources


def test_every_source_says_how_it_was_seen() -> None:
    assert {one.seen for one in bibliography().values()} <= set(SEEN)
    assert source("steel-density").seen == "from memory"
