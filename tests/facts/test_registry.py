"""The registry of facts: each says what it is, can be worked out, and gives what its type promises."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace

from kitproof.facts.fact import Fact
from kitproof.facts.registry import FACTS, HOUSE_NUMBERS, register
from kitproof.facts.subject import Subject
from kitproof.facts.values import Amount, Truth, Type, Verdict, Words
from tests.facts.every import subjects_of
from tests.house.repository import ROOT
from tests.proofing.lists import read

SAMPLES = sorted((ROOT / "samples").rglob("*.kitlist"))
EXAMPLES = sorted((ROOT / "rules").rglob("*.kitlist"))
EVERY = [fact for facts in FACTS.values() for fact in facts.values()]
BY_NAME = pytest.mark.parametrize("fact", EVERY, ids=lambda fact: f"{fact.about}.{fact.name}")


@BY_NAME
def test_a_fact_says_what_it_is_as_a_phrase(fact: Fact) -> None:
    assert re.match(r"[a-z\"“]", fact.says), fact.says
    assert not fact.says.endswith(".")
    assert len(fact.says) > 6
    assert "  " not in fact.says
    assert re.fullmatch(r"[a-z][a-z0-9_]*", fact.name)


def test_a_house_number_says_what_it_is_as_a_phrase() -> None:
    for each in HOUSE_NUMBERS.values():
        assert each.says[0].islower()
        assert not each.says.endswith(".")
        assert math.isfinite(each.value)


def test_two_facts_of_one_name_about_one_subject_are_refused_at_once() -> None:
    mass, again = FACTS["part"]["mass"], FACTS["part"]["mass"]
    with pytest.raises(ValueError, match="two facts are called mass about part"):
        register([*FACTS["rig"].values(), *FACTS["stage"].values(), mass, again])


def test_masses_and_energies_of_things_are_never_below_nothing_and_heights_may_be() -> None:
    """By it a rule is known to hold where a mass is not known but can only be nothing or more."""
    for about in ("part", "point", "figure"):
        assert FACTS[about]["mass"].least == 0.0, about
    assert FACTS["part"]["energy"].least == 0.0
    assert FACTS["part"]["height"].least == -math.inf
    assert FACTS["rig"]["carried"].least == 0.0
    assert FACTS["rig"]["slide_spare"].least == -math.inf
    assert FACTS["case"]["case_spare"].least == -math.inf, "a mass that is over is below nothing"
    assert FACTS["stage"]["carried"].least == -math.inf, "only what a rig's own rules may count on is declared"


def test_a_stage_says_how_it_is_worked_out_in_its_own_words_or_those_of_the_rig() -> None:
    """What a stage has in common with a rig is worked out alike."""
    for name, fact in FACTS["stage"].items():
        if name in FACTS["rig"]:
            assert fact.formula == FACTS["rig"][name].formula
    own = replace(FACTS["stage"]["carried"], formula="of its own")
    facts = {**FACTS["stage"], "carried": own}
    table = register([*FACTS["rig"].values(), *facts.values()])
    assert table["stage"]["carried"].formula == "of its own"
    assert table["stage"]["cog_up"].formula == FACTS["rig"]["cog_up"].formula


def check(fact: Fact, value: object) -> None:
    """A value is what the type of its fact promises: ends in order, no number that is none, words that are known."""
    of: Type = fact.type
    if value is None and of.sort != "truth" and not fact.certain:
        return  # what it would be a fact of is not there
    if of.sort in ("number", "reach"):
        assert isinstance(value, Amount)
        assert value.low <= value.high, "also where one of them is no number"
        assert isinstance(value.missing, tuple)
        assert not fact.certain or (value.missing == () and value.sharp)
    elif of.sort == "text":
        assert isinstance(value, Words)
        assert value.text is None or not of.words or set(value.text.split(", ")) <= set(of.words)
        assert not fact.certain or (value.text is not None and value.missing == ())
    elif of.sort == "truth":
        assert isinstance(value, Verdict)
        assert (value.truth is Truth.MISSING) == bool(value.missing)
        assert not fact.certain or value.truth in (Truth.TRUE, Truth.FALSE)
    elif of.sort == "thing":
        assert isinstance(value, Subject)
        assert value.about == of.subject
    else:
        assert isinstance(value, tuple)
        assert all(isinstance(each, Subject) and each.about == of.subject for each in value)


@pytest.mark.parametrize("path", [*SAMPLES, *EXAMPLES], ids=lambda path: path.name)
def test_every_fact_can_be_worked_out_and_is_of_its_type(path: Path) -> None:
    for thing in subjects_of(read(path)):
        for fact in FACTS[thing.about].values():
            value = thing.value(fact.name)
            check(fact, value)
            for inner in _inner(value):
                for other in FACTS[inner.about].values():
                    check(other, inner.value(other.name))
        assert thing.where().line >= 1
        assert thing.label


def _inner(value: object) -> Iterator[Subject]:
    if isinstance(value, Subject):
        yield value
    elif isinstance(value, tuple):
        yield from (each for each in value if isinstance(each, Subject))


def test_the_samples_have_subjects_of_every_kind() -> None:
    """Else the test above would hold of nothing. Points stand in charts, bookings and companions in what is ordered;
    waivers are made by a proof."""
    seen = {thing.about for path in SAMPLES for thing in subjects_of(read(path))}
    assert seen == {about for about in FACTS if not about.startswith("part ")} - {
        "booking",
        "companion",
        "point",
        "waiver",
    }
