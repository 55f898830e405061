"""Running the web app's own code by Node, without a browser."""

from __future__ import annotations

import subprocess
from pathlib import Path

from prepare_web import MODULES, WEB, find_node


def bundle(folder: Path, entry: str) -> list[str]:
    """Bundle TypeScript into `folder`; the command that runs it.

    In `entry` write SRC for the folder web/src, and import packages by their names.
    """
    folder.mkdir(parents=True, exist_ok=True)
    source, made = folder / "entry.ts", folder / "entry.mjs"
    source.write_text(entry.replace("SRC", (WEB / "src").as_posix()), encoding="utf-8")
    if not (folder / "node_modules").exists():
        (folder / "node_modules").symlink_to(MODULES, target_is_directory=True)
    node = find_node().program
    bundler = [node, str(MODULES / "rolldown" / "bin" / "cli.mjs"), str(source)]
    options = ["--file", str(made), "--format", "esm", "--platform", "node"]
    subprocess.run([*bundler, *options], check=True, capture_output=True, text=True, cwd=WEB)
    return [node, str(made)]
