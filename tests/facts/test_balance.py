"""Where the slide must stand, and how much of its travel is left."""

from __future__ import annotations

import math

import pytest

from kitproof.model.kitlist import KitList
from tests.model.texts import PARTS, RIG, amount, made

MOVING = 1 + 4 + 3
NEEDED = -(4 * -0.020 + 3 * 0.160) / MOVING


def test_the_slide_balances_what_stands_on_it() -> None:
    """Camera 4 kg at 20 mm back, lens 3 kg at 60 + 100 mm forward; the base's 1 kg is in the middle and moves too."""
    found = amount(made(RIG), "slide_needed")
    assert (found.low, found.high) == (pytest.approx(NEEDED), pytest.approx(NEEDED))
    spare = amount(made(RIG), "slide_spare")
    assert (spare.low, spare.high) == (pytest.approx(0.080 + NEEDED), pytest.approx(0.080 + NEEDED))


def test_where_the_slide_stands_changes_nothing_of_what_is_needed() -> None:
    moved = made(RIG.replace('"wide slide"', '"wide slide", at 40 mm forward'))
    assert amount(moved, "slide_needed") == amount(made(RIG), "slide_needed")
    assert amount(moved, "cog_forward") == amount(made(RIG), "cog_forward")


OWN = RIG.replace("wide slide", "s") + 'part slide "s"\n  mass 2 kg\n  cog 50 mm back, 10 mm up\n  height 20 mm\n{}'


def test_a_slide_rests_unless_it_slides_itself_and_either_where_that_is_not_known() -> None:
    rests = -(4 * -0.020 + 3 * 0.160 + 2 * -0.050) / MOVING
    moves = rests * MOVING / (MOVING + 2)
    assert amount(made(OWN.format("")), "slide_needed").low == pytest.approx(rests)
    assert amount(made(OWN.format("  slides itself\n")), "slide_needed").low == pytest.approx(moves)
    either = amount(made(OWN.format("  slides itself, a little\n")), "slide_needed")
    assert (either.low, either.high) == (pytest.approx(rests), pytest.approx(moves))
    assert either.missing


@pytest.mark.parametrize("place", ["400 mm back", "?", ""])
def test_a_pan_bar_counts_where_its_place_is_written(place: str) -> None:
    at = f", at {place}" if place else ""
    found = amount(made(RIG + f'  pan bar "long bar", on head{at}\n'), "slide_needed")
    if place == "?":
        assert (found.low, found.high) == (-math.inf, math.inf)
        assert found.missing == ('pan bar "long bar": its place on the rig', 'pan bar "long bar": cog')
    elif place:
        # Its own centre of gravity is in no book either, so it is somewhere.
        assert found.missing == ('pan bar "long bar": cog',)
    else:
        assert found == amount(made(RIG), "slide_needed")


def test_no_slide_two_slides_and_nothing_on_it_are_asked_for() -> None:
    none = made(RIG.replace('  slide     "wide slide"\n', ""))
    assert amount(none, "slide_needed").missing == ("rig A: a slide",)
    two = made(RIG.replace("  base ", '  slide "wide slide"\n  base '))
    assert len(amount(two, "slide_needed").missing) == 1
    assert amount(two, "slide_spare").low == -math.inf
    bare = made('rig A\n  head "small head"\n  slide "wide slide"\n')
    assert amount(bare, "slide_needed").missing == ("rig A: anything on the slide",)


def test_travel_that_is_not_known_is_asked_for() -> None:
    found = amount(made(OWN.format("")), "slide_spare")
    assert found.missing == ('slide "s": travel',)


def test_spare_travel_is_least_at_the_ends_and_most_in_the_middle() -> None:
    text = RIG.replace("big camera", "c") + (
        'part camera "c"\n  mass 5 kg\n  cog 400 mm back to 100 mm forward\n  height 9 mm\n  sits on screw 3/8-16\n'
        "  takes lens PL at 60 mm forward, 80 mm up\n"
    )
    wide = made(text.replace("400 mm back to 100 mm forward", "-400..100 mm forward, 80 mm up"))
    needed, spare = amount(wide, "slide_needed"), amount(wide, "slide_spare")
    # The camera's ends: 5 kg × -400 and 100 mm, against the lens's 3 kg × 160 mm, over 9 kg.
    assert (needed.low, needed.high) == pytest.approx((-0.980 / 9, 1.520 / 9))
    assert spare.high == pytest.approx(0.080)
    assert spare.low == pytest.approx(0.080 - 1.520 / 9)


