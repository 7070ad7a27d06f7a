"""Lists that go round in circles or on for ever: said where that is a fault, and proofed to the end."""

from __future__ import annotations

import pytest

from kitproof.facts.build import combinations
from kitproof.proofing.findings import Proof
from tests.proofing.lists import proofed, proofed_text, read_bytes

PARTS = (
    'part sticks "S"\n  mass 5 kg\n  rated 60 kg\n  takes bowl 100 mm\n\n'
    'part head "H"\n  mass 4 kg\n  height 120 mm\n  sits on bowl 100 mm\n  takes slide wide\n'
    "  chart 18 kg at 125 mm, 9 kg at 300 mm\n  tilt axis 45 mm below plate\n\n"
    'part slide "W"\n  mass 1 kg\n  cog 10 mm up\n  height 20 mm\n  sits on slide wide\n  takes screw 3/8-16\n'
    "  travel 200 mm back to 200 mm forward\n\n"
    'part camera "C"\n  mass 4 kg\n  cog 60 mm up\n  sits on screw 3/8-16\n\n'
)
RIG = 'rig A\n  sticks "S"\n  head "H"\n  slide "W"\n  camera "C"\n'


def rules_at(whole: Proof) -> set[tuple[str, int]]:
    return {(each.rule, each.where.line) for each in whole.findings}


def line_of(text: str, start: str) -> int:
    return next(number for number, line in enumerate(text.splitlines(), 1) if line.startswith(start))


@pytest.mark.parametrize("like", ["B", "C", "nobody", "b"])
def test_a_rig_like_one_that_does_not_stand_above_it_is_said_and_not_judged(like: str) -> None:
    text = f"{PARTS}{RIG}\nrig B like {like}\n\nrig C like A\n"
    whole = proofed_text(text)
    assert ("unknown-part", line_of(text, "rig B")) in rules_at(whole)
    waiting = [each for each in whole.findings if each.subject == "rig B" and each.outcome == "cannot tell"]
    assert {"overload-at-height", "sticks-overloaded"} <= {each.rule for each in waiting}
    assert {name for each in waiting for name in each.missing} >= {f"rig B: all that it should have from rig {like}"}
    whole_rigs = [each for each in whole.findings if each.subject in ("rig A", "rig C")]
    assert {name for each in whole_rigs for name in each.missing if "should have" in name} == set()
    assert {each.rule for each in whole_rigs if each.subject == "rig A"} == {
        each.rule for each in whole_rigs if each.subject == "rig C"
    }
    assert "overload-at-height" not in {each.rule for each in whole_rigs}


def test_two_rigs_like_each_other_are_said_once() -> None:
    text = f'{PARTS}rig A like B\n  head "H"\n\nrig B like A\n'
    found = [each for each in proofed_text(text).findings if each.rule == "unknown-part"]
    assert [each.where.line for each in found] == [line_of(text, "rig A")]


def test_a_long_chain_of_rigs_is_followed() -> None:
    chain = "".join(f"\nrig A{number + 1} like A{number}\n" for number in range(400))
    text = PARTS + RIG.replace("rig A", "rig A0").replace('"C"', '"X"') + chain
    whole = proofed_text(text)
    assert {each.subject for each in whole.findings if each.outcome == "cannot tell"} >= {"rig A0", "rig A400"}


@pytest.mark.parametrize("inside", ['case "One"', 'case "Two"', 'case "nobody"'])
def test_a_case_in_itself_or_in_nothing_is_proofed(inside: str) -> None:
    text = (
        f'{PARTS}case "One"\n  holds case "Two"\n  holds "H", level, camera on, slide on\n\n'
        f'case "Two"\n  mass 2 kg\n  holds {inside}\n  holds "H", tilted down 70°\n'
    )
    rules = {each.rule for each in proofed_text(text).findings}
    assert {"camera-left-on", "slide-left-on", "head-packed-tilted"} <= rules


