"""Building up, worked out by hand: which stages there are, and what each leaves over with the slide where it was."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.stages import OF_THE_RIG, StageSubject, stage_fields, stages
from kitproof.facts.values import Amount, Truth, Verdict, Words
from kitproof.words.units import G
from tests.model.texts import PARTS, RIG, made, subject

MONITOR = '  monitor "seven inch", at 200 mm up\n'
BAG = "  ballast 9 kg, hung at 300 mm\n"
ANY = (-math.inf, math.inf)


def of(lines: str = RIG + MONITOR, parts: str = PARTS) -> list[StageSubject]:
    return stages(subject(made(lines, parts=parts)))


def left_over(found: list[StageSubject]) -> list[Amount]:
    return [value for value in (each.value("left_over") for each in found) if isinstance(value, Amount)]


def carried(found: list[StageSubject]) -> list[float]:
    return [value.high for value in (each.value("carried") for each in found) if isinstance(value, Amount)]


def test_there_is_a_stage_from_the_camera_on_for_each_line_that_adds_to_what_is_carried() -> None:
    found = of()
    assert [each.label for each in found] == [
        'rig A after camera "big camera"',
        'rig A after lens "long lens"',
        'rig A after monitor "seven inch"',
    ]
    assert carried(found) == pytest.approx([5.7, 8.7, 9.2])
    assert [each.value("after") for each in found] == [
        Words('"big camera"'),
        Words('"long lens"'),
        Words('"seven inch"'),
    ]
    assert [each.value("last") for each in found] == [Verdict(Truth.FALSE), Verdict(Truth.FALSE), Verdict(Truth.TRUE)]
    assert [each.before for each in found] == [None, found[0].now, found[1].now]
    assert all(each.value("rig") is each.rig and each.within == ("rig A",) for each in found)
    assert found[-1].now is found[-1].rig, "the last stage is the rig"
    assert found[1].place("mass") == found[1].after.where != found[0].place("mass")


def test_what_is_not_carried_makes_no_stage_and_nor_does_what_stands_before_the_camera() -> None:
    found = of(RIG.replace("  base ", f"{MONITOR}{BAG}  base ") + BAG)
    assert [each.after.part.name for each in found] == ["big camera", "long lens"]
    assert carried(found) == pytest.approx([6.2, 9.2])
    assert [each.value("last") for each in found] == [Verdict(Truth.FALSE), Verdict(Truth.TRUE)]


def test_without_a_camera_there_are_no_stages() -> None:
    assert of('rig A\n  sticks "tall sticks"\n  head "small head"\n') == []


def test_a_part_without_a_name_is_called_by_its_kind() -> None:
    assert of(RIG + "  monitor 0.5 kg, at 200 mm up\n")[-1].value("after") == Words("the monitor")


def test_what_is_left_over_is_what_was_put_on_with_the_slide_where_it_stood() -> None:
    """Base and camera, 5 kg with 4 kg at −20 mm, balance 16 mm forward; the lens comes on at 160 mm. All three, 8 kg,
    balance 50 mm back; the monitor comes on at 0."""
    first, lens, monitor = left_over(of())
    assert first == Amount(0.0, 0.0)
    assert (lens.low, lens.high, lens.missing) == (*[pytest.approx(G * 3 * (0.16 + 0.016))] * 2, ())
    assert (monitor.low, monitor.high, monitor.missing) == (*[pytest.approx(G * 0.5 * -0.05)] * 2, ())


def test_the_slide_stands_no_farther_than_its_travel() -> None:
    """Held to 10 mm forward, base and camera lean back by 5 × 6 mm: left over is the lens less that."""
    found = left_over(of(parts=PARTS.replace("80 mm back to 80 mm forward", "80 mm back to 10 mm forward")))
    assert found[1].low == found[1].high == pytest.approx(G * (3 * 0.17 - 5 * 0.006))


@pytest.mark.parametrize(
    ("lines", "travel", "lacks"),
    [
        (RIG, "?", 'slide "wide slide": travel'),
        (RIG.replace('  slide     "wide slide"\n', ""), "80 mm back to 80 mm forward", "rig A: a slide"),
    ],
    ids=["travel asked about", "no slide"],
)
def test_without_one_known_travel_anything_may_be_left_over(lines: str, travel: str, lacks: str) -> None:
    first, lens = left_over(of(lines, PARTS.replace("80 mm back to 80 mm forward", travel)))
    assert first == Amount(0.0, 0.0)
    assert lens == Amount(*ANY, (lacks,))


def test_with_two_slides_anything_may_be_left_over() -> None:
    _, lens = left_over(of(RIG.replace("  base ", '  slide "wide slide"\n  base ')))
    assert (lens.low, lens.high, len(lens.missing)) == (*ANY, 1)


def test_what_is_left_over_asks_for_places_forward_and_not_for_heights() -> None:
    found = left_over(of(parts=PARTS.replace("  cog       100 mm forward\n", "  cog       ? forward, 10 mm up\n")))
    assert found[1].missing == ('lens "long lens": cog',)
    found = left_over(of(parts=PARTS.replace("  cog       100 mm forward\n", "  cog       100 mm forward, ? up\n")))
    assert found[1].missing == ()


def test_a_stage_shares_facts_of_a_rig_and_gives_them_at_that_stage() -> None:
    assert {each.name: each.says for each in stage_fields()}["cog_up"] == "cog up at this stage"
    assert [(each.name, each.about) for each in stage_fields()] == [(name, "stage") for name in OF_THE_RIG]
    for stage in of():
        for each in stage_fields():
            assert each.compute(stage) == stage.value(each.name) == stage.now.value(each.name)
