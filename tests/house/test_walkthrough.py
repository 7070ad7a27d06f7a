"""The walk-through for a house's own rule, in DEVELOPERS.md, is followed to the letter."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from kitproof.command import main
from tests.house.repository import ROOT

HEADING = "## A house rule, from nothing to fired in ten minutes\n"
FILES = {"kitlist", "toml", "rule"}


def steps() -> list[tuple[str, str, str]]:
    """Each block of the section: its kind, the last name in backquotes before it, and its text."""
    section = (ROOT / "DEVELOPERS.md").read_text("utf-8").split(HEADING)[1].split("\n## ")[0]
    found = []
    name = ""
    for number, piece in enumerate(re.split(r"^```", section, flags=re.MULTILINE)):
        if number % 2:
            kind, _, text = piece.partition("\n")
            found.append((kind, name, text))
        else:
            name = next(iter(reversed(re.findall(r"`([^`]+)`", piece))), "")
    return found


def test_it_has_files_commands_and_what_they_print() -> None:
    kinds = [kind for kind, _, _ in steps()]
    assert set(kinds) == {*FILES, "sh", "text"}
    assert kinds.count("sh") == kinds.count("text") == 3


def test_every_step_does_what_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    printed = ""
    for kind, name, text in steps():
        if kind in FILES:
            assert name.endswith(f".{kind}")
            Path(name).parent.mkdir(parents=True, exist_ok=True)
            Path(name).write_text(text, "utf-8")
        elif kind == "sh":
            (command,) = text.splitlines()
            program, *words = command.split()
            assert program == "kitproof"
            result = CliRunner().invoke(main, words, catch_exceptions=False)
            printed = result.stdout + result.stderr
        else:
            assert text in printed
