"""The rules of the house, as one function each: path in, list of plain sentences out.

Who may import whom, what the pure end may not touch, which module names say nothing, what stands at
the top (how long a file may be is in house_lengths.py). `tests/test_layout.py` runs them on the
project, and on small trees with a planted fault to show that each one bites.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

# Left to right: a package may import packages of the columns to its left, and of its own column
# as long as no circle comes of it.
COLUMNS: tuple[frozenset[str], ...] = (
    frozenset({"rules"}),
    frozenset({"offcuts", "tags", "parts", "places", "assemblies", "holds"}),
    frozenset({"events"}),
    frozenset({"bench", "sync", "reports"}),
    frozenset({"storage"}),
    frozenset({"workshop"}),
    frozenset({"routes"}),
    frozenset({"app", "cli", "commands", "__main__"}),
)
PURE = COLUMNS[0] | COLUMNS[1] | COLUMNS[2]
NO_SERVER = PURE | COLUMNS[3]

# a package name stands for everything below it
OUTSIDE_WORLD = frozenset(
    "time random secrets socket ssl http urllib requests httpx ftplib smtplib selectors asyncio "
    "threading multiprocessing subprocess sqlite3 granian".split()
)
SCHEMAS = frozenset({"marshmallow"})
SERVER = frozenset({"flask", "werkzeug", "flask_sqlalchemy"})
DATABASE = frozenset({"flask_sqlalchemy", "sqlalchemy", "alembic"})
UNREPEATABLE_CALLS = frozenset(
    "datetime.now datetime.utcnow datetime.today date.today uuid.uuid1 uuid.uuid4 uuid.uuid7 "
    "os.urandom os.getrandom".split()
)

TOP = frozenset(
    {"README.md", "DEVELOPERS.md", "pyproject.toml", "server", "web", "tests", "scripts"}
)
EMPTY_WORDS = frozenset(
    {"utils", "util", "helpers", "helper", "manager", "managers", "service", "services"}
)


@dataclass(frozen=True)
class Import:
    """One import in one file: who, what, and where it stands."""

    file: Path
    line: int
    owner: str
    target: str


def python_files(root: Path) -> list[Path]:
    """The Python sources of the server."""
    return sorted((root / "server" / "bucktail").rglob("*.py"))


def typescript_files(root: Path) -> list[Path]:
    """The TypeScript sources of the web app, without tests and generated files."""
    source = root / "web" / "src"
    return [
        file
        for file in sorted(source.rglob("*.ts*"))
        if ".test." not in file.name and source / "generated" not in file.parents
    ]


def owner_of(root: Path, file: Path) -> str:
    """The package, or single module, at the top of bucktail that a file belongs to."""
    parts = file.relative_to(root / "server" / "bucktail").parts
    return parts[0].removesuffix(".py")


def for_types_only(tree: ast.AST) -> set[ast.AST]:
    """Every node below `if TYPE_CHECKING:`; such imports do not happen at run time."""
    return {
        inner
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING")
        for statement in node.body
        for inner in ast.walk(statement)
    }


def imports_of(root: Path, file: Path) -> Iterator[Import]:
    """Every import of a file, relative ones resolved to their full name."""
    tree = ast.parse(file.read_text(), str(file))
    owner, skipped = owner_of(root, file), for_types_only(tree)
    package = file.relative_to(root / "server").with_suffix("").parts[:-1]
    for node in ast.walk(tree):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            up = package[: len(package) - node.level + 1] if node.level else ()
            base = ".".join([*up, *([node.module] if node.module else [])])
            names = [f"{base}.{alias.name}" for alias in node.names]
        for name in names:
            ours = name.split(".")[0] == "bucktail"
            if ours or node not in skipped:
                yield Import(file, getattr(node, "lineno", 0), owner, name)


def column_of(package: str) -> int | None:
    """Which column a package stands in; None when the table does not name it."""
    return next((i for i, column in enumerate(COLUMNS) if package in column), None)


def wrong_imports(root: Path) -> list[str]:
    """Imports that point to the right, make a circle, or reach for what is kept elsewhere."""
    found: list[str] = []
    sideways: dict[str, set[str]] = {}
    for file in python_files(root):
        if file.parent == root / "server" / "bucktail" and file.name == "__init__.py":
            continue
        if column_of(owner_of(root, file)) is None:
            found.append(f"{where(root, file)}: no column for {owner_of(root, file)} in the house")
            continue
        for item in imports_of(root, file):
            found += complaint(root, item)
            note_sideways(item, sideways)
    return list(dict.fromkeys(found)) + circles(sideways)


def complaint(root: Path, item: Import) -> list[str]:
    """What is wrong with one import; empty when nothing is."""
    place = where(root, item.file, item.line)
    top, *rest = item.target.split(".")
    if top == "bucktail":
        target = rest[0] if rest else ""
        mine, theirs = column_of(item.owner), column_of(target)
        if target == "__version__" or target == item.owner:
            return []
        if theirs is None:
            return [f"{place}: bucktail.{target} has no column in the house"]
        if mine is not None and theirs > mine:
            return [f"{place}: {item.owner} may not import {target}, which stands to its right"]
        return []
    if item.owner in PURE and top in OUTSIDE_WORLD:
        return [f"{place}: {item.owner} is pure and may not import {top}; have it passed in"]
    if (item.owner in PURE and top in SCHEMAS) or (item.owner in NO_SERVER and top in SERVER):
        return [f"{place}: {item.owner} may not import {top}"]
    if top in DATABASE and item.owner != "storage" and not hands_on_a_session(item):
        return [f"{place}: only storage may import {item.target}"]
    return []


def hands_on_a_session(item: Import) -> bool:
    """Whether an import only names SQLAlchemy's Session, to pass one on to storage."""
    return item.target == "sqlalchemy.orm.Session" and item.owner not in NO_SERVER


