"""The samples show what Kitproof finds: every planted fault at its line, nothing besides, and nothing once mended.

`# planted: rule, rule` ends the line at which those rules find something.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from kitproof.proofing.findings import Finding, together
from tests.house.repository import ROOT, short
from tests.proofing.lists import book, book_for, everything, marks, proofed, proofed_together, read

SAMPLES = ROOT / "samples"
FAULTS = SAMPLES / "nine-bells-faults.kitlist"
SECOND = SAMPLES / "second-unit-faults.kitlist"
FLIGHT = SAMPLES / "islands-flight-faults.kitlist"
MENDED = sorted(SAMPLES.glob("*-mended.kitlist"))
UNTIDY = sorted((SAMPLES / "untidy").glob("*.kitlist"))
STOCK = sorted([*(SAMPLES / "stock").glob("*.kitlist"), *(SAMPLES / "inventory").rglob("*.kitlist")])
ALL = sorted(SAMPLES.rglob("*.kitlist"))

MARKED = pytest.mark.parametrize("path", [FAULTS, SECOND, FLIGHT, *UNTIDY], ids=short)


def found_in(path: Path) -> tuple[Finding, ...]:
    """What is found in a file; for one of the untidy ones, when all of them are proofed together: two files of a ring
    show it in each other, and lists of one name."""
    whole = together(proofed_together([read(each) for each in (UNTIDY if path in UNTIDY else [path])]))
    return tuple(each for each in whole.findings if each.where.path == str(path))


@MARKED
def test_every_planted_fault_is_found_at_its_line(path: Path) -> None:
    planted = set(marks(path, "planted"))
    assert planted
    assert planted - {(each.where.line, each.rule) for each in everything(found_in(path))} == set()


@MARKED
def test_nothing_is_found_that_was_not_planted(path: Path) -> None:
    """Of any grade. What a finding keeps under `also` is a part of it."""
    assert {(each.where.line, each.rule) for each in found_in(path)} - set(marks(path, "planted")) == set()


def test_the_list_with_faults_has_many_kinds_of_them() -> None:
    assert len({rule for _, rule in marks(FAULTS, "planted")}) >= 20


def test_planted_faults_are_found_for_certain() -> None:
    """None of them is shown as a doubt, but what lies under a finding that is certain."""
    assert {each.outcome for each in proofed(read(FAULTS)).findings} == {"fails"}


def test_what_hangs_below_its_head_stays_in_doubt_since_no_chart_goes_there() -> None:
    found = proofed(read(SECOND)).findings
    assert [(each.subject, each.rule) for each in found if each.outcome != "fails"] == [
        ("rig Jetty", "overload-at-height")
    ]


def test_every_list_with_faults_has_its_mended_twin() -> None:
    assert {path.stem.removesuffix("-faults") for path in (FAULTS, SECOND, FLIGHT)} == {
        path.stem.removesuffix("-mended") for path in MENDED
    }


@pytest.mark.parametrize("path", MENDED, ids=short)
def test_a_mended_list_is_not_sent_back_and_leaves_nothing_undecided(path: Path) -> None:
    listed = read(path)
    whole = proofed(listed)
    assert not whole.sends_back("watch")
    assert [each.rule for each in whole.findings if each.counts_as != "note" or each.outcome == "cannot tell"] == []
    assert (whole.not_judged, whole.not_read) == (0, 0)
    assert whole.judged > (200 if listed.rigs else 50)


def test_the_mended_lists_do_not_take_the_stock_from_each_other() -> None:
    """They are of one film and one house, some of them on the same days."""
    whole = together(proofed_together([read(path) for path in MENDED]))
    assert not whole.sends_back("watch")
    assert whole.not_judged == 0


@pytest.mark.parametrize("path", STOCK, ids=short)
def test_a_parts_book_has_nothing_to_send_back(path: Path) -> None:
    assert [(each.rule, each.where.line) for each in proofed(read(path)).findings] == []


def test_every_rule_fires_somewhere_in_the_samples() -> None:
    alone = (proofed(read(path), by=book_for(path)) for path in ALL if path not in UNTIDY)
    fired = {each.rule for proof in alone for each in everything(proof.findings)}
    fired |= {each.rule for path in UNTIDY for each in everything(found_in(path))}
    assert set(book().rules) - fired == set()


def test_a_planted_fault_is_of_a_known_rule() -> None:
    unknown = {(short(path), rule) for path in ALL for _, rule in marks(path, "planted") if not known(path, rule)}
    assert unknown == set()


def known(path: Path, rule: str) -> bool:
    return rule in book().rules or rule in book_for(path).rules
