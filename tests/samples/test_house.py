"""The sample house: its own folder of rules on topics that ours do not touch, each proved, each found in its list."""

from __future__ import annotations

from pathlib import Path

import pytest

from kitproof.books import shipped_rules
from kitproof.proofing.findings import Finding
from tests.house.repository import ROOT, short
from tests.proofing.lists import book, book_for, everything, marks, proofed, read

HOUSE = ROOT / "samples" / "house"
RULES = sorted(HOUSE.rglob("*.rule"))
LISTS = sorted(HOUSE.glob("*.kitlist"))
STOCK = sorted((HOUSE / "stock").glob("*.kitlist"))
EVERY = pytest.mark.parametrize("rule", RULES, ids=lambda path: f"{path.parent.name}/{path.stem}")


NAMES = {rule.stem for rule in RULES}
CALLED_FOR = {"waiver-not-allowed"}
"""A rule of ours that finds nothing where no house has set anything."""


def found_in(path: Path) -> tuple[Finding, ...]:
    """What the rules of the house find in a list, and that which it calls for; the others are shown elsewhere."""
    found = everything(proofed(read(path), by=book_for(path)).findings)
    return tuple(each for each in found if each.rule in NAMES | CALLED_FOR)


def example(rule: Path, which: str) -> Path:
    return rule.with_name(f"{rule.stem}.{which}.kitlist")


def test_the_house_has_ten_rules_in_groups_of_its_own() -> None:
    ours = {path.split("/")[0] for path in shipped_rules()}
    assert len(RULES) == 10
    assert {path.parent.name for path in RULES} & ours == set()


def test_its_rules_stand_in_one_book_with_the_shipped_ones_and_nothing_to_look_at() -> None:
    (path,) = LISTS
    held = book_for(path)
    assert set(held.rules) == {*book().rules, *NAMES}
    assert held.warnings == ()


def test_what_the_house_sets_is_in_force() -> None:
    (path,) = LISTS
    held = book_for(path)
    assert [each.values[0].written for each in held.limits if each.name == "most_in_one_case"] == ["40000"]
    assert held.never_waived == {"case-over-cover", "overload-at-height"}
    assert held.cannot_tell_counts == ("stop", "wrong")
    trial = book_for(HOUSE / "trials" / "bench.kitlist")
    assert set(held.rules) - set(trial.rules) == {"prep-too-short", "used-not-ordered"}


@EVERY
def test_a_rule_of_the_house_finds_its_example_that_fails(rule: Path) -> None:
    path = example(rule, "fails")
    found = [each for each in found_in(path) if each.rule == rule.stem]
    lines = [line for line, _ in marks(path, "found here")]
    assert lines
    assert [each.where.line for each in found] == lines
    assert {each.outcome for each in found} == {"fails"}


@EVERY
def test_a_rule_of_the_house_is_silent_about_its_example_that_holds(rule: Path) -> None:
    found = [each for each in found_in(example(rule, "holds")) if each.rule == rule.stem]
    assert [(each.outcome, each.where.line, each.says) for each in found] == []


@EVERY
@pytest.mark.parametrize("which", ["fails", "holds"])
def test_an_example_shows_no_other_rule_of_the_house(rule: Path, which: str) -> None:
    found = found_in(example(rule, which))
    assert {each.rule for each in found if each.grade in ("stop", "wrong")} - {rule.stem} == set()


def test_nothing_stands_in_its_folder_that_is_no_rule_or_example() -> None:
    wanted = {*RULES, *(example(rule, which) for rule in RULES for which in ("fails", "holds"))}
    assert {path for path in (HOUSE / "rules").rglob("*") if path.is_file()} == wanted


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_every_planted_fault_is_found_at_its_line_and_nothing_else(path: Path) -> None:
    planted = set(marks(path, "planted"))
    assert {(each.where.line, each.rule) for each in found_in(path)} == planted
    assert {each.outcome for each in found_in(path)} == {"fails"}


def test_every_rule_of_the_house_is_planted_in_its_list() -> None:
    planted = {rule for path in LISTS for _, rule in marks(path, "planted")}
    assert planted == NAMES | CALLED_FOR


@pytest.mark.parametrize("path", [*LISTS, *STOCK], ids=short)
def test_every_line_of_its_files_is_read(path: Path) -> None:
    whole = proofed(read(path), by=book_for(path))
    assert whole.not_read == 0


@EVERY
def test_a_finding_of_the_house_says_something_whole(rule: Path) -> None:
    for each in found_in(example(rule, "fails")):
        told = [each.title, each.says, each.because, *(fix.says for fix in each.fixes)]
        assert [text for text in told if not text or "{" in text or "}" in text or "not known" in text] == []
        assert each.fixes
