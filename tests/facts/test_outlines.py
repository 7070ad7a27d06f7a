"""A part by itself: mass, height, outline, and where its centre of gravity is."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.outlines import centre_of, height_of, mass_of, middle_up, outline, sides
from kitproof.model.parts import Part
from kitproof.model.quantities import ANYWHERE, Range, Spot
from tests.model.texts import made


def part(text: str) -> Part:
    return made(f"part {text}\n", parts="").own_parts[0]


def spans(found: Spot) -> list[float]:
    """The ends of a place's three ranges, forward, up and left."""
    return [*found.forward, *found.up, *found.left]


SCALES = "weighed front 2 kg at 60 mm forward, rear 1 kg at 90 mm back"


class TestMass:
    def test_as_written_and_by_two_scales(self) -> None:
        assert mass_of(part('lens "L"\n  mass 2..3 kg')) == ((2, 3), ())
        scales = 'camera "C"\n  weighed front 2 kg at 60 mm forward, rear 1 kg at 90 mm back'
        assert mass_of(part(scales)) == ((3, 3), ())
        assert mass_of(part(scales + "\n  mass 4 kg")) == ((4, 4), ())

    @pytest.mark.parametrize("text", ["", "\n  mass ?", "\n  mass heavy", "\n  mass 3"])
    def test_not_known_is_anything_from_nothing_up(self, text: str) -> None:
        mass, missing = mass_of(part(f'lens "L"{text}'))
        assert list(mass) == [0, math.inf]
        assert [each.partition(" (")[0] for each in missing] == ['lens "L": mass']

    @pytest.mark.parametrize(("front", "rear", "least"), [("?", "1 kg", 1), ("2 kg", "?", 2), ("?", "?", 0)])
    def test_a_scale_that_is_not_known_is_missing(self, front: str, rear: str, least: float) -> None:
        scales = f"weighed front {front} at 60 mm forward, rear {rear} at 90 mm back"
        mass, missing = mass_of(part(f'camera "C"\n  {scales}'))
        assert list(mass) == [least, math.inf]
        assert missing == ('camera "C": weighed',)

    def test_a_mass_that_is_said_not_to_be_known_is_not_taken_from_scales(self) -> None:
        assert mass_of(part(f'camera "C"\n  {SCALES}\n  mass ?')) == ((0, math.inf), ('camera "C": mass',))


class TestCentre:
    def test_two_scales_give_the_balance_point_and_cog_the_rest(self) -> None:
        found, missing = centre_of(
            part('camera "C"\n  weighed front 2.1 kg at 60 mm forward, rear 1.9 kg at 90 mm back\n  cog 80 mm up')
        )
        assert found.forward == pytest.approx(((2.1 * 0.06 - 1.9 * 0.09) / 4,) * 2)
        assert (found.up, found.left, missing) == ((0.08, 0.08), (0, 0), ())

    def test_left_out_it_is_in_the_middle_half_of_the_outline(self) -> None:
        camera, missing = centre_of(part('camera "C"\n  size 200 x 120 x 160 mm'))
        assert camera.forward == pytest.approx((-0.05, 0.05))
        assert camera.left == pytest.approx((-0.03, 0.03))
        assert camera.up == pytest.approx((0.04, 0.12))
        assert missing == ()

    def test_a_lens_runs_forward_and_a_battery_back(self) -> None:
        lens, _ = centre_of(part('lens "L"\n  size 200 x 100 x 120 mm'))
        assert spans(lens) == pytest.approx([0.05, 0.15, -0.03, 0.03, -0.025, 0.025])
        battery, _ = centre_of(part('battery "B"\n  size 80 x 100 x 160 mm'))
        assert spans(battery) == pytest.approx([-0.06, -0.02, -0.04, 0.04, -0.025, 0.025])

    def test_of_a_side_in_doubt_the_middle_half_of_any_that_it_may_be(self) -> None:
        """From a quarter of the least to three quarters of the most; centred, a quarter of the most either way."""
        camera, _ = centre_of(part('camera "C"\n  size 200 x 100..120 x 120..160 mm'))
        assert spans(camera) == pytest.approx([-0.05, 0.05, 0.03, 0.12, -0.03, 0.03])
        lens, _ = centre_of(part('lens "L"\n  length 160..200 mm\n  front 80..100 mm'))
        assert spans(lens) == pytest.approx([0.04, 0.15, -0.025, 0.025, -0.025, 0.025])

    @pytest.mark.parametrize("text", ["cog ?", "cog in the middle", f"cog ?\n  {SCALES}"])
    def test_written_and_not_known_takes_no_stand_in(self, text: str) -> None:
        found, missing = centre_of(part(f'camera "C"\n  size 200 x 120 x 160 mm\n  {text}'))
        assert (found.forward, found.up, found.left) == (ANYWHERE, ANYWHERE, ANYWHERE)
        assert [each.partition(" (")[0] for each in missing] == ['camera "C": cog']

    def test_scales_that_cannot_be_read_leave_open_only_what_they_would_tell(self) -> None:
        found, missing = centre_of(part('camera "C"\n  size 200 x 120 x 160 mm\n  weighed twice'))
        assert found.forward == ANYWHERE
        assert [*found.up, *found.left] == pytest.approx([0.04, 0.12, -0.03, 0.03])
        assert missing == ('camera "C": cog',)

    def test_one_direction_may_be_open(self) -> None:
        found, missing = centre_of(part('camera "C"\n  cog ? forward, 80 mm up'))
        assert (found.forward, found.up) == (ANYWHERE, (0.08, 0.08))
        assert missing == ('camera "C": cog',)

    def test_with_no_outline_it_is_anywhere(self) -> None:
        found, missing = centre_of(part('camera "C"\n  mass 3 kg'))
        assert found.up == ANYWHERE
        assert missing == ('camera "C": cog',)


