"""What counts as carried, what the sticks bear, what stands, and where its centre of gravity is."""

from __future__ import annotations

import math

import pytest

from tests.model.texts import RIG, amount, made

CARRIED = 0.7 + 1 + 4 + 3


@pytest.mark.parametrize(
    ("line", "carried", "bears"),
    [
        ("", 0, 0),
        ('pan bar "long bar"', 0, 0.4),
        ('monitor "seven inch"', 0.5, 0.5),
        ('accessory "bag", 2 kg, on head', 0, 2),
        ('accessory "bag", 2 kg, on sticks', 0, 2),
        ('accessory "bag", 2 kg, on ground', 0, 0),
        ("ballast 9 kg, hung at 300 mm", 0, 9),
        ("ballast 9 kg, on ground", 0, 9),
        ('spreader "spreader", 1 kg', 0, 0),
        ('riser "riser", 2 kg', 0, 2),
    ],
)
def test_what_is_carried_and_what_the_sticks_bear(line: str, carried: float, bears: float) -> None:
    low = line.startswith(("riser", "spreader"))
    rig = RIG.replace("  head ", f"  {line}\n  head ") if low else RIG + f"  {line}\n"
    kitlist = made(rig)
    found = amount(kitlist, "carried")
    assert (found.low, found.high, found.missing) == (pytest.approx(CARRIED + carried), pytest.approx(found.low), ())
    assert amount(kitlist, "sticks_bear").low == pytest.approx(CARRIED + 3 + bears)
    spreader = 1 if line.startswith("spreader") else 0
    assert amount(kitlist, "standing").low == pytest.approx(CARRIED + 3 + 5 + bears + spreader)


def test_hung_below_the_head_the_height_counts_down() -> None:
    up, down = amount(made(RIG), "cog_up"), amount(made(RIG + "  underslung\n"), "cog_up")
    assert (down.low, down.high) == (-up.high, -up.low)
    low = amount(made(RIG + "  underslung\n"), "standing_cog_up")
    assert low.high < amount(made(RIG), "standing_cog_up").low


def test_nothing_carried_has_no_centre() -> None:
    kitlist = made('rig A\n  sticks "tall sticks"\n  head "small head"\n')
    assert amount(kitlist, "carried").high == 0
    assert amount(kitlist, "cog_up").missing == ("rig A: anything on the head",)


def test_the_centre_of_everything_above_the_ground_worked_by_hand() -> None:
    """Sticks 5 kg between 0.4 and 0.6 of 1400 mm, head 3 kg somewhere between 1400 and 1530 mm, the build on top."""
    text = RIG.replace("wide slide", "s").replace("studio base", "b").replace("long lens", "l")
    parts = (
        'part slide "s"\n  mass 1 kg\n  cog 10 mm up\n  height 20 mm\npart base "b"\n  mass 1 kg\n  cog 20 mm up\n'
        '  height 50 mm\npart lens "l"\n  mass 1 kg\n  cog 0 mm up\n  sits on lens PL\n'
    )
    found = amount(made(parts + text), "standing_cog_up")
    top = 1.530
    build = 1 * (top + 0.01) + 1 * (top + 0.04) + 4 * (top + 0.07 + 0.08) + 1 * (top + 0.07 + 0.08)
    assert found.low <= (5 * 0.56 + 3 * 1.40 + build) / 15 + 0.01
    assert found.low >= (5 * 0.56 + 3 * 1.40 + build) / 15 - 1e-9
    assert found.high <= (5 * 0.84 + 3 * 1.53 + build) / 15 + 1e-9
    assert found.missing == ()


def test_a_centre_that_is_written_for_sticks_counts_and_a_question_mark_takes_no_stand_in() -> None:
    text = 'part sticks "s"\n  mass 50 kg\n  legs 700..1600 mm\n  takes bowl 100 mm\n  cog {}\n' + RIG
    low = amount(made(text.format("300 mm up").replace('"tall sticks"', '"s"')), "standing_cog_up")
    high = amount(made(text.format("900 mm up").replace('"tall sticks"', '"s"')), "standing_cog_up")
    assert low.high < high.low
    unknown = amount(made(text.format("?").replace('"tall sticks"', '"s"')), "standing_cog_up")
    assert (unknown.low, unknown.high) == (-math.inf, math.inf)
    assert unknown.missing == ('sticks "s": cog',)


def test_a_line_that_cannot_be_read_may_have_carried_anything() -> None:
    found = amount(made(RIG + "  montor at 7 in\n"), "carried")
    assert (found.low, found.high) == (pytest.approx(CARRIED), math.inf)
    assert "line" in found.missing[0]
