"""How long files and functions may be, counted in lines that hold code.

Blank lines, comments and docstrings are free: nobody should save on explaining.
"""

from __future__ import annotations

import ast
import io
import re
import tokenize
from pathlib import Path

from house import python_files, typescript_files, where

MOST_LINES = 300
MOST_LINES_TWIN = 200
MOST_LINES_CONFTEST = 100
MOST_LINES_FUNCTION = 50


def docstring_lines(tree: ast.AST) -> set[int]:
    """The lines of a file that are docstrings."""
    lines: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            first = node.body[0] if node.body else None
            if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant):
                lines |= set(range(first.lineno, (first.end_lineno or first.lineno) + 1))
    return lines


def python_code_lines(text: str) -> set[int]:
    """The lines of Python that hold code: no blanks, comments or docstrings."""
    idle = {tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT}
    lines: set[int] = set()
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type not in idle | {tokenize.ENDMARKER}:
            lines |= set(range(token.start[0], token.end[0] + 1))
    return lines - docstring_lines(ast.parse(text))


def typescript_code_lines(text: str) -> int:
    """How many lines of TypeScript hold code: no blanks, and no lines of comment only."""
    without = re.sub(r"^\s*/\*.*?\*/\s*$", "", text, flags=re.DOTALL | re.MULTILINE)
    return sum(
        1 for line in without.splitlines() if line.strip() and not line.strip().startswith("//")
    )


def long_files(root: Path) -> list[str]:
    """Files and functions that have outgrown their room."""
    found = []
    for file in python_files(root):
        found += long_python(root, file)
    for file in typescript_files(root):
        most = MOST_LINES_TWIN if file.parent.name == "twins" else MOST_LINES
        lines = typescript_code_lines(file.read_text())
        if lines > most:
            found.append(f"{where(root, file)}: {lines} lines of code, at most {most}")
    for file in sorted((root / "tests").rglob("conftest.py")):
        lines = len(python_code_lines(file.read_text()))
        if lines > MOST_LINES_CONFTEST:
            found.append(
                f"{where(root, file)}: {lines} lines of code, at most {MOST_LINES_CONFTEST}"
            )
    return found


def long_python(root: Path, file: Path) -> list[str]:
    """The same for one Python file and each function in it."""
    text = file.read_text()
    code = python_code_lines(text)
    found = []
    if len(code) > MOST_LINES:
        found.append(f"{where(root, file)}: {len(code)} lines of code, at most {MOST_LINES}")
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            own = code & set(range(node.lineno, (node.end_lineno or node.lineno) + 1))
            if len(own) > MOST_LINES_FUNCTION:
                found.append(
                    f"{where(root, file, node.lineno)}: {node.name} has {len(own)} lines of code, "
                    f"at most {MOST_LINES_FUNCTION}"
                )
    return found
