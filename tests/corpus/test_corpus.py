"""Faults planted in the mended samples are found by their rules, and nothing else is found that is not declared.

This plants two of each rule. `python -m tests.corpus.run` plants as many as are asked for.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from random import Random

import pytest

from tests.corpus.check import Result, check, consequences, planted
from tests.corpus.draft import MENDED, Line, before, draft
from tests.corpus.planters import PLANTERS
from tests.corpus.run import SHARE, some
from tests.corpus.touched import bare_rigs, touched
from tests.house.repository import RULES

EXCEPTIONS = Path(__file__).with_name("exceptions.toml")
"""Rules with no planter, each with the reason."""

NAMES = sorted(path.stem for path in RULES.rglob("*.rule"))


@pytest.mark.parametrize("rule", NAMES)
def test_every_rule_has_a_planter(rule: str) -> None:
    excepted = tomllib.loads(EXCEPTIONS.read_text(encoding="utf-8"))
    assert (rule in PLANTERS) != (rule in excepted), "a planter or a reason in exceptions.toml, and not both"


def test_planters_exceptions_and_consequences_are_of_rules_that_there_are() -> None:
    excepted = tomllib.loads(EXCEPTIONS.read_text(encoding="utf-8"))
    assert {*PLANTERS, *excepted, *consequences()} - set(NAMES) == set()
    found = {kind for declared in consequences().values() for kind in declared}
    assert found - {"itself", "cannot tell"} - set(NAMES) == set()


def test_every_consequence_has_its_reason() -> None:
    assert [rule for rule, declared in consequences().items() if not declared or not all(declared.values())] == []


@pytest.mark.parametrize("rule", PLANTERS)
def test_planted_faults_are_found_by_their_rule_and_alone(rule: str) -> None:
    result = Result()
    for number in range(2):
        result.add(check(rule, Random(f"{rule} {number}"), f"fault {number}"))
    assert result.problems == []
    assert result.found[rule] == 2


@pytest.mark.parametrize("name", MENDED)
def test_a_draft_reads_as_the_sample_until_something_is_planted(name: str) -> None:
    assert draft(name).read() == before(name)


def test_a_fault_in_the_wrong_place_is_a_problem(monkeypatch: pytest.MonkeyPatch) -> None:
    """The check itself can fail: it sees a rule that says nothing, and a finding that is not declared."""
    monkeypatch.setitem(PLANTERS, "slide-left-on", PLANTERS["camera-left-on"])
    problems = check("slide-left-on", Random(1), "fault").problems
    assert len(problems) == 2
    assert "not found" in problems[0]
    assert "undeclared camera-left-on" in problems[1]


def test_a_fault_touches_the_rigs_that_it_changes_and_no_other() -> None:
    """Rig C is like rig A, and has what A is given; rig B is moved down by the lines above it, and stays as it is."""
    paper = draft("nine-bells-mended.kitlist")
    paper.own.insert(0, Line("# a remark"))
    assert touched(bare_rigs(paper.before), paper.read()) == frozenset()
    paper.entry(paper.before.rigs[0].where).set("wind", "9 m/s")
    assert touched(bare_rigs(paper.before), paper.read()) == {"rig A", "rig C"}


def test_a_list_of_a_number_is_the_same_each_time() -> None:
    first, second = (planted("slide-no-spare", Random("1 7")) for _ in range(2))
    assert first is not None
    assert second is not None
    assert first[0].data(first[0].name) == second[0].data(second[0].name)


def test_what_is_raised_is_a_problem_of_its_list() -> None:
    assert some(1, range(SHARE)[:1], ["no-such-rule"]).problems == ["list 0, no-such-rule: KeyError: 'no-such-rule'"]
