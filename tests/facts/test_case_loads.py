"""What packed cases weigh and who may lift them, with the laws that hold of both."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.cases import cases
from kitproof.facts.packing import CaseSubject
from kitproof.facts.values import Amount, Truth, Verdict, Words
from kitproof.mechanics import lifting
from tests.model.texts import setting
from tests.proofing.lists import read_bytes

BOOK = """
part head "Head"
  mass 4 kg

part sticks "Sticks"
  mass 5 to 6 kg

part accessory "Unknown"

part case "House case"
  mass 5 kg
  limit 30 kg

part case "Bare case"
  mass 5 kg
"""
LIFT = "  lifted by 1, from 300 mm to 1000 mm, 350 mm out, 20 times an hour\n"
THINGS = ('"Head"', '"Sticks"', '"Unknown"', '2 x "Head"', 'case "inner"', '"cable", 2 to 3 kg')
INNER = '\ncase "inner"\n  mass 1 kg\n  holds "Head"\n'


def case(text: str, more: str = "") -> CaseSubject:
    return cases(setting(read_bytes(f'{BOOK}\ncase "k"\n{text}{more}'.encode())))[0]


def holding(things: list[str], name: str = "k", lift: str = "") -> str:
    return f'\ncase "{name}"\n  mass 5 kg\n{lift}' + "".join(f"  holds {each}\n" for each in things)


def test_a_case_weighs_what_lies_in_it_and_in_the_cases_in_it() -> None:
    found = case('  mass 5 kg\n  holds 2 x "Head"\n  holds "Sticks"\n  holds case "inner"\n', INNER)
    assert found.amount("case_mass") == Amount(23, 24)


@pytest.mark.parametrize(
    ("text", "told", "limit"),
    [
        ("  limit 20 kg\n", Truth.TRUE, Amount(20, 20)),
        ("  limit ?\n", Truth.TRUE, Amount(0, math.inf, ('case "k": limit',))),
        ('  is "House case"\n', Truth.TRUE, Amount(30, 30)),
        ('  is "Bare case"\n', Truth.FALSE, Amount(0, math.inf, ('case "k": limit',))),
        ("", Truth.FALSE, Amount(0, math.inf, ('case "k": limit',))),
    ],
)
def test_what_a_case_may_weigh(text: str, told: Truth, limit: Amount) -> None:
    assert case(text).value("limit_told") == Verdict(told)
    assert case(text).amount("case_limit") == limit


@given(st.lists(st.sampled_from(THINGS), max_size=5), st.sampled_from(THINGS))
def test_adding_a_thing_never_lightens_a_case(things: list[str], more: str) -> None:
    before, after = (
        cases(setting(read_bytes(f"{BOOK}{holding(held)}{INNER}".encode())))[0].amount("case_mass")
        for held in (things, [*things, more])
    )
    assert before.low <= after.low
    assert before.high <= after.high


@given(st.lists(st.sampled_from(THINGS[:2]), min_size=1, max_size=6), st.integers(0, 6))
def test_splitting_a_case_never_raises_the_greatest_index(things: list[str], at: int) -> None:
    """Into two cases as heavy as it, lifted in the same way."""
    whole = cases(setting(read_bytes(f"{BOOK}{holding(things, lift=LIFT)}".encode())))
    text = holding(things[:at], "one", LIFT) + holding(things[at:], "two", LIFT)
    halves = cases(setting(read_bytes(f"{BOOK}{text}".encode())))
    (before,) = (each.amount("lift_index") for each in whole)
    after = [each.amount("lift_index") for each in halves]
    assert max(each.low for each in after) <= before.low
    assert max(each.high for each in after) <= before.high


def test_a_lift_by_hand() -> None:
    """9 kg by one person from 300 to 1000 mm, 350 mm out, one lift in three minutes, up to eight hours of it.

    RWL at the origin 23 × 25/35 × (1 − 0.003 × 45) × (0.82 + 4.5/70) × 0.85 × 0.9 to 1, whatever the grip.
    """
    found = case(f'  mass 5 kg\n{LIFT}  holds "Head"\n').amount("lift_index")
    often = 0.85 - 0.04 * (20 / 60 - 0.2) / 0.3
    limit = 23 * 25 / 35 * (1 - 0.003 * 45) * (0.82 + 4.5 / 70) * often
    assert found.low == pytest.approx(9 / limit)
    assert found.high == pytest.approx(9 / (limit * 0.9))


UP = (1 - 0.003 * 45) * (0.82 + 4.5 / 70)
LOWER = (1 - 0.003 * 65) * (0.82 + 4.5 / 90)
"""Hands at 300 mm and at 100 mm, to 1000 mm."""
OFTEN, RARELY = 0.85 - 0.04 * (20 / 60 - 0.2) / 0.3, 0.85
"""One lift in three minutes, and at most one in five."""
WORST = 23 * 25 / 63 * 0.7 * (0.82 + 4.5 / 175) * RARELY
"""Within the equation: 63 cm out, 175 cm up, over 175 cm."""
OUT = 'case "k": how far out the hands are'


@pytest.mark.parametrize(
    ("outside", "lift", "least", "most", "missing"),
    [
        ("600 x 400 x 300 mm", "1, LOW, OFTEN", 23 * 25 / 40 * UP * OFTEN, 23 * 25 / 40 * UP * OFTEN, ()),
        ("600 x 400 x 300 mm", "1, LOWER, OFTEN", 23 * 25 / 45 * LOWER * OFTEN, 23 * 25 / 45 * LOWER * OFTEN, ()),
        ("600 x 400 x 300 mm", "1, LOW, 500 mm out, OFTEN", 23 / 2 * UP * OFTEN, 23 / 2 * UP * OFTEN, ()),
        ("600 x 400 x 300 mm", "2, LOW, OFTEN", 23 * 25 / 63 * UP * OFTEN, 23 * UP * OFTEN, (OUT,)),
        ("600 x 400 mm x ?", "1, LOW, OFTEN", 23 * 25 / 40 * UP * OFTEN, 23 * 25 / 40 * UP * OFTEN, ()),
        ("600 x ? x 300 mm", "1, LOW, OFTEN", 23 * 25 / 63 * UP * OFTEN, 23 * UP * OFTEN, (OUT,)),
        ("?", "1, LOW, ? out, OFTEN", 23 * 25 / 63 * UP * OFTEN, 23 * UP * OFTEN, (OUT,)),
        ("?", "1, LOW, 500 mm out", 23 / 2 * UP * RARELY, 23 / 2 * UP * RARELY, ()),
        ("?", "1, LOW, 500 mm out, ?", 0, 23 / 2 * UP * RARELY, ('case "k": how often it is lifted',)),
        ("?", "1", WORST, 23 * RARELY, ('case "k": from', 'case "k": to', OUT)),
    ],
)
def test_what_is_not_said_of_a_lift_is_asked_about_or_is_that_of_the_case(
    outside: str, lift: str, least: float, most: float, missing: tuple[str, ...]
) -> None:
    """The reach is 20 cm and half of the depth before the body, 25 cm where the hands are below 25 cm; only for one
    person. A rate that is not said is seldom, one that is not known any. Poorly held, 0.9 of it is recommended."""
    lift = lift.replace("LOWER", "from 100 mm to 1000 mm").replace("LOW", "from 300 mm to 1000 mm")
    lift = lift.replace("OFTEN", "20 times an hour")
    found = case(f"  outside {outside}\n  mass 9 kg\n  lifted by {lift}\n").amount("lift_index")
    assert found.low == pytest.approx(9 / most)
    assert found.high == pytest.approx(9 / (least * 0.9) if least else math.inf)
    assert found.missing == missing


@pytest.mark.parametrize(
    ("text", "mass"),
    [
        ("  mass ?\n", Amount(0, math.inf, ('case "k": mass',))),
        ('  mass ?\n  holds case "inner"\n', Amount(5, math.inf, ('case "k": mass',))),
        ('  holds "Head"\n', Amount(4, math.inf, ('case "k": mass',))),
        ("  mass 5 kg\n  ; more\n", Amount(5, math.inf, ('case "k": line 19, which could not be read',))),
        (
            '  ; more\n  holds case "bag"\n  holds "Unknown"\n',
            Amount(
                0,
                math.inf,
                (
                    'case "k": mass',
                    'case "k": line 18, which could not be read',
                    'case "bag": mass',
                    'accessory "Unknown": mass',
                ),
            ),
        ),
    ],
)
def test_masses_that_are_not_known_are_asked_for(text: str, mass: Amount) -> None:
    assert case(text, f'{INNER}case "bag"\n  limit 9 kg\n').amount("case_mass") == mass


@pytest.mark.parametrize(
    ("text", "spare"),
    [
        ('  limit 20 to 22 kg\n  mass 5 kg\n  holds "Sticks"\n', Amount(9, 12)),
        ("  limit 20 kg\n", Amount(-math.inf, 20, ('case "k": mass',))),
        ("", Amount(-math.inf, math.inf, ('case "k": limit', 'case "k": mass'))),
    ],
)
def test_how_much_more_may_go_into_a_case(text: str, spare: Amount) -> None:
    assert case(text).amount("case_spare") == spare


@pytest.mark.parametrize("people", [1, 2, 3, 4, 6])
def test_a_team_is_a_guide_and_its_load_is_never_simply_shared_out(people: int) -> None:
    text = f"  mass 30 kg\n{LIFT.replace('by 1', f'by {people}')}"
    one, team = case(text).amount("lift_index"), case(text).amount("team_index")
    share = lifting.TEAM_SHARES.get(people, 1.5)
    assert team.high == pytest.approx(one.high / share)
    assert team.low == pytest.approx(one.low / (share if people < 4 else people))
    assert one == case(f"  mass 30 kg\n{LIFT}").amount("lift_index")


@pytest.mark.parametrize(
    ("mass", "words"), [(5, None), (10, "two people"), (13, "three people"), (30, None), (400, None)]
)
def test_how_many_people_it_is_for(mass: float, words: str | None) -> None:
    assert case(f"  mass {mass} kg\n{LIFT}").value("lift_guide") == Words(words)


@pytest.mark.parametrize(
    ("mass", "words"), [(17.595, None), (17.6, "two people"), (26.3925, "three people"), (26.4, None)]
)
def test_just_as_much_as_is_recommended_is_not_too_much(mass: float, words: str | None) -> None:
    """23 kg × 0.85 × 0.9, near the body, set down as high as it was taken up; and one and a half times as much."""
    lift = "  lifted by 1, from 750 mm to 750 mm, 250 mm out\n"
    assert case(f"  mass {mass} kg\n{lift}").value("lift_guide") == Words(words)


def test_a_case_of_which_nobody_says_how_it_is_lifted_has_no_index() -> None:
    for name in ("lift_index", "team_index"):
        assert case("  mass 5 kg\n").value(name) is None
    assert case("  mass 5 kg\n").value("lift_guide") == Words(None)
    assert case("  mass 5 kg\n").amount("lift_people") == Amount(1, 1)


@pytest.mark.parametrize(
    ("outside", "total"),
    [
        ("  outside 600 x 400 x 300 mm\n", Amount(1.3, 1.3)),
        ("", Amount(0, math.inf, ('case "k": outside',))),
        ("  outside ?\n", Amount(0, math.inf, ('case "k": outside',))),
        ("  outside 600 x ? x 300 mm\n", Amount(0, math.inf, ('case "k": outside',))),
    ],
)
def test_the_outer_sides_add_up(outside: str, total: Amount) -> None:
    found = cases(setting(read_bytes(f'{BOOK}\ncase "k"\n{outside}  holds "Head"\n'.encode())))[0].amount("side_sum")
    assert (found.low, found.high) == pytest.approx((total.low, total.high))
    assert found.missing == total.missing
