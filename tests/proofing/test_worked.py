"""Numbers worked: what a fact rests on is found by changing figures, not by a table of what depends on what."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.build import combinations
from kitproof.proofing.figures import figures, middle, nudged
from kitproof.proofing.numbers import computed
from kitproof.proofing.proof import setting_of
from kitproof.proofing.worked import LARGEST, Worked, worked
from tests.proofing.lists import DAY, book, read_bytes

LIST = """\
part sticks "Tall"
  mass      6 kg
  rated     50 kg
  legs      700..1600 mm
  feet      400 mm at 700 mm, 800 mm at 1600 mm
  takes     bowl 100 mm

part head "Ash"
  mass      4 kg
  height    120 mm
  sits on   bowl 100 mm
  takes     slide wide
  chart     20 kg at 100 mm, 10 kg at 200 mm, 5 kg at 400 mm

part camera "Elm"
  mass      5..6 kg
  cog       10 mm forward, 150 mm up
  height    200 mm
  sits on   slide wide
  takes     lens PL at 50 mm forward, 90 mm up

part lens "Oak"
  mass      about 2 kg
  length    200 mm
  front     100 mm
  sits on   lens PL

rig A
  sticks    "Tall", legs at 1200 mm
  head      "Ash"
  camera    "Elm"
  lens      "Oak"
"""


def _worked(text: str = LIST) -> dict[str, Worked]:
    kitlist = read_bytes(text.encode())
    setting = setting_of(kitlist, book(), DAY)
    build = next(combinations(kitlist.rigs[0]))
    return {each.fact.name: each for each in worked(setting, build, computed(setting))}


def _labels(found: Worked) -> set[str]:
    return {each.label for each in found.rests_on}


def test_a_mass_rests_on_masses_alone() -> None:
    assert _labels(_worked()["carried"]) == {'camera "Elm": mass', 'lens "Oak": mass'}


def test_a_height_rests_on_masses_places_and_ports() -> None:
    found = _labels(_worked()["cog_up"])
    assert {'camera "Elm": mass', 'camera "Elm": cog up', 'camera "Elm": lens PL up'} <= found
    assert 'camera "Elm": cog forward' not in found
    assert not any("Tall" in each or "Ash" in each for each in found)


def test_only_the_points_of_a_chart_that_bound_the_height_count() -> None:
    found = _labels(_worked()["capacity"])
    assert 'head "Ash": chart, point 1' in found
    assert 'head "Ash": chart, point 2' in found
    assert 'head "Ash": chart, point 3' not in found


def test_a_stand_in_is_shown_as_one() -> None:
    lens = [each for each in _worked()["cog_up"].rests_on if each.label == 'lens "Oak": cog up']
    assert [each.said for each in lens] == [False]


def test_what_widens_most_is_what_narrows_most_when_it_is_known() -> None:
    carried = _worked()["carried"]
    assert carried.widest is not None
    assert carried.widest.label == 'camera "Elm": mass'
    assert carried.saved == pytest.approx(1.0)


def test_what_is_not_known_at_all_widens_without_end() -> None:
    carried = _worked(LIST.replace("about 2 kg", "?"))["carried"]
    assert carried.widest is not None
    assert carried.widest.label == 'lens "Oak": mass'
    assert carried.saved > LARGEST


def test_every_figure_stands_where_the_text_has_it() -> None:
    kitlist = read_bytes(LIST.encode())
    build = next(combinations(kitlist.rigs[0]))
    lines = LIST.splitlines()
    masses = [each for each in figures(build) if each.label.endswith(": mass")]
    assert len(masses) == 4
    for each in masses:
        assert "mass" in lines[each.where.line - 1]


def test_changing_a_figure_leaves_the_build_as_it_was() -> None:
    kitlist = read_bytes(LIST.encode())
    build = next(combinations(kitlist.rigs[0]))
    for each in figures(build):
        each.changed(nudged(each.ends))
    assert build == next(combinations(kitlist.rigs[0]))


@pytest.mark.parametrize(
    ("ends", "inside"),
    [((1.0, 3.0), 2.0), ((2.0, math.inf), 2.0), ((-math.inf, 5.0), 5.0), ((-math.inf, math.inf), 0.0)],
)
def test_the_middle_lies_inside(ends: tuple[float, float], inside: float) -> None:
    assert middle(ends) == (inside, inside)


def test_a_nudge_moves_both_ends_alike() -> None:
    low, high = nudged((1.0, 2.0))
    assert 1.0 < low < 1.001
    assert high - low == pytest.approx(1.0)


def test_no_figure_has_its_ends_turned_round() -> None:
    kitlist = read_bytes(LIST.encode())
    build = next(combinations(kitlist.rigs[0]))
    assert all(each.ends[0] <= each.ends[1] for each in figures(build))
