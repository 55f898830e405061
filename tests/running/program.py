"""Copies of the program beside the installed one, so that a workshop can be served by the next
version of it, and by the one before again."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import subprocess
from pathlib import Path

import bucktail
from prepare_web import MODULES, WEB, find_node

INSTALLED = Path(bucktail.__file__).parent
DESCRIPTION = re.compile(rb'(name="description" content=)"[^"]*"')


def copy_program(top: Path, with_webapp: bool = True) -> Path:
    """Copy the program to `top`/bucktail, for `top` on PYTHONPATH. Gives its web app's folder."""
    left_out = ["__pycache__"] if with_webapp else ["__pycache__", "webapp"]
    shutil.copytree(INSTALLED, top / "bucktail", ignore=shutil.ignore_patterns(*left_out))
    return top / "bucktail" / "webapp"


def publish_next(webapp: Path, mark: str, page_too: bool = True) -> None:
    """Make a built web app the next version, which differs in its page only, marked in the page's
    description. `page_too` False leaves the old page: an update caught half-way."""
    page, worker = webapp / "index.html", webapp / "sw.js"
    for stale in webapp.glob("index.html.*"), webapp.glob("sw.js.*"):
        for file in stale:
            file.unlink()
    old = page.read_bytes()
    new = DESCRIPTION.sub(rb'\1"%b"' % mark.encode(), old)
    assert new != old
    before, after = (hashlib.sha256(text).hexdigest() for text in (old, new))
    script = worker.read_text()
    assert before in script
    script = script.replace(before, after)
    script = re.sub(r"(version:[`\"'])[0-9a-f]{16}", rf"\g<1>{after[:16]}", script)
    worker.write_text(script)
    if page_too:
        page.write_bytes(new)


def build_next(top: Path, mark: str, changes: dict[str, tuple[str, str]]) -> None:
    """Copy the program to `top`/server/bucktail with a web app built anew from changed sources.

    `changes`: a file below web/ -> (text that stands in it once, text to put there).
    """
    copy_program(top / "server", with_webapp=False)
    (top / "server" / "bucktail" / "webapp").mkdir()
    web = top / "web"
    shutil.copytree(WEB, web, ignore=shutil.ignore_patterns("node_modules", "*.test.ts*"))
    (web / "node_modules").symlink_to(MODULES, target_is_directory=True)
    page = web / "index.html"
    page.write_bytes(DESCRIPTION.sub(rb'\1"%b"' % mark.encode(), page.read_bytes()))
    for name, (old, new) in changes.items():
        text = (web / name).read_text()
        assert text.count(old) == 1, f"{name} does not hold “{old}” once"
        (web / name).write_text(text.replace(old, new))
    node = find_node()
    done = subprocess.run(
        [node.program, str(MODULES / "vite" / "bin" / "vite.js"), "build"],
        cwd=web,
        env={**os.environ, "PATH": node.folder + os.pathsep + os.environ.get("PATH", "")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
