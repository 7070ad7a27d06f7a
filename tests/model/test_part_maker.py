"""Parts made from their entries: what is written, what is `?`, what could not be read."""

from __future__ import annotations

import math

import pytest

from kitproof.model.parts import Part
from kitproof.words.kinds import COMMON, KINDS
from tests.model.texts import made, slips

AS_READ = {"kind", "name", "where", "places", "unread", "described", "lost", "cog_known"}
"""What the model adds to the fields that a person writes."""


def part(text: str) -> Part:
    return made(text, parts="").own_parts[0]


def test_every_field_word_has_its_attribute_and_every_attribute_its_word() -> None:
    words = {field.name for field in COMMON} | {field.name for kind in KINDS.values() for field in kind.fields}
    assert set(Part.__struct_fields__) - AS_READ == words


def test_a_part_is_what_is_written() -> None:
    head = part(
        'part head "H"\n  mass 6.4 kg ± 2 %\n  chart 18 kg at 150 mm, 12 kg at 220 mm\n  tilt axis 42 mm below plate\n'
    )
    assert head.mass is not None
    assert head.mass.range == pytest.approx((6.272, 6.528))
    assert [(point.value.low, point.at and point.at.low) for point in head.chart] == [(18, 0.15), (12, 0.22)]
    assert head.tilt_axis is not None
    assert head.tilt_axis.low == pytest.approx(0.042)
    assert head.unread == frozenset()


@pytest.mark.parametrize(
    ("line", "field"),
    [
        ("mass six", "mass"),
        ("height 12 kg", "height"),
        ("cog in the middle", "cog"),
        ("tilt axis below", "tilt_axis"),
        ("tilt axes 42 mm below plate", "tilt_axis"),
        ("counterbalance lots", "counterbalance"),
        ("rated 18", "rated"),
        ("chrat 18 kg at 150 mm", "chart"),
        ("size 10 x 20", "size"),
        ("weighed twice", "weighed"),
        ("takes 7", "takes"),
    ],
)
def test_a_line_that_cannot_be_read_leaves_its_field_written_and_not_known(line: str, field: str) -> None:
    head = part(f'part head "H"\n  {line}\n')
    assert field in head.unread
    assert head.blank(field)
    value = getattr(head, field)
    known = getattr(value, "known", getattr(getattr(value, "reach", None), "known", False))
    assert not known or not head.cog_known
    assert "line 2" in head.lacks(field)


def test_a_field_that_lost_its_indent_is_written_and_not_known() -> None:
    head = part('part head "H"\n  mass 3 kg\ntilt axis 42 mm below plate\n  takes flat\n')
    assert head.unread == {"tilt_axis"}
    assert head.tilt_axis is not None
    assert head.tilt_axis.range == (-math.inf, math.inf)


@pytest.mark.parametrize("field", ["rated", "chart", "tried", "size", "takes"])
def test_a_question_mark_where_figures_stand_is_written_and_not_known(field: str) -> None:
    head = part(f'part head "H"\n  {field} ?\n')
    assert head.unread == frozenset()
    assert head.blank(field)
    assert not part('part head "H"\n').blank(field)


def test_two_scales_and_a_place_that_says_forward_contradict_each_other() -> None:
    text = 'part camera "C"\n  weighed front 2 kg at 60 mm forward, rear 2 kg at 60 mm back\n  cog {}\n'
    both = made(text.format("20 mm forward, 80 mm up"), parts="")
    assert [kind for kind, _ in slips(both)] == ["figures-contradict"]
    assert slips(made(text.format("80 mm up"), parts="")) == []


class TestWeightsWithin:
    def test_it_widens_masses_below_it_in_its_file_only(self) -> None:
        book = 'part lens "L"\n  mass 2 kg\nweights within 10 %\npart lens "M"\n  mass 2 kg\n'
        text = 'list "x"\n  weights within 5 %\nuse "book"\npart lens "N"\n  mass 2 kg\n'
        found = {name: each.mass and each.mass.range for name, each in made(text, parts="", book=book).parts.items()}
        assert found == {"L": (2, 2), "M": (1.8, 2.2), "N": (1.9, 2.1)}

    def test_it_widens_two_scales_and_a_case_and_a_mass_on_a_line(self) -> None:
        text = (
            'weights within 10 %\npart camera "C"\n  weighed front 2 kg at 60 mm forward, rear 1 kg at 60 mm back\n'
            'case "k"\n  mass 6 kg\n  holds "odd", 3 kg\n'
        )
        kitlist = made(text, parts="")
        scales = kitlist.parts["C"].weighed
        assert scales is not None
        assert scales.front.range == pytest.approx((1.8, 2.2))
        case = kitlist.cases[0]
        assert case.mass is not None
        assert case.mass.range == pytest.approx((5.4, 6.6))
        assert case.holds[0].part is not None
        assert case.holds[0].part.mass is not None
        assert case.holds[0].part.mass.range == pytest.approx((2.7, 3.3))

    @pytest.mark.parametrize("said", ["2", "?", "a little"])
    def test_where_it_is_not_known_neither_are_the_masses(self, said: str) -> None:
        lens = made(f'weights within {said}\npart lens "L"\n  mass 2 kg\n', parts="").parts["L"]
        assert lens.mass is not None
        assert not lens.mass.known
        assert lens.mass.range == (0, math.inf)

    def test_no_mass_goes_below_nothing(self) -> None:
        lens = made('weights within 150 %\npart lens "L"\n  mass 2 kg\n', parts="").parts["L"]
        assert lens.mass is not None
        assert lens.mass.range == (0, 5)
