"""Combinations of alternatives, and the part of a build that carries the camera."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.build import picked
from kitproof.facts.geometry import placed
from tests.model.texts import RIG, builds, made

LENSES = ("long lens", "short lens")


def test_every_combination_once_in_the_order_written() -> None:
    text = RIG + '  or "short lens"\n  monitor "seven inch" or none\n'
    found = [build.choice for build in builds(made(text))]
    assert found == [
        (("lens", "long lens"), ("monitor", "seven inch")),
        (("lens", "long lens"), ("monitor", "none")),
        (("lens", "short lens"), ("monitor", "seven inch")),
        (("lens", "short lens"), ("monitor", "none")),
    ]


def test_two_lines_of_one_slot_are_both_named_in_a_choice() -> None:
    text = 'rig A\n  lens "long lens" or "short lens"\n  lens "long lens" or none\n'
    assert [dict(build.choice)["lens"] for build in builds(made(text))] == [
        "long lens, long lens",
        "long lens, none",
        "short lens, long lens",
        "short lens, none",
    ]


def test_alternatives_of_a_line_that_does_not_stand_make_no_more_combinations() -> None:
    text = 'rig A\n  monitor "seven inch" or none\n  lens "long lens" or "short lens", only with "seven inch"\n'
    found = list(picked(made(text).rigs[0]))
    assert [(key, build.choice) for key, build in found] == [
        ((0, 0), (("monitor", "seven inch"), ("lens", "long lens"))),
        ((0, 1), (("monitor", "seven inch"), ("lens", "short lens"))),
        ((1, -1), (("monitor", "none"),)),
    ]


def test_a_line_stands_with_any_one_of_those_that_it_is_there_for() -> None:
    text = 'rig A\n  monitor "seven inch" or none\n  lens "long lens" or none\n'
    found = builds(made(text + '  accessory "shade", 1 kg, only with "seven inch" or "long lens"\n'))
    assert [[each.line.slot for each in build.standing] for build in found] == [
        ["monitor", "lens", "accessory"],
        ["monitor", "accessory"],
        ["lens", "accessory"],
        [],
    ]


options = st.lists(st.sampled_from([*LENSES, "seven inch", None]), min_size=1, max_size=3, unique=True)
asked = st.one_of(st.none(), st.sampled_from([*LENSES, "seven inch"]))
lines = st.lists(st.tuples(options, asked), min_size=1, max_size=4)


@given(lines)
def test_what_stands_is_the_most_that_its_conditions_allow(rig: list[tuple[list[str | None], str | None]]) -> None:
    """Brute force over all subsets of lines: those whose conditions the subset itself meets, the largest of them."""
    text = "rig A\n" + "".join(
        "  accessory "
        + " or ".join(f'"{name}"' if name else "none" for name in names)
        + (f', only with "{wanted}"' if wanted else "")
        + "\n"
        for names, wanted in rig
    )
    expected = set()
    for chosen in itertools.product(*(names for names, _ in rig)):
        sets = [kept for kept in itertools.product((True, False), repeat=len(rig)) if _meets(rig, chosen, kept)]
        largest = max(sets, key=sum)
        expected.add(tuple(sorted(name for name, kept in zip(chosen, largest, strict=True) if kept and name)))
    found = {tuple(sorted(each.part.name for each in build.standing)) for build in builds(made(text))}
    assert found == expected


def _meets(
    rig: list[tuple[list[str | None], str | None]], chosen: tuple[str | None, ...], kept: tuple[bool, ...]
) -> bool:
    names = {name for name, stays in zip(chosen, kept, strict=True) if stays}
    return all(not stays or wanted is None or wanted in names for (_, wanted), stays in zip(rig, kept, strict=True))


def test_the_chain_runs_from_the_ground_to_the_camera_and_above_begins_on_the_plate() -> None:
    text = RIG.replace("  head ", '  spreader "sp", 1 kg\n  riser "r", 1 kg\n  head ')
    build = builds(made(text))[0]
    assert [each.line.slot for each in build.chain] == ["sticks", "riser", "head", "slide", "base", "camera"]
    assert [each.line.slot for each in build.above] == ["slide", "base", "camera"]


def test_what_is_written_above_the_head_is_above_it_a_riser_or_a_second_head_too() -> None:
    text = RIG.replace("  slide ", '  riser "r", 1 kg\n  slide ')
    assert [each.line.slot for each in builds(made(text))[0].above] == ["riser", "slide", "base", "camera"]
    text = RIG.replace("  slide ", '  head "small head"\n  slide ')
    assert [each.line.slot for each in builds(made(text))[0].above] == ["head", "slide", "base", "camera"]


def test_without_a_head_what_would_stand_on_it_is_above() -> None:
    text = RIG.replace('  head      "small head"\n', '  riser "r", 1 kg\n')
    build = builds(made(text))[0]
    assert [each.line.slot for each in build.above] == ["slide", "base", "camera"]
    assert build.above == build.chain[2:]
    assert build.chain == build.standing[:-1], "all but the lens"


def test_ballast_is_never_carried_by_the_head_even_with_no_sticks_to_hang_from() -> None:
    text = RIG.replace('  sticks    "tall sticks", legs at 1400 mm\n', "  ballast 5 kg\n")
    assert {each.standing.line.slot: each.group for each in placed(builds(made(text))[0])}["ballast"] == "hung"