@pytest.mark.parametrize("on", ['"second"', '"first"', "monitor"])
def test_what_hangs_on_itself_is_nowhere_and_said(on: str) -> None:
    text = (
        f'{PARTS}{RIG}  accessory "first", 1 kg, at 10 mm up, on {on}\n'
        '  accessory "second", 1 kg, at 10 mm up, on "first"\n'
    )
    whole = proofed_text(text)
    assert {each.rule for each in whole.findings if each.outcome == "cannot tell"} >= {"overload-at-height"}


def test_a_companion_a_kit_or_an_own_case_of_itself_ends() -> None:
    text = (
        'part kit "K"\n  mass 1 kg\n  includes 2 x "K", "L"\n\npart kit "L"\n  mass 1 kg\n  includes "K"\n\n'
        'part head "H"\n  mass 4 kg\n  own case "H"\n  pan bar "H"\n  goes with "H"\n\n'
        'order\n  1 x "K"\n\ncase "One"\n  is "One"\n  holds "H", on sticks\n'
    )
    assert proofed_text(text).judged > 0


def test_a_thousand_alternatives_are_all_proofed() -> None:
    names = [f"L{number}" for number in range(1000)]
    camera = "  sits on screw 3/8-16\n  takes lens PL at 60 mm forward, 60 mm up\n\n"
    lens = 'part lens "{}"\n  mass {} kg\n  cog 10 mm forward, {} mm up\n  sits on lens PL\n\n'
    lenses = "".join(lens.format(name, 1.5, 0) for name in names) + lens.format("heavy", 11, 200)
    slot = '  lens "L0"\n' + "".join(f'  or "{name}"\n' for name in (*names[1:], "heavy"))
    whole = proofed_text(PARTS.removesuffix("  sits on screw 3/8-16\n\n") + camera + lenses + RIG + slot)
    (found,) = [each for each in whole.findings if each.rule == "overload-at-height"]
    assert found.combinations is not None
    assert (found.combinations.failing, found.combinations.of) == (1, 1001)
    assert found.combinations.worst == {"lens": "heavy"}


def test_only_with_a_part_that_is_never_there_leaves_the_line_out() -> None:
    text = f'{PARTS}{RIG}  battery "B", 3 kg, only with "nothing"\n'
    kitlist = read_bytes(text.encode())
    (build,) = combinations(kitlist.rigs[0])
    assert [each.part.name for each in build.standing] == ["S", "H", "W", "C"]
    assert proofed(kitlist).judged > 0


def test_only_with_each_other_does_not_go_round() -> None:
    text = f'{PARTS}{RIG}  battery "B", 3 kg, only with "M"\n  monitor "M", 1 kg, only with "B"\n'
    assert proofed_text(text).judged > 0


def test_a_rig_of_nothing_but_none_is_proofed() -> None:
    assert proofed_text("rig A\n  lens none\n  head none\n  camera none or none\n").not_judged == 0


@pytest.mark.parametrize("text", ["rig A\n", "rig\n", "rig A like A\n", "rig A like\n", 'rig ""\n', "rig A B C\n"])
def test_a_rig_with_nothing_in_it_is_proofed(text: str) -> None:
    assert proofed_text(text).judged >= 0


def test_a_part_that_is_defined_twice_is_said_and_the_first_counts() -> None:
    text = PARTS.replace('part camera "C"\n  mass 4 kg', 'part camera "C"\n  mass 4 kg') + (
        'part camera "C"\n  mass 30 kg\n  cog 60 mm up\n  sits on screw 3/8-16\n\n' + RIG
    )
    whole = proofed_text(text)
    assert "defined-twice" in {each.rule for each in whole.findings}
    assert "overload-at-height" not in {each.rule for each in whole.findings}


@pytest.mark.parametrize(
    "number", ["0 kg", "1e400 kg", "1e-400 kg", "-4 kg", "99999999999999999999 kg", "nan kg", "inf kg"]
)
def test_numbers_beyond_all_measure_are_said_and_break_nothing(number: str) -> None:
    text = f"{PARTS}{RIG}".replace("mass 4 kg\n  cog", f"mass {number}\n  cog")
    whole = proofed_text(text)
    rules = {each.rule for each in whole.findings}
    assert rules & {"impossible-mass", "figures-contradict", "unreadable-line", "no-unit", "unknown-word"}
