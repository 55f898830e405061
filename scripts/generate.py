"""Writes the generated files, or with --check says which are stale. Behind scripts/generate.

A generator is a function without arguments that returns {path from the top of the checkout: text
or bytes}. It is listed below as "module:function"; modules of bucktail and files beside this one
can be named. Generated files are committed, so that a reader sees what changed.
"""

from __future__ import annotations

import argparse
import importlib
import sys
from pathlib import Path

from in_venv import go_inside

ROOT = Path(__file__).resolve().parent.parent

# what makes generated files; add a line for a new one
GENERATORS: tuple[str, ...] = (
    "draw_icon:outputs",
    "bucktail.parts.for_phone:outputs",
    "bucktail.tags.vectors:outputs",
    "bucktail.rules.vectors:outputs",
    "bucktail.rules.for_phone:outputs",
    "bucktail.offcuts.vectors:outputs",
    "bucktail.offcuts.fitting.vectors:outputs",
    "bucktail.offcuts.cut_vectors:outputs",
    "fold_vectors:outputs",
    "rule_vectors:outputs",
    "count_checks:outputs",
)

# folders in which every file must come from a generator
WHOLLY_GENERATED = ("web/src/generated",)


def everything() -> dict[str, bytes]:
    """Run every generator; two that write the same file are an error."""
    files: dict[str, bytes] = {}
    for entry in GENERATORS:
        module, _, function = entry.partition(":")
        made = getattr(importlib.import_module(module), function)()
        for name, content in made.items():
            if name in files:
                raise SystemExit(f"{name} is made twice; the second time by {entry}.")
            files[name] = content.encode() if isinstance(content, str) else content
    return files


def stale(files: dict[str, bytes]) -> list[str]:
    """Names of files that are missing, differ, or that nothing makes any more."""
    wrong = [
        name
        for name, content in files.items()
        if not (ROOT / name).is_file() or (ROOT / name).read_bytes() != content
    ]
    return sorted(wrong + left_over(files))


def left_over(files: dict[str, bytes]) -> list[str]:
    """Names of files in the wholly generated folders that no generator made."""
    present = [
        file.relative_to(ROOT).as_posix()
        for folder in WHOLLY_GENERATED
        for file in (ROOT / folder).rglob("*")
        if file.is_file()
    ]
    return [name for name in present if name not in files]


def write(files: dict[str, bytes]) -> None:
    """Bring the files up to date, touching only those that differ."""
    for name in stale(files):
        path = ROOT / name
        if name in files:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(files[name])
            print(f"wrote {name}")
        else:
            path.unlink()
            print(f"removed {name}, which nothing makes any more")


def main(arguments: list[str]) -> int:
    """Write or compare; 0 when everything is fresh."""
    parser = argparse.ArgumentParser(prog="scripts/generate", description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="write nothing, name what is stale")
    options = parser.parse_args(arguments)
    files = everything()
    if not options.check:
        write(files)
        return 0
    wrong = stale(files)
    for name in wrong:
        print(f"{name} is not what its generator makes now; run scripts/generate")
    print(f"{len(files)} generated files looked at, {len(wrong)} stale")
    return 1 if wrong else 0


if __name__ == "__main__":
    go_inside()
    sys.exit(main(sys.argv[1:]))
