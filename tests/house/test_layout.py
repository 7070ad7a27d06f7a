"""Where things lie, and how large they may grow."""

from __future__ import annotations

import ast
import os
from pathlib import Path

import pytest

from tests.house.repository import DOCUMENTS, FOLDERS, ROOT, SOURCE, modules, short, written_files

MOST_LINES = 500
CORE = ("words", "reading", "mechanics", "model", "facts", "rulebook", "proofing", "comparing", "mending", "sheets")
BUILT = {"build", "dist"}  # what the build tool makes; never committed
TALKS = {"breakpoint", "input", "open", "print"}


def test_the_top_holds_nothing_but_what_belongs_there() -> None:
    allowed = {*DOCUMENTS, *FOLDERS, *BUILT}
    strays = [path.name for path in ROOT.iterdir() if path.name not in allowed and not path.name.startswith(".")]
    assert strays == []


def test_everything_named_stands_at_the_top() -> None:
    assert [name for name in (*DOCUMENTS, *FOLDERS) if not (ROOT / name).exists()] == []


def test_no_module_outgrows_its_room() -> None:
    written = [*modules(), *(path for path in written_files("tests") if path.suffix == ".py")]
    lengths = {short(path): len(path.read_text("utf-8").splitlines()) for path in written}
    assert {name: lines for name, lines in lengths.items() if lines > MOST_LINES} == {}


@pytest.mark.parametrize("path", modules(), ids=short)
def test_every_module_says_what_it_is_for(path: Path) -> None:
    assert ast.get_docstring(ast.parse(path.read_text("utf-8")))


def test_every_room_is_a_package() -> None:
    """A folder of modules without an __init__.py would be left out of the layers that the import contract checks."""
    rooms = {path.parent for path in modules()}
    assert [short(room) for room in sorted(rooms) if not (room / "__init__.py").exists()] == []


def test_the_core_neither_prints_nor_opens() -> None:
    """The import contract keeps the modules out; the built-in functions need no import."""
    core = [path for path in modules() if path.relative_to(SOURCE).parts[0] in CORE]
    assert core
    calls = [f"{short(path)}:{line} {name}" for path in core for line, name in _calls(path) if name in TALKS]
    assert calls == []


def _calls(path: Path) -> list[tuple[int, str]]:
    tree = ast.parse(path.read_text("utf-8"))
    return [
        (node.lineno, node.func.id)
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    ]


def test_the_script_of_all_checks_can_be_run() -> None:
    assert os.access(ROOT / ".ci" / "run", os.X_OK)
