"""A season of forty orders on one stock: what the script in `samples/` writes, and the one clash that it plants."""

from __future__ import annotations

import runpy
import sys
from collections import Counter
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from kitproof.model.kitlist import KitList
from kitproof.proofing.findings import Finding
from tests.house.repository import ROOT
from tests.proofing.lists import everything, proofed_together, read

FOLDER = ROOT / "samples" / "season"
SCRIPT = FOLDER / "make_season.py"
LISTS = sorted(FOLDER.glob("*.kitlist"))


@pytest.fixture(scope="module")
def lists() -> list[KitList]:
    return [read(path) for path in LISTS]


@pytest.fixture(scope="module")
def found(lists: list[KitList]) -> list[Finding]:
    return [each for proof in proofed_together(lists) for each in everything(proof.findings)]


@pytest.fixture(scope="module")
def made() -> dict[str, Any]:
    """What the script defines."""
    return runpy.run_path(str(SCRIPT), run_name="season")


def test_running_the_script_again_gives_the_same_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "argv", [str(SCRIPT), str(tmp_path)])
    with pytest.raises(SystemExit, match="0"):
        runpy.run_path(str(SCRIPT), run_name="__main__")
    written = {path.relative_to(tmp_path): path.read_bytes() for path in tmp_path.rglob("*.kitlist")}
    kept = {path.relative_to(FOLDER): path.read_bytes() for path in FOLDER.rglob("*.kitlist")}
    assert written == kept
    assert len(LISTS) == 40


def test_it_shows_the_clash_that_it_was_given_and_nothing_else(made: dict[str, Any], found: list[Finding]) -> None:
    productions, clash = made["season"]()
    files = [str(FOLDER / productions[number - 1].file) for number in clash.lists]
    assert {(each.rule, each.path, each.subject) for each in found} == {
        ("promised-twice", path, f'part "{clash.part}"') for path in files
    }
    titles = [productions[number - 1].title for number in clash.lists]
    for each in found:
        other = 1 - files.index(each.path)
        assert each.outcome == "fails"
        assert f"from {clash.first} to {clash.last}" in each.says
        assert f'1 in this list and 1 in list "{titles[other]}"' in each.says
        assert [spot.path for spot in each.see] == [files[other]]


def test_it_is_the_one_clash_by_counting_every_part_on_every_day(made: dict[str, Any], lists: list[KitList]) -> None:
    """Counted from the lists as they are read, day by day and kit by kit."""
    _, clash = made["season"]()
    have = {part.name: part.have for part in lists[0].parts.values()}
    over: dict[str, set[date]] = {}
    most: Counter[str] = Counter()
    for number in range(200):
        day = made["FIRST"] + timedelta(days=number)
        counted = taken_on(lists, day)
        most |= counted
        for name, count in counted.items():
            if count > (have[name] or 0):
                over.setdefault(name, set()).add(day)
    days = {clash.first + timedelta(days=number) for number in range((clash.last - clash.first).days + 1)}
    assert over == {clash.part: days}
    assert len([name for name, count in most.items() if count == have[name]]) >= 3, "else the stock is never short"


def taken_on(lists: list[KitList], day: date) -> Counter[str]:
    counted: Counter[str] = Counter()
    for kitlist in lists:
        assert kitlist.dates is not None
        if kitlist.dates.first <= day <= kitlist.dates.last:
            for line in (line for order in kitlist.orders for line in order.lines):
                counted[line.part.name] += line.count
                for inner in line.part.includes:
                    counted[inner.name] += inner.count * line.count
    return counted
