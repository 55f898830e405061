"""Setting up the compiler for fit curves: with one, without one, and not twice."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

import prepare
import prepare_fit


@pytest.fixture
def kernel(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A checkout of its own with one source of the kernel."""
    monkeypatch.setattr(prepare, "ROOT", tmp_path)
    monkeypatch.setattr(prepare, "STATE", tmp_path / "state.json")
    monkeypatch.setattr(prepare_fit, "ROOT", tmp_path)
    monkeypatch.setattr(prepare_fit, "KERNEL", tmp_path)
    (tmp_path / "pyproject.toml").write_text("fast")
    source = tmp_path / "sweep.py"
    source.write_text("1")
    return source


class Commands:
    """Stands in for pip and the compiler: notes what is run, fails where told to."""

    def __init__(self, fails: str = "") -> None:
        self.fails = fails
        self.ran: list[str] = []

    def __call__(self, command: list[str]) -> subprocess.CompletedProcess[str]:
        self.ran.append("install" if "install" in command else "compile")
        return subprocess.CompletedProcess(command, int(self.ran[-1] == self.fails))


def test_the_kernel_is_compiled_once_and_again_when_it_changes(
    kernel: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    commands = Commands()
    monkeypatch.setattr(prepare_fit, "captured", commands)
    prepare_fit.prepare_fit()
    assert commands.ran == ["install", "compile"]
    assert "done in" in capsys.readouterr().out
    prepare_fit.prepare_fit()
    prepare_fit.prepare_fit(again=True)
    assert len(commands.ran) == 2
    kernel.write_text("2")
    prepare_fit.prepare_fit()
    assert len(commands.ran) == 4


@pytest.mark.parametrize("fails", ["install", "compile"])
def test_without_a_compiler_it_goes_on_and_says_what_that_means(
    kernel: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    fails: str,
) -> None:
    commands = Commands(fails)
    monkeypatch.setattr(prepare_fit, "captured", commands)
    prepare_fit.prepare_fit()
    assert capsys.readouterr().out.splitlines()[1:] == [prepare_fit.WITHOUT]
    ran = len(commands.ran)
    prepare_fit.prepare_fit()
    assert len(commands.ran) == ran, "not tried at every start"
    commands.fails = ""
    prepare_fit.prepare_fit(again=True)
    assert "done in" in capsys.readouterr().out
