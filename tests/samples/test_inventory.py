"""The sample of an untidy inventory: the parts book beside it is what the command takes from it, and what it leaves."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from kitproof.command import main
from tests.house.repository import ROOT

FOLDER = ROOT / "samples" / "inventory"
SHEET = FOLDER / "penhallow.csv"
TAKEN = FOLDER / "taken" / "penhallow.kitlist"


def test_the_book_is_what_the_command_takes_from_the_sheet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "penhallow.csv").write_bytes(SHEET.read_bytes())
    words = ["from-sheet", "penhallow.csv", "--parts", "-o", "penhallow.kitlist"]
    result = CliRunner().invoke(main, words, catch_exceptions=False)
    assert result.exit_code == 1, "it is untidy, and what is in doubt is not taken"
    assert (tmp_path / "penhallow.kitlist").read_bytes() == TAKEN.read_bytes()


def test_what_is_left_is_said_with_its_reason() -> None:
    result = CliRunner().invoke(main, ["from-sheet", str(SHEET), "--parts"], catch_exceptions=False)
    left = result.stdout[result.stdout.index("Not taken:") :]
    reasons = (
        "with a point and no comma",
        "it is not known",
        "it should be a range",
        "contradict each other: 6.2 lb, 2.8 kg",
        "contradict each other: 22 kg, 20 kg",
        "which kind of part it is, is not said",
        "was taken for the heading of a section",
    )
    assert [reason for reason in reasons if reason not in " ".join(left.split())] == []
