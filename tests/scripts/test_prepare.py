"""Setting up: which Node will do, what is done again, what is said when something fails."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

import chromium
import prepare
import prepare_web


@pytest.mark.parametrize(
    ("version", "will_do"),
    [
        ("v20.18.3", False),
        ("v20.19.0", True),
        ("v20.20.2", True),
        ("v21.7.3", False),
        ("v22.11.0", False),
        ("v22.12.0", True),
        ("v24.1.0", True),
        ("v18.20.0", False),
        ("v22.12.0-nightly2026", True),
        ("", False),
        ("20", False),
    ],
)
def test_which_node_will_do(version: str, will_do: bool) -> None:
    assert prepare_web.new_enough(version) is will_do


def put_program(folder: Path, name: str, says: str) -> None:
    folder.mkdir(exist_ok=True)
    (folder / name).write_text(f"#!/bin/sh\necho {says}\n")
    (folder / name).chmod(0o755)


@pytest.mark.parametrize(
    ("programs", "found"),
    [
        ({"node": "v22.14.0", "npm": "11"}, True),
        ({"node": "v16.0.0", "npm": "8"}, False),
        ({"node": "v22.14.0"}, False),
        ({}, False),
    ],
)
def test_the_node_of_this_computer_is_used_only_if_it_will_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, programs: dict[str, str], found: bool
) -> None:
    for name, says in programs.items():
        put_program(tmp_path / "bin", name, says)
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    assert (prepare_web.node_on_path() is not None) is found


def test_a_hash_changes_with_content_and_with_name_and_with_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(prepare, "ROOT", tmp_path)
    one, two = tmp_path / "one", tmp_path / "two"
    one.write_text("a")
    two.write_text("b")
    before = prepare.hash_of([one, two])
    assert prepare.hash_of([two, one]) == before
    one.touch()
    assert prepare.hash_of([one, two]) == before
    assert prepare.hash_of([one, two], "word") != before
    one.write_text("c")
    assert prepare.hash_of([one, two]) != before
    one.write_text("a")
    one.rename(tmp_path / "three")
    assert prepare.hash_of([tmp_path / "three", two]) != before


def test_a_spoilt_state_file_only_means_setting_up_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(prepare, "STATE", tmp_path / "state.json")
    assert prepare.remembered("webapp") is None
    for spoilt in ("", "{", "[]", "7"):
        prepare.STATE.write_text(spoilt)
        assert prepare.remembered("webapp") is None
        prepare.remember("webapp", "mark")
        assert prepare.remembered("webapp") == "mark"


def test_a_failing_command_is_told_with_what_to_do_and_its_last_lines() -> None:
    script = "import sys; print('\\n'.join(f'line {n}' for n in range(40))); sys.exit(3)"
    with pytest.raises(prepare.Trouble) as trouble:
        prepare.quietly([sys.executable, "-c", script], "Connect this computer and try again.")
    said = str(trouble.value)
    assert said.startswith("Connect this computer and try again.\n")
    assert "line 39" in said
    assert "line 20" not in said


def test_a_build_is_made_again_only_when_a_source_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    web, webapp = tmp_path / "web", tmp_path / "webapp"
    for name, value in {"WEB": web, "WEBAPP": webapp, "MODULES": web / "node_modules"}.items():
        monkeypatch.setattr(prepare_web, name, value)
    monkeypatch.setattr(prepare, "ROOT", tmp_path)
    monkeypatch.setattr(prepare, "STATE", tmp_path / "state.json")
    built: list[list[str]] = []

    def build(command: list[str], failed: str, **more: object) -> None:
        built.append(command)
        webapp.mkdir(exist_ok=True)
        (webapp / "index.html").write_text("built")

    monkeypatch.setattr(prepare_web, "quietly", build)
    (web / "src").mkdir(parents=True)
    (web / "node_modules").mkdir()
    source = web / "src" / "main.tsx"
    source.write_text("1")
    node = prepare_web.Node("node", ("npm",), "v22.12.0")

    def builds() -> int:
        prepare_web.prepare_webapp(node)
        return len(built)

    assert builds() == 1
    assert builds() == 1
    (web / "src" / "main.test.ts").write_text("a test is not part of the app")
    (web / "node_modules" / "stamp").write_text("nor is this")
    assert builds() == 1
    source.write_text("2")
    assert builds() == 2
    (webapp / "index.html").unlink()
    assert builds() == 3


def test_without_chromium_and_without_means_to_install_it_the_reason_is_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("BUCKTAIL_CHROMIUM", raising=False)
    monkeypatch.setenv("PATH", str(tmp_path))
    found = chromium.find_chromium()
    assert found.program == ""
    assert found.why_not.endswith("install one and run this again.")
    put_program(tmp_path, "apt-get", "nothing")
    monkeypatch.setattr("os.geteuid", lambda: 1000)
    assert "sudo apt-get install chromium libnss3-tools" in chromium.find_chromium().why_not
    put_program(tmp_path, "chromium", "hello")
    assert chromium.find_chromium().program == str(tmp_path / "chromium")
