"""Places written of what rests on the feet count in the lean and all that follows from it.

Source: elementary statics, Σ m r / Σ m, worked out by hand beside each test, all masses sharp.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitproof.facts.values import Amount
from tests.facts.amounts import ends
from tests.model.texts import amount, made

LEGS = """
part sticks "S"
  mass 5 kg
  cog 500 mm up
  legs 1000..1000 mm
  feet 600 mm at 1000 mm
  takes bowl 100 mm
"""
ADAPTER = """
part adapter "A"
  mass 1 kg
  cog 10 mm up
  height 20 mm
  sits on bowl 100 mm
  takes flat at PORT
"""
TOP = """
part head "H"
  mass 4 kg
  cog 50 mm up
  height 100 mm
  tilt axis 0 mm below plate
  sits on flat
part camera "C"
  mass 2 kg
  cog 0 mm up
  height 100 mm
part tie-down "D"
  mass 3 kg
  cog 0 mm up
"""
FACTS = (
    "lean",
    "overturn_share",
    "tip_angle_level",
    "tip_angle_tilted",
    "levelled_share",
    "ballast_needed",
    "fall_share",
)


def of(
    name: str = "lean",
    *,
    sticks: str = "",
    adapter: str = "",
    head: str = "",
    more: str = "",
    port: str = "20 mm up",
    parts: str = "",
    tilts: str = "0° to 0°",
) -> Amount:
    """A fact of 5 kg of sticks, 1 kg of adapter, 4 kg of head and 2 kg of camera, with what the lines say more."""
    lines = f'  sticks "S"{sticks}\n  adapter "A"{adapter}\n  head "H"{head}\n  camera "C"\n{more}  tilts {tilts}\n'
    text = parts or LEGS + ADAPTER.replace("PORT", port) + TOP
    return amount(made(f"rig A\n{lines}", parts=text), name)


@pytest.mark.parametrize("side", ["left", "right", "forward", "back"])
@pytest.mark.parametrize(
    ("slots", "mass"),
    [({"head": 1}, 4 + 2), ({"adapter": 1}, 1 + 4 + 2), ({"sticks": 1}, 12), ({"adapter": 1, "head": 1}, 7 + 6)],
)
def test_a_part_60_mm_off_the_middle_takes_along_what_stands_on_it(
    side: str, slots: dict[str, int], mass: float
) -> None:
    """60 mm × the mass that is moved over the 12 kg of all."""
    found = of(**dict.fromkeys(slots, f", at 60 mm {side}"))
    assert ends(found) == pytest.approx((0.06 * mass / 12,) * 2)
    assert found.missing == ()


def test_the_port_of_what_stands_below_is_a_place_too_and_the_line_goes_before_it() -> None:
    """Head and camera, 6 of 12 kg, 40 mm off the middle; with the line, 20 mm."""
    assert ends(of(port="40 mm left, 20 mm up")) == pytest.approx((0.02, 0.02))
    assert ends(of(port="40 mm left, 20 mm up", head=", at 20 mm left")) == pytest.approx((0.01, 0.01))


@pytest.mark.parametrize("side", ["left", "right", "forward", "back"])
def test_a_written_centre_of_gravity_counts(side: str) -> None:
    """4 kg of head 30 mm out, of 12 kg: 10 mm; 5 kg of sticks 30 mm out: 12.5 mm."""
    whole = LEGS + ADAPTER.replace("PORT", "20 mm up") + TOP
    assert ends(of(parts=whole.replace("50 mm up", f"30 mm {side}, 50 mm up"))) == pytest.approx((0.01, 0.01))
    assert ends(of(parts=whole.replace("500 mm up", f"30 mm {side}, 500 mm up"))) == pytest.approx((0.0125, 0.0125))


def test_what_hangs_counts_where_it_is_written_to_hang() -> None:
    """3 kg 500 mm out, of 15 kg: 100 mm. On a head that is 60 mm to the other side, 6 × −60 + 3 × 440 over 15 kg."""
    assert ends(of(more='  tie-down "D", at 500 mm left, on sticks\n')) == pytest.approx((0.1, 0.1))
    shifted = of(head=", at 60 mm right", more='  tie-down "D", at 500 mm left, on head\n')
    assert ends(shifted) == pytest.approx((0.064, 0.064))


def test_ballast_hangs_plumb_under_its_hook() -> None:
    """3 kg of 15 kg under a hook 100 mm out: 20 mm; its own depth and width make no difference."""
    assert ends(of(more="  ballast 3 kg, hung at 300 mm, at 100 mm back\n")) == pytest.approx((0.02, 0.02))


def test_of_what_nothing_is_written_the_middle_is_taken() -> None:
    assert ends(of()) == (0.0, 0.0)
    assert ends(of(more='  tie-down "D", on sticks\n')) == (0.0, 0.0)


def test_the_slope_at_which_it_tips_and_what_overturns_it() -> None:
    """6 of 12 kg 60 mm out, e = 30 mm; h = (5 × 0.5 + 1 × 1.01 + 4 × 1.07 + 2 × 1.12) / 12; the edge at 300 mm."""
    height = (5 * 0.5 + 1 * 1.01 + 4 * 1.07 + 2 * 1.12) / 12
    angle = math.atan(0.27 / height)
    assert ends(of("tip_angle_level", head=", at 60 mm left")) == pytest.approx((angle, angle))
    assert ends(of("levelled_share", head=", at 60 mm left")) == pytest.approx((0.1, 0.1))


def test_forward_does_not_turn_with_the_tilt() -> None:
    """The head 60 mm forward; the camera 2 of 12 kg on the axis stays where it is at any tilt."""
    assert ends(of(head=", at 60 mm forward", tilts="-40° to 40°")) == pytest.approx((0.03, 0.03))


@pytest.mark.parametrize("slot", ["sticks", "adapter", "head"])
@pytest.mark.parametrize("name", FACTS)
def test_a_place_that_is_not_known_widens_and_is_asked_for(slot: str, name: str) -> None:
    found, middle = of(name, **{slot: ", at ?"}), of(name)
    word = {"sticks": 'sticks "S"', "adapter": 'adapter "A"', "head": 'head "H"'}[slot]
    assert f"{word}: its place on the rig" in found.missing
    assert found.low <= middle.low
    assert found.high >= middle.high
    unknown = (-math.pi / 2, math.pi / 2) if name.startswith("tip") else (0.0, math.inf)
    assert ends(found) == unknown


def test_one_direction_that_is_not_known_is_enough() -> None:
    assert ends(of(head=", at 10 mm forward, ? left")) == (0.0, math.inf)


@given(st.integers(0, 200), st.integers(0, 200), st.sampled_from(["sticks", "adapter", "head"]))
@settings(max_examples=25)
def test_left_and_right_are_alike_and_farther_out_is_worse(one: int, more: int, slot: str) -> None:
    for name in FACTS[:-1]:
        near = of(name, **{slot: f", at {one} mm left"})
        far = of(name, **{slot: f", at {one + more} mm left"})
        assert ends(of(name, **{slot: f", at {one} mm right"})) == pytest.approx(ends(near))
        sign = -1 if name.startswith("tip") else 1
        assert sign * far.high >= sign * near.high - 1e-9


@given(st.integers(-100, 100), st.integers(0, 100), st.floats(0, 1))
@settings(max_examples=25)
def test_a_place_in_doubt_holds_every_place_in_it(low: int, width: int, share: float) -> None:
    def at(start: float, end: float) -> str:
        return f", at {start}..{end} mm left" if end > start else f", at {start} mm left"

    inside = low + share * width
    doubt, known = of(head=at(100 + low, 100 + low + width)), of(head=f", at {100 + inside:.6f} mm left")
    assert doubt.low - 1e-9 <= known.low <= known.high <= doubt.high + 1e-9
