"""The subject `part`: what it is called, where it stands, and where a path from it leads."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.part import PartSubject, PointSubject
from kitproof.facts.values import Amount, Words
from tests.model.texts import made, setting, subject

HEAD = (
    'part head "h"\n  mass 3 kg\n  chart 18 kg at 150 mm\n  tag colour "red"\n  tag insured 12000\n  tag width 30 mm\n'
)


def head() -> PartSubject:
    kitlist = made(HEAD, parts="")
    return PartSubject(setting(kitlist), kitlist.own_parts[0])


def test_it_is_called_by_its_name_and_a_part_without_one_by_its_kind() -> None:
    assert head().label == '"h"'
    assert head().within == ('part "h"',)
    assert (head().value("name"), head().value("kind")) == (Words("h"), Words("head"))
    ballast = subject(made("rig A\n  ballast 9 kg\n")).value("ballast")
    assert isinstance(ballast, PartSubject)
    assert ballast.label == "the ballast"


def test_a_path_leads_to_the_line_of_a_field_and_else_to_the_part() -> None:
    found = head()
    assert (found.where().line, found.where(("chart",)).line, found.where(("rated",)).line) == (1, 3, 1)


def test_a_part_of_a_rig_stands_where_the_rig_names_it() -> None:
    kitlist = made('rig A\n  head "h"\n' + HEAD, parts="")
    rig = subject(kitlist)
    assert rig.where(("head",)).line == 2
    assert rig.where(("head", "chart")).line == 5
    assert rig.where(("monitor",)).line == 1


def test_a_house_has_words_and_numbers_of_its_own() -> None:
    found = head()
    assert found.value("tag.colour") == Words("red")
    assert found.amount("tag.insured").low == 12000
    assert found.amount("tag.width").low == 0.03
    assert found.value("tag.shelf") == Words(None, ('"h": tag shelf',))


def test_a_point_knows_its_chart_and_where_it_stands() -> None:
    (point,) = head().points("chart")
    assert point.label == 'chart of "h"'
    assert point.where().line == 3
    assert isinstance(point, PointSubject)
    assert point.within == ('part "h"',)


def test_points_asked_about_may_be_any_and_points_left_out_are_none() -> None:
    asked, left_out, given = (
        PartSubject(setting(kitlist), kitlist.own_parts[0])
        for kitlist in (made(f'part sticks "s"\n  mass 5 kg\n{feet}', parts="") for feet in ("  feet ?\n", "", FEET))
    )
    assert (len(asked.points("feet")), asked.points("feet").missing) == (0, ('sticks "s": feet',))
    assert (len(left_out.points("feet")), left_out.points("feet").missing) == (0, ())
    assert (len(given.points("feet")), given.points("feet").missing) == (2, ())


FEET = "  feet 400 mm at 800 mm, 600 mm at 1500 mm\n"


def test_a_point_has_its_height_and_its_load() -> None:
    (point,) = head().points("chart")
    assert isinstance(point, PointSubject)
    assert (point.amount("height").low, point.amount("height").high) == (0.150, 0.150)
    assert (point.amount("mass").low, point.amount("mass").high) == (18, 18)


HEIGHT, LOAD = 'chart of "h": a height', 'chart of "h": a load'


@pytest.mark.parametrize(
    ("chart", "points"),
    [
        (
            "12..13 kg at 220..230 mm, 18 kg at 150 mm",
            [((0.15, 0.15), (18, 18), (math.inf, math.inf)), ((0.22, 0.23), (12, 13), (18, 18))],
        ),
        (
            "? at 100 mm, 18 kg at 150 mm",
            [
                ((0.1, 0.1), (0, math.inf, (LOAD,)), (math.inf, math.inf)),
                ((0.15, 0.15), (18, 18), (0, math.inf, (LOAD,))),
            ],
        ),
        ("18 kg at ?", [((-math.inf, math.inf, (HEIGHT,)), (18, 18), (math.inf, math.inf))]),
        (
            "6 kg at ?, 18 kg at 150 mm",
            [
                ((0.15, 0.15), (18, 18), (0, math.inf, (HEIGHT,))),
                ((-math.inf, math.inf, (HEIGHT,)), (6, 6), (0, math.inf, (HEIGHT,))),
            ],
        ),
    ],
)
def test_a_point_of_no_known_height_stands_last_and_leaves_open_which_is_the_next_below(
    chart: str, points: list[tuple[tuple[float, float], ...]]
) -> None:
    """6 kg asked for at any height may stand below 18 kg at 150 mm or above it: that the load rises is not told."""
    kitlist = made(f'part head "h"\n  chart {chart}\n', parts="")
    found = PartSubject(setting(kitlist), kitlist.own_parts[0]).points("chart")
    facts = ("height", "mass", "mass_below")
    assert [tuple(each.value(name) for name in facts) for each in found] == [
        tuple(Amount(*ends) for ends in point) for point in points
    ]


def test_feet_need_no_height_of_the_legs_and_those_without_stand_last() -> None:
    kitlist = made('part sticks "s"\n  feet 700 mm, 400 mm at 800 mm\n', parts="")
    found = PartSubject(setting(kitlist), kitlist.own_parts[0]).points("feet")
    heights = [each.value("height") for each in found]
    assert heights == [Amount(0.8, 0.8), Amount(-math.inf, math.inf, ('feet of "s": a height',))]


def test_a_part_without_a_name_is_known_to_waivers_by_its_kind() -> None:
    ballast = subject(made("rig A\n  ballast 9 kg\n")).value("ballast")
    assert isinstance(ballast, PartSubject)
    assert ballast.within == ("ballast",)
