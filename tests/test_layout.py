"""The house keeps its own rules, and each rule is shown to bite on a planted fault."""

from __future__ import annotations

import json
import os
import re
import subprocess
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

import house
import house_lengths

ROOT = Path(__file__).resolve().parent.parent
Plant = Callable[[str, str], Path]

RULES: tuple[Callable[[Path], list[str]], ...] = (
    house.wrong_imports,
    house.unrepeatable_calls,
    house.empty_names,
    house.wrong_web_imports,
    house_lengths.long_files,
)


@pytest.fixture
def plant(tmp_path: Path) -> Plant:
    """Write one file into a small tree of its own; returns the top of that tree."""

    def write(name: str, text: str) -> Path:
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
        return tmp_path

    write("server/bucktail/__init__.py", "")
    return write


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_the_project_keeps_its_rules(rule: Callable[[Path], list[str]]) -> None:
    assert rule(ROOT) == []


def test_only_what_belongs_stands_at_the_top() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True)
    names = {line.split("/")[0].strip('"') for line in listed.stdout.splitlines()}
    if listed.returncode:  # not a git checkout, so nothing lies about but what was packed
        names = set(os.listdir(ROOT))
    assert house.strangers_at_the_top(names) == []
    assert names >= {"README.md", "DEVELOPERS.md", "pyproject.toml", "server", "web", "scripts"}


def test_a_stranger_at_the_top_is_named() -> None:
    names = ["server", ".ci", "notes.txt", "docs"]
    assert house.strangers_at_the_top(names) == [
        "docs: does not belong at the top",
        "notes.txt: does not belong at the top",
    ]


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("rules/rivets.py", "from bucktail.parts import steps", "rules may not import parts"),
        ("rules/rivets.py", "from ..events import fold", "rules may not import events"),
        ("tags/code.py", "import bucktail.storage.codes", "tags may not import storage"),
        ("events/fold.py", "from bucktail import sync", "events may not import sync"),
        ("sync/push.py", "from bucktail.storage import cards", "sync may not import storage"),
        ("storage/cards.py", "from bucktail.routes import wire", "storage may not import routes"),
        ("storage/cards.py", "from bucktail.workshop import ports", "may not import workshop"),
        ("routes/parts.py", "from bucktail.app import create_app", "routes may not import app"),
        ("workshop/demo.py", "from bucktail.commands import serve", "may not import commands"),
        ("tags/code.py", "import secrets", "tags is pure and may not import secrets"),
        ("events/order.py", "from time import time", "events is pure and may not import time"),
        ("holds/list.py", "def f():\n    import socket", "holds is pure and may not import socket"),
        ("parts/steps.py", "from flask import g", "parts may not import flask"),
        ("places/tree.py", "from marshmallow import Schema", "places may not import marshmallow"),
        ("reports/day.py", "import sqlalchemy as sa", "only storage may import sqlalchemy"),
        ("sync/push.py", "from sqlalchemy.orm import Session", "only storage may import"),
        ("bench/now.py", "from flask import g", "bench may not import flask"),
        ("routes/parts.py", "from sqlalchemy import select", "only storage may import"),
        ("misc/thing.py", "x = 1", "no column for misc"),
        ("app.py", "from bucktail.misc import thing", "bucktail.misc has no column"),
    ],
)
def test_a_wrong_import_is_named(plant: Plant, name: str, text: str, said: str) -> None:
    found = house.wrong_imports(plant(f"server/bucktail/{name}", text))
    assert len(found) == 1
    assert said in found[0]


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("parts/steps.py", "from bucktail.rules.lengths import Length"),
        ("parts/steps.py", "from . import operations"),
        ("events/fold.py", "from bucktail.parts import steps\nfrom datetime import datetime"),
        ("storage/cards.py", "from sqlalchemy import select\nfrom bucktail.events import fold"),
        ("workshop/demo.py", "from bucktail.storage import cards\nimport secrets"),
        ("routes/parts.py", "from sqlalchemy.orm import Session\nfrom flask import g"),
        (
            "commands/serve.py",
            "from bucktail import __version__\nfrom bucktail.app import create_app",
        ),
        (
            "tags/code.py",
            "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from random import Random",
        ),
    ],
)
def test_a_right_import_is_left_alone(plant: Plant, name: str, text: str) -> None:
    assert house.wrong_imports(plant(f"server/bucktail/{name}", text)) == []


def test_a_wrong_import_for_types_only_is_still_wrong(plant: Plant) -> None:
    text = (
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from bucktail.storage import db"
    )
    assert len(house.wrong_imports(plant("server/bucktail/tags/code.py", text))) == 1


