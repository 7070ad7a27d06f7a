"""What more doubt, more weight and more combinations may do to what is found, and what they may not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.values import Amount
from kitproof.model.kitlist import KitList
from tests.laws.lists import FEW, Ends, Gear, Thing, gears, kitlist, things, with_thing
from tests.model.texts import builds, subject
from tests.proofing.lists import everything, proofed

NAMES = (
    "carried",
    "cog_up",
    "cog_forward",
    "cog_left",
    "sticks_bear",
    "standing",
    "slide_needed",
    "slide_spare",
    "capacity",
    "load_share",
    "safe_share",
    "height_limit",
    "legs_share",
    "stack_share",
)
HAIR = 1e-9


def within(inner: Amount, outer: Amount) -> bool:
    """Whether one lies in the other, but for a rounding."""
    slack = HAIR * max(1.0, *(abs(end) for end in (inner.low, inner.high) if abs(end) < float("inf")), 1.0)
    return outer.low <= inner.low + slack and inner.high - slack <= outer.high


def not_within(narrow: KitList, wide: KitList, names: Sequence[str] = NAMES) -> list[str]:
    """The facts of the narrow list that do not lie in those of the wide one, over all combinations."""
    found = []
    for number in range(len(builds(wide))):
        inner, outer = subject(narrow, number=number), subject(wide, number=number)
        found += [name for name in names if not within(inner.amount(name), outer.amount(name))]
    return found


def changed(part: Thing, to: Ends, *names: str) -> Thing:
    """A part with some of its figures changed."""
    return replace(part, **dict.fromkeys(names, to))


FIELDS = ("mass", "forward", "up", "left", "height")


@st.composite
def gear_and_part(draw: st.DrawFn) -> tuple[Gear, Thing]:
    gear = draw(gears())
    return gear, draw(st.sampled_from(gear.things))


@given(gear_and_part(), st.sampled_from(FIELDS), st.integers(0, 40), st.integers(0, 40))
@FEW
def test_a_narrower_input_gives_facts_inside_the_wider_ones(
    pair: tuple[Gear, Thing], name: str, less: int, more: int
) -> None:
    gear, part = pair
    inner: Ends = getattr(part, name)
    assert inner is not None
    low = inner[0] - less if name in ("forward", "left") else max(inner[0] - less, 0)
    wide = with_thing(gear, part, changed(part, (low, inner[1] + more), name))
    assert not_within(kitlist(gear), kitlist(wide)) == []


@given(gear_and_part(), st.sampled_from(FIELDS))
@FEW
def test_a_question_mark_gives_facts_that_hold_those_of_any_value(pair: tuple[Gear, Thing], name: str) -> None:
    gear, part = pair
    unknown = with_thing(gear, part, changed(part, None, name))
    assert not_within(kitlist(gear), kitlist(unknown)) == []


@given(gear_and_part())
@FEW
def test_a_place_of_which_nothing_is_known_holds_those_of_any_place(pair: tuple[Gear, Thing]) -> None:
    gear, part = pair
    nowhere = replace(part, forward=None, up=None, left=None, at=None)
    assert not_within(kitlist(gear), kitlist(with_thing(gear, part, nowhere))) == []


@given(gears(), st.integers(0, 90))
@FEW
def test_an_axis_left_out_holds_any_depth_up_to_the_houses_and_a_question_mark_any(gear: Gear, depth: int) -> None:
    # Not safe_share: it is measured by what may be counted on, and that is less the less is known of the head.
    names = [name for name in NAMES if name != "safe_share"]
    sharp = kitlist(replace(gear, axis=depth))
    assert not_within(sharp, kitlist(replace(gear, axis=None)), names) == []
    unknown = replace(gear, axis=None, figures=(*gear.figures, "tilt axis ?"))
    assert not_within(sharp, kitlist(unknown), names) == []


@given(gear_and_part(), st.sampled_from(["mass", "height", "place"]), st.sampled_from(["stop", "wrong"]))
@FEW
def test_a_question_mark_never_lets_a_list_through_that_was_sent_back(
    pair: tuple[Gear, Thing], what: str, grade: str
) -> None:
    gear, part = pair
    changed = {"mass": {"mass": None}, "height": {"height": None}}.get(
        what, {"forward": None, "up": None, "left": None}
    )
    unknown = with_thing(gear, part, replace(part, **changed))  # type: ignore[arg-type]  # each takes None
    if proofed(kitlist(gear)).sends_back(grade):
        assert proofed(kitlist(unknown)).sends_back(grade)


def shares(gear: Gear) -> list[Amount]:
    listed = kitlist(gear)
    return [subject(listed, number=number).amount("load_share") for number in range(len(builds(listed)))]


@given(gear_and_part(), st.integers(1, 3000), st.booleans())
@FEW
def test_a_heavier_or_higher_top_never_improves_the_load_share(
    pair: tuple[Gear, Thing], more: int, heavier: bool
) -> None:
    """Heavier: of a part that is wholly above the others' centre of gravity. Higher: of any part."""
    gear, part = pair
    top = replace(part, up=(400, 450)) if part is not gear.slide else part
    before = with_thing(gear, part, top)
    assert top.mass is not None
    assert top.up is not None
    if heavier and part is not gear.slide:
        other = replace(top, mass=(top.mass[0] + more, top.mass[1] + more))
    else:
        other = replace(top, up=(top.up[0] + more, top.up[1] + more))
    for less, now in zip(shares(before), shares(with_thing(before, top, other)), strict=True):
        assert now.low >= less.low * (1 - HAIR)
        assert now.high >= less.high * (1 - HAIR)


@given(gears(), st.data())
@FEW
def test_one_more_combination_never_lowers_the_count_of_those_that_fail(gear: Gear, data: st.DataObject) -> None:
    more = replace(gear, lenses=(*gear.lenses, data.draw(things("one more lens", "lens", 4000))))
    if not gear.lenses:
        return
    before, after = _failing(gear), _failing(more)
    assert {rule: after.get(rule, 0) for rule in before if after.get(rule, 0) < before[rule]} == {}


def _failing(gear: Gear) -> dict[str, int]:
    """In how many combinations each rule about a rig finds something, whatever the outcome that it shows."""
    found = {}
    for each in everything(proofed(kitlist(gear)).findings):
        if each.combinations is not None and each.outcome == "fails":
            found[each.rule] = each.combinations.failing
    return found


def test_the_laws_are_tried_on_lists_that_are_found_wanting() -> None:
    """Else they would hold of nothing: this one is sent back, and only by its load."""
    camera = Thing("camera", "camera", (9000, 9000), up=(150, 150), height=(200, 200))
    gear = Gear(
        ("chart 8 kg at 100 mm, 5 kg at 300 mm",),
        40,
        (100, 100),
        Thing("slide", "slide", (700, 700), height=(20, 20)),
        Thing("base", "base", (1000, 1000), height=(50, 50)),
        camera,
        (60, 70),
        (),
        (),
    )
    assert {each.rule for each in everything(proofed(kitlist(gear)).findings)} >= {"overload-at-height"}
    light = replace(gear, camera=replace(camera, mass=(2000, 2000)))
    assert not proofed(kitlist(light)).sends_back("wrong")
    assert shares(light)[0].high == pytest.approx(3.7 / shares_capacity(light), rel=1e-9)


def shares_capacity(gear: Gear) -> float:
    return subject(kitlist(gear)).amount("capacity").low
