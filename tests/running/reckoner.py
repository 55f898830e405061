"""The phone's reckoner, run by Node on sums of the moment."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

from prepare_web import WEB
from running.bundle import bundle

SOURCE = WEB / "src"
#: [name, typed, unit] a line in; the answer, or what could not be read, a line out.
ENTRY = """
import { readFileSync } from 'node:fs';
import { reckon } from '%(source)s/twins/reckon.ts';
import book from '%(source)s/generated/rulebook.json';
import { gauges } from '%(source)s/generated/gauges.json';
const rulebook = { ...book, words: { ...book.words, gauges } };
for (const line of readFileSync(0, 'utf-8').split('\\n').filter(Boolean)) {
  const [name, typed, unit] = JSON.parse(line);
  process.stdout.write(JSON.stringify(reckon(rulebook, name, typed, unit)) + '\\n');
}
"""


class PhoneReckoner:
    """The reckoner of the web app, bundled once into `folder`."""

    def __init__(self, folder: Path, source: Path = SOURCE) -> None:
        self.command = bundle(folder, ENTRY % {"source": source.as_posix()})

    def answers(self, asked: list[tuple[str, dict[str, str], str]]) -> list[dict[str, Any]]:
        """The answer to each (sum, typed texts, unit), in order."""
        done = subprocess.run(
            self.command,
            input="\n".join(json.dumps(one, ensure_ascii=False) for one in asked),
            capture_output=True,
            encoding="utf-8",
            check=False,
        )
        assert done.returncode == 0, done.stderr[-2000:]
        return [json.loads(line) for line in done.stdout.removesuffix("\n").split("\n")]
