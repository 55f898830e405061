"""The phone's fold, run by Node on histories of the moment."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

from bucktail.events.order import Fact
from prepare_web import WEB
from running.bundle import bundle

TWINS = WEB / "src" / "twins"
#: One thing a line in, {"id", "facts"}; one card's text a line out.
ENTRY = """
import { readFileSync } from 'node:fs';
import { before, canonical } from '%(twins)s/facts.ts';
import { fold } from '%(twins)s/fold.ts';
// by line feeds only: readline takes U+2028 for the end of a line too
for (const line of readFileSync(0, 'utf-8').split('\\n').filter(Boolean)) {
  const { id, facts } = JSON.parse(line);
  const state = fold(facts);
  process.stdout.write(
    canonical({ facts: facts.sort(before), id, sort: state.sort, state }) + '\\n');
}
"""


class FoldTwin:
    """The fold in `twins`, bundled once into `folder`."""

    def __init__(self, folder: Path, twins: Path = TWINS) -> None:
        self.command = bundle(folder, ENTRY % {"twins": twins.as_posix()})

    def cards(self, things: list[tuple[str, list[Fact]]]) -> list[str]:
        """The text of each thing's card."""
        lines = [
            json.dumps({"id": name, "facts": facts}, ensure_ascii=False) for name, facts in things
        ]
        done = subprocess.run(
            self.command,
            input="\n".join(lines),
            capture_output=True,
            encoding="utf-8",
            check=False,
        )
        assert done.returncode == 0, done.stderr[-2000:]
        # not splitlines: a text may hold the line and paragraph separators of Unicode
        return done.stdout.removesuffix("\n").split("\n")
