"""A part by itself: mass, height, outline, and where its centre of gravity is."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.outlines import centre_of, height_of, mass_of, outline
from kitproof.model.parts import Part
from kitproof.model.quantities import ANYWHERE
from tests.model.texts import made


def part(text: str) -> Part:
    return made(f"part {text}\n", parts="").own_parts[0]


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
        assert len(missing) == 1
        assert missing[0].startswith('lens "L": mass')

    def test_a_scale_that_is_not_known_is_missing(self) -> None:
        mass, missing = mass_of(part('camera "C"\n  weighed front ? at 60 mm forward, rear 1 kg at 90 mm back'))
        assert list(mass) == [1, math.inf]
        assert missing == ('camera "C": weighed',)


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
        lens, _ = centre_of(part('lens "L"\n  length 200 mm'))
        assert lens.forward == pytest.approx((0.05, 0.15))
        battery, _ = centre_of(part('battery "B"\n  size 80 x 100 x 160 mm'))
        assert battery.forward == pytest.approx((-0.06, -0.02))

    @pytest.mark.parametrize("text", ["cog ?", "cog in the middle", "weighed twice"])
    def test_written_and_not_known_takes_no_stand_in(self, text: str) -> None:
        found, missing = centre_of(part(f'camera "C"\n  size 200 x 120 x 160 mm\n  {text}'))
        assert found.forward == ANYWHERE
        assert missing

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

    @pytest.mark.parametrize("text", ["", "height ?", "size ?", "height tall\n  size 1 x 1 x 90 mm"])
    def test_not_known(self, text: str) -> None:
        height, missing = height_of(part(f'base "B"\n  {text}'))
        assert height == ANYWHERE
        assert len(missing) == 1


def test_outlines_rise_centred_on_the_seat() -> None:
    box = outline(part('monitor "M"\n  size 30 x 180 x 120 mm'))
    assert (box.forward, box.left, box.up) == ((-0.015, 0.015), (-0.09, 0.09), (0, 0.12))
    assert outline(part('monitor "M"')).up == ANYWHERE
