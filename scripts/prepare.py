"""Sets up the checkout: the Python environment, the web packages and the built web app.

Standard library only, because it runs before anything is installed. Each part is made again only
when a hash of what it is made from changed, so a second start costs well under a second. Everything
stays inside the checkout.
"""

from __future__ import annotations

import contextlib
import fcntl
import hashlib
import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterable, Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
PYTHON = VENV / "bin" / "python"
PIP = (str(PYTHON), "-m", "pip", "--disable-pip-version-check")
STATE = ROOT / ".setup.json"
CONSTRAINTS = ROOT / ".constraints.txt"
LAST_LINES = 12


class Trouble(Exception):
    """Set-up cannot go on; the text says why and what to do about it."""


def say(text: str) -> None:
    """Print one line of progress at once."""
    print(text, flush=True)


@contextlib.contextmanager
def timed(what: str) -> Iterator[None]:
    """Announce a part and, when it went well, say how long it took."""
    say(f"{what} ...")
    start = time.monotonic()
    yield
    say(f"{what}: done in {time.monotonic() - start:.1f} s")


@contextlib.contextmanager
def one_at_a_time() -> Iterator[None]:
    """Let only one set-up work in this checkout; a second one waits for the first."""
    with (ROOT / ".setup.lock").open("w") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say("Another set-up is at work in this folder; waiting for it ...")
            fcntl.flock(lock, fcntl.LOCK_EX)
        yield


def captured(
    command: list[str], cwd: Path = ROOT, path_first: str = ""
) -> subprocess.CompletedProcess[str]:
    """Run a command, keeping what it says; `path_first` is a folder to put first on PATH."""
    environment = dict(os.environ)
    if path_first:
        environment["PATH"] = path_first + os.pathsep + environment.get("PATH", "")
    return subprocess.run(
        command,
        cwd=cwd,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        check=False,
    )


def quietly(command: list[str], failed: str, *, cwd: Path = ROOT, path_first: str = "") -> None:
    """Run a command without its chatter; on failure raise Trouble with its last lines."""
    done = captured(command, cwd, path_first)
    if done.returncode:
        tail = "\n".join("    " + line for line in done.stdout.splitlines()[-LAST_LINES:])
        raise Trouble(f"{failed}\nWhat the command said last:\n{tail}")


def hash_of(files: Iterable[Path], *extra: str) -> str:
    """Hash the names and contents of files, and any further words that matter."""
    total = hashlib.sha256()
    for word in extra:
        total.update(word.encode() + b"\0")
    for file in sorted(files):
        total.update(str(file.relative_to(ROOT)).encode() + b"\0")
        total.update(hashlib.sha256(file.read_bytes()).digest())
    return total.hexdigest()


def remembered(part: str) -> object:
    """What the last set-up of a part left in the state file; None when there was none."""
    try:
        return json.loads(STATE.read_text()).get(part)
    except (OSError, ValueError, AttributeError):
        return None


def remember(part: str, value: object) -> None:
    """Keep what a part was made from, replacing the state file in one step."""
    try:
        state = dict(json.loads(STATE.read_text()))
    except (OSError, ValueError, TypeError):
        state = {}
    state[part] = value
    fresh = STATE.with_suffix(".new")
    fresh.write_text(json.dumps(state, indent=1) + "\n")
    fresh.replace(STATE)


def works(python: Path) -> bool:
    """Whether a Python starts and is new enough (it may have gone with a system upgrade)."""
    try:
        test = "import sys, pip; sys.exit(sys.version_info < (3, 11))"
        return (
            subprocess.run([python, "-c", test], capture_output=True, check=False).returncode == 0
        )
    except OSError:
        return False


def make_venv() -> None:
    """Make .venv anew with the Python that runs this file."""
    shutil.rmtree(VENV, ignore_errors=True)
    quietly(
        [sys.executable, "-m", "venv", str(VENV)],
        "The Python environment could not be made. On Debian or Ubuntu its module is a package of "
        "its own: apt-get install python3-venv.",
    )


def prepare_python(
    extras: Iterable[str] = (), what: str = "Installing Python packages (about half a minute)"
) -> None:
    """Make .venv hold Bucktail (editable), its pinned packages and the extras asked for.

    `what` is how the installation is announced when there is something to install.
    """
    wanted = set(extras)
    mark = hash_of([ROOT / "pyproject.toml", CONSTRAINTS], str(ROOT))
    kept = remembered("python")
    before = kept if isinstance(kept, dict) else {}
    usable = works(PYTHON)
    if usable and before.get("mark") == mark and wanted <= set(before.get("extras", [])):
        return
    if not usable or before.get("root", str(ROOT)) != str(ROOT):
        with timed("Making a Python environment in .venv"):
            make_venv()
        before = {}
    wanted |= set(before.get("extras", []))
    target = "." + (f"[{','.join(sorted(wanted))}]" if wanted else "")
    with timed(what):
        quietly(
            # compiling all that comes along takes as long as installing it; what is used is
            # compiled when it is first imported
            [*PIP, "install", "--no-input", "--no-compile", "-c", str(CONSTRAINTS), "-e", target],
            "The Python packages could not be installed. The usual cause is that this computer is "
            "not online; connect it and run this again.",
        )
    remember("python", {"mark": mark, "root": str(ROOT), "extras": sorted(wanted)})