def note_sideways(item: Import, sideways: dict[str, set[str]]) -> None:
    """Remember an import within one column, to look for circles afterwards."""
    top, *rest = item.target.split(".")
    if top != "bucktail" or not rest or rest[0] == item.owner:
        return
    if column_of(rest[0]) is not None and column_of(rest[0]) == column_of(item.owner):
        sideways.setdefault(item.owner, set()).add(rest[0])


def circles(sideways: dict[str, set[str]]) -> list[str]:
    """Packages of one column that import each other, directly or through others."""

    def reach(start: str) -> set[str]:
        seen: set[str] = set()
        queue = list(sideways.get(start, ()))
        while queue:
            package = queue.pop()
            if package not in seen:
                seen.add(package)
                queue += sideways.get(package, ())
        return seen

    return [
        f"{name} imports itself through its neighbours"
        for name in sorted(sideways)
        if name in reach(name)
    ]


def unrepeatable_calls(root: Path) -> list[str]:
    """Calls in the pure end that give something else each time: the clock, chance."""
    found = []
    for file in python_files(root):
        if owner_of(root, file) not in PURE:
            continue
        for node in ast.walk(ast.parse(file.read_text(), str(file))):
            if not isinstance(node, ast.Call):
                continue
            name = ".".join(ast.unparse(node.func).split(".")[-2:])
            if name in UNREPEATABLE_CALLS:
                found.append(
                    f"{where(root, file, node.lineno)}: {name} in the pure end; pass it in"
                )
    return found


def empty_names(root: Path) -> list[str]:
    """Modules and folders whose name says nothing about what is in them."""
    found = []
    for top in ("server/bucktail", "web/src", "web/plugins", "scripts", "tests"):
        for path in sorted((root / top).rglob("*")):
            name = path.name.split(".")[0].removeprefix("test_")
            if (
                set(re.split(r"[_-]", name.lower())) & EMPTY_WORDS
                and not {"__pycache__", "webapp"} & set(path.parts)  # "webapp" is the build
            ):
                found.append(f"{where(root, path)}: name it for what it does")
    return found


def wrong_web_imports(root: Path) -> list[str]:
    """IndexedDB outside store/, and twins that reach beyond twins/ and generated/."""
    found = []
    source = root / "web" / "src"
    for file in typescript_files(root):
        folder = file.relative_to(source).parts[0]
        text = file.read_text()
        for target in re.findall(r"""(?:from|import)\s*\(?\s*['"]([^'"]+)['"]""", text):
            if target == "idb" and folder != "store":
                found.append(f"{where(root, file)}: only store/ may import idb")
            if folder == "twins" and not re.match(r"\./|\.\./generated/", target):
                found.append(f"{where(root, file)}: a twin may not import {target}")
        if re.search(r"\bindexedDB\b", text) and folder != "store":
            found.append(f"{where(root, file)}: only store/ may touch indexedDB")
    return found


def strangers_at_the_top(names: Iterable[str]) -> list[str]:
    """Names at the top of the checkout that do not belong there."""
    return [
        f"{name}: does not belong at the top"
        for name in sorted(set(names))
        if name not in TOP and not name.startswith(".")
    ]


def where(root: Path, file: Path, line: int = 0) -> str:
    """A path from the top of the checkout, with a line if there is one."""
    return file.relative_to(root).as_posix() + (f":{line}" if line else "")