ALONG = """
part camera "c"
  mass 5 kg
  cog {}..{} mm forward, 80 mm up
  height 9 mm
  sits on screw 3/8-16
  takes lens PL at 60 mm forward, 80 mm up
"""


def uneven(back: float, forward: float) -> KitList:
    """A slide that goes 20 mm back and 100 mm forward, in whose middle it stands 40 mm forward. It is needed at
    -(5 kg × cog + 3 kg × 160 mm) / 9 kg."""
    travel = PARTS.replace("80 mm back to 80 mm forward", "20 mm back to 100 mm forward")
    return made(RIG.replace("big camera", "c") + ALONG.format(back, forward), parts=travel)


@pytest.mark.parametrize(
    ("cog", "needed", "spare"),
    [
        ((-150, 42), (-0.690 / 9, 0.270 / 9), (0.020 - 0.690 / 9, 0.050)),
        ((-402, -186), (0.050, 0.170), (-0.070, 0.050)),
        ((-186, -168), (0.040, 0.050), (0.050, 0.060)),
        ((-168, -150), (0.030, 0.040), (0.050, 0.060)),
    ],
)
def test_the_middle_of_uneven_travel_counts_only_where_the_slide_may_be_needed_there(
    cog: tuple[float, float], needed: tuple[float, float], spare: tuple[float, float]
) -> None:
    listed = uneven(*cog)
    found = amount(listed, "slide_needed")
    assert (found.low, found.high) == pytest.approx(needed)
    found = amount(listed, "slide_spare")
    assert (found.low, found.high) == pytest.approx(spare)


def test_what_hangs_on_the_sticks_does_not_tilt() -> None:
    hung = made(RIG + '  monitor "seven inch", on sticks, at 300 mm forward\n')
    assert amount(hung, "slide_needed") == amount(made(RIG), "slide_needed")


def test_what_is_missing_is_named_and_leaves_the_slide_anywhere() -> None:
    anywhere = (-math.inf, math.inf)
    none = amount(made(RIG.replace('  slide     "wide slide"\n', "")), "slide_needed")
    assert (none.low, none.high) == anywhere
    two = amount(made(RIG.replace("  base ", '  slide "wide slide"\n  base ')), "slide_needed")
    assert (two.low, two.high) == anywhere
    assert two.missing == ("rig A: which of its slides is set, and where the other stands",)
    itself = amount(made(OWN.format("  slides itself, a little\n")), "slide_needed")
    assert itself.missing == ('slide "s": slides itself (line 81 could not be read)',)
    travel = amount(made(OWN.format("  slides itself, a little\n")), "slide_spare")
    assert (travel.low, travel.high) == anywhere
    assert travel.missing == (*itself.missing, 'slide "s": travel')


def test_no_travel_is_spare_unless_there_is_one_slide_whose_travel_is_known() -> None:
    none = amount(made(RIG.replace('  slide     "wide slide"\n', "")), "slide_spare")
    assert none.missing == ("rig A: a slide",)
    two = amount(made(RIG.replace("  base ", '  slide "wide slide"\n  base ')), "slide_spare")
    assert (two.low, two.high) == (-math.inf, math.inf)
    assert two.missing == ("rig A: which of its slides is set, and where the other stands",)
    unsaid = amount(made(OWN.format("  travel ?\n")), "slide_spare")
    assert (unsaid.low, unsaid.high) == (-math.inf, math.inf)
    assert unsaid.missing == ('slide "s": travel',)


def test_a_pan_bar_whose_line_cannot_be_read_may_be_anything_anywhere() -> None:
    found = amount(made(RIG + "  pan bar 7 8 9\n"), "slide_needed")
    assert (found.low, found.high) == (-math.inf, math.inf)
    assert any(each.startswith("rig A: pan bar (line ") for each in found.missing)