def test_a_circle_between_neighbours_is_named(plant: Plant) -> None:
    plant("server/bucktail/parts/a.py", "from bucktail.tags import code")
    root = plant("server/bucktail/tags/b.py", "from bucktail.holds import list")
    assert house.wrong_imports(root) == []
    plant("server/bucktail/holds/c.py", "from bucktail.parts import a")
    assert len(house.wrong_imports(root)) == 3


@pytest.mark.parametrize(
    "call",
    ["datetime.now()", "datetime.datetime.now(tz=UTC)", "date.today()", "uuid.uuid4()"],
)
def test_clock_and_chance_in_the_pure_end_are_named(plant: Plant, call: str) -> None:
    assert house.unrepeatable_calls(plant("server/bucktail/sync/push.py", f"x = {call}")) == []
    found = house.unrepeatable_calls(plant("server/bucktail/events/fold.py", f"x = {call}"))
    assert len(found) == 1


@pytest.mark.parametrize(
    ("name", "line", "most"),
    [
        ("server/bucktail/parts/long.py", "x = 1", 300),
        ("web/src/parts/long.ts", "f(1);", 300),
        ("web/src/twins/long.ts", "f(1);", 200),
        ("tests/conftest.py", "x = 1", 100),
    ],
)
def test_a_file_that_outgrew_its_room_is_named(
    plant: Plant, name: str, line: str, most: int
) -> None:
    free = (
        '"""Not\ncode."""\n# not code\n\n'
        if name.endswith(".py")
        else "/* not\n code */\n\n// no\n"
    )
    fits = free + f"{line}\n" * most
    assert house_lengths.long_files(plant(name, fits)) == []
    found = house_lengths.long_files(plant(name, fits + line))
    assert len(found) == 1
    assert f"{most + 1} lines of code, at most {most}" in found[0]


def test_a_function_that_outgrew_its_room_is_named(plant: Plant) -> None:
    text = 'def f():\n    """Says\n    what."""\n' + "    x = 1\n" * 49
    assert house_lengths.long_files(plant("server/bucktail/parts/f.py", text)) == []
    found = house_lengths.long_files(plant("server/bucktail/parts/f.py", text + "    y = 1\n"))
    assert len(found) == 1
    assert "f has 51 lines" in found[0]


@pytest.mark.parametrize(
    "name",
    ["server/bucktail/parts/utils.py", "web/src/sync/sync-manager.ts", "tests/test_helpers.py"],
)
def test_a_name_that_says_nothing_is_named(plant: Plant, name: str) -> None:
    assert len(house.empty_names(plant(name, ""))) == 1


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("web/src/parts/card.ts", "import { openDB } from 'idb';"),
        ("web/src/sw.ts", "indexedDB.open('x');"),
        ("web/src/twins/fold.ts", "import { signal } from '@preact/signals';"),
        ("web/src/twins/fold.ts", "import { rows } from '../store/rows';"),
    ],
)
def test_a_wrong_web_import_is_named(plant: Plant, name: str, text: str) -> None:
    assert len(house.wrong_web_imports(plant(name, text))) == 1


def test_right_web_imports_are_left_alone(plant: Plant) -> None:
    plant("web/src/store/open.ts", "import { openDB } from 'idb';\nindexedDB.databases();")
    root = plant("web/src/twins/fold.ts", "import ops from '../generated/ops.json';\nimport './x';")
    assert house.wrong_web_imports(root) == []


def test_every_third_party_package_is_pinned() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    extras = project["optional-dependencies"]
    wanted = [*project["dependencies"], *(pin for pins in extras.values() for pin in pins)]
    assert [pin for pin in wanted if not re.fullmatch(r"[\w.-]+(\[\w+\])?==[\d.]+", pin)] == []
    tree = {
        line.lower().replace("_", "-")
        for line in (ROOT / ".constraints.txt").read_text().splitlines()
        if not line.startswith("#")
    }
    named = {re.sub(r"\[\w+\]", "", pin).lower() for pin in wanted}
    assert named - tree - set(extras["node"]) == set()
    web = json.loads((ROOT / "web" / "package.json").read_text())
    pins = {**web["dependencies"], **web["devDependencies"]}
    assert {
        name: pin for name, pin in pins.items() if not re.fullmatch(r"\d+\.\d+\.\d+", pin)
    } == {}


def test_the_lock_file_names_hashes_and_no_addresses() -> None:
    packages = json.loads((ROOT / "web" / "package-lock.json").read_text())["packages"]
    assert [name for name, entry in packages.items() if "resolved" in entry] == []
    assert [name for name, entry in packages.items() if name and "integrity" not in entry] == []


@pytest.mark.parametrize("name", ["run", "test", "check", "generate", "with-python", "../.ci/run"])
def test_the_scripts_can_be_started(name: str) -> None:
    assert os.access(ROOT / "scripts" / name, os.X_OK)