class TestHeight:
    def test_as_written_else_the_high_side_of_its_size(self) -> None:
        assert height_of(part('base "B"\n  height 50 mm\n  size 1 x 1 x 90 mm')) == ((0.05, 0.05), ())
        assert height_of(part('base "B"\n  size 1 x 1 x 90 mm')) == ((0.09, 0.09), ())

    @pytest.mark.parametrize(
        "text",
        [
            "",
            "height ?",
            "size ?",
            "size 1 mm x 1 mm x ?",
            "height ?\n  size 1 x 1 x 90 mm",
            "height tall\n  size 1 x 1 x 90 mm",
        ],
    )
    def test_not_known(self, text: str) -> None:
        height, missing = height_of(part(f'base "B"\n  {text}'))
        assert height == ANYWHERE
        assert [each.partition(" (")[0] for each in missing] == ['base "B": height']


def test_outlines_rise_centred_on_the_seat() -> None:
    box = outline(part('monitor "M"\n  size 30 x 180 x 120 mm'))
    assert (box.forward, box.left, box.up) == ((-0.015, 0.015), (-0.09, 0.09), (0, 0.12))
    assert outline(part('monitor "M"')).up == ANYWHERE


def test_the_outline_of_a_lens_runs_forward_and_of_a_battery_back() -> None:
    """Of a side in doubt the most is taken: it is the box that the part fills at most."""
    lens = outline(part('lens "L"\n  length 160..200 mm\n  front 110 mm'))
    assert spans(lens) == pytest.approx([0, 0.2, -0.055, 0.055, -0.055, 0.055])
    footed = outline(part('lens "L"\n  size 200 x 100 x 120 mm'))
    assert spans(footed) == pytest.approx([0, 0.2, -0.06, 0.06, -0.05, 0.05])
    battery = outline(part('battery "B"\n  size 80 x 100 x 160 mm'))
    assert spans(battery) == pytest.approx([-0.08, 0, -0.08, 0.08, -0.05, 0.05])


UNKNOWN = (0, math.inf)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ('camera "C"', (UNKNOWN, UNKNOWN, UNKNOWN)),
        ('camera "C"\n  height 160 mm', (UNKNOWN, UNKNOWN, (0.16, 0.16))),
        ('camera "C"\n  size ? x 120 x 160 mm', (UNKNOWN, (0.12, 0.12), (0.16, 0.16))),
        ('camera "C"\n  size 200 mm x 120 mm x ?\n  height 150 mm', ((0.2, 0.2), (0.12, 0.12), (0.15, 0.15))),
        ('camera "C"\n  size 200 x 120 x 160 mm\n  height 150 mm', ((0.2, 0.2), (0.12, 0.12), (0.16, 0.16))),
        ('base "B"\n  height ?', (UNKNOWN, UNKNOWN, UNKNOWN)),
        ('lens "L"\n  length 200 mm', ((0.2, 0.2), UNKNOWN, UNKNOWN)),
        ('lens "L"\n  length ?\n  front 110 mm', (UNKNOWN, (0.11, 0.11), (0.11, 0.11))),
        ('lens "L"\n  length 200 mm\n  front ?', ((0.2, 0.2), UNKNOWN, UNKNOWN)),
        (
            'lens "L"\n  length 210 mm\n  front 110 mm\n  size 200 mm x 100 mm x ?',
            ((0.2, 0.2), (0.1, 0.1), (0.11, 0.11)),
        ),
        ('rods "R"\n  length 300 mm', (UNKNOWN, UNKNOWN, UNKNOWN)),
        ('lens "L"\n  height 90 mm', (UNKNOWN, UNKNOWN, UNKNOWN)),
    ],
)
def test_sides_are_those_of_the_size_else_of_other_fields(text: str, wanted: tuple[Range, Range, Range]) -> None:
    """A lens is as long as its length and as wide as its front; another part is as high as its height."""
    assert sides(part(text)) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ('camera "C"\n  size 200 x 120 x 160..170 mm', (0.08, 0.085)),
        ('camera "C"\n  height 160 mm', (0.08, 0.08)),
        ('camera "C"', ANYWHERE),
        ('lens "L"\n  front 110 mm', (0, 0)),
        ('battery "B"\n  size 80 x 100 x 160 mm', (0, 0)),
    ],
)
def test_the_middle_is_half_way_up_what_rises_from_its_seat(text: str, wanted: Range) -> None:
    assert middle_up(part(text)) == pytest.approx(wanted)
