"""How a list is typed never changes what is found: units, order, names, files, which way left is."""

from __future__ import annotations

import math

import pytest
from hypothesis import given

from kitproof.facts.values import Amount
from kitproof.model.kitlist import KitList
from tests.laws.lists import FEW, Gear, Writing, gears, kitlist
from tests.model.texts import builds, subject
from tests.proofing.lists import proofed

Verdict = tuple[str, str, str, tuple[int, int] | None]


def verdicts(listed: KitList, prefix: str = "") -> list[Verdict]:
    """Rule, outcome, subject, and in how many combinations, of everything found."""
    found: list[Verdict] = [
        (
            each.rule,
            each.outcome,
            each.subject.replace(prefix, "") if prefix else each.subject,
            (each.combinations.failing, each.combinations.of) if each.combinations else None,
        )
        for each in proofed(listed).findings
    ]
    return sorted(found, key=str)


def numbers(listed: KitList) -> list[dict[str, Amount]]:
    """The numbers of every combination of rig A."""
    names = (
        "carried",
        "cog_up",
        "cog_forward",
        "cog_left",
        "slide_needed",
        "slide_spare",
        "load_share",
        "height_limit",
    )
    return [
        {name: subject(listed, number=number).amount(name) for name in names} for number in range(len(builds(listed)))
    ]


def near(found: list[dict[str, Amount]], others: list[dict[str, Amount]]) -> bool:
    """Whether all numbers agree to nine digits."""
    return len(found) == len(others) and all(
        _near(a[name].low, b[name].low) and _near(a[name].high, b[name].high)
        for a, b in zip(found, others, strict=True)
        for name in a
    )


def _near(a: float, b: float) -> bool:
    return a == b or math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-9)


@given(gears())
@FEW
@pytest.mark.parametrize(
    "how",
    [Writing(mass="lb"), Writing(length="in"), Writing(backwards=True), Writing(split=True), Writing(prefix="Old ")],
    ids=["pounds", "inches", "entries the other way round", "two files", "other names"],
)
def test_how_it_is_typed_changes_no_verdict_and_no_number(how: Writing, gear: Gear) -> None:
    plain, other = kitlist(gear), kitlist(gear, how)
    assert not other.slips
    assert verdicts(other, how.prefix) == verdicts(plain)
    assert near(numbers(other), numbers(plain))


@given(gears())
@FEW
def test_left_and_right_changed_turns_cog_left_and_nothing_else(gear: Gear) -> None:
    plain, turned = kitlist(gear), kitlist(gear, Writing(mirrored=True))
    assert verdicts(turned) == verdicts(plain)
    for here, there in zip(numbers(plain), numbers(turned), strict=True):
        left, right = here.pop("cog_left"), there.pop("cog_left")
        assert (right.low, right.high) == pytest.approx((-left.high, -left.low))
        assert near([here], [there])


@given(gears())
@FEW
def test_a_proof_twice_is_the_same_proof(gear: Gear) -> None:
    listed = kitlist(gear)
    assert proofed(listed) == proofed(listed) == proofed(kitlist(gear))
