"""What is told of two lists: what changed in the build, in its numbers, and in what is found."""

from __future__ import annotations

import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitproof.words.kinds import SUPPORT
from tests.comparing.sides import BOOK, CASE, RIG, WHOLE, changed, compared, thing, told

MONITOR = '  monitor "Brack 7", at 60 mm forward, 190 mm up\n'


def test_a_list_and_itself_are_the_same() -> None:
    found = compared(WHOLE, WHOLE, judged=True)
    assert found.same
    assert found.things == ()
    assert found.findings.stayed > 0


# The build


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [
        ('lens "Pell 50"\n', 'lens "Pell 85"\n', ("swapped", "lens", '"Pell 50"', '"Pell 85"')),
        ("12 head", "30 head", ("swapped", "head", '"Fenner 12 head"', '"Fenner 30 head"')),
        (MONITOR, "", ("gone", "monitor", '"Brack 7"', None)),
        (MONITOR, f'{MONITOR}  handle "grip", 0.4 kg\n', ("new", "handle", None, '"grip"')),
        (MONITOR, MONITOR * 2, ("new", "monitor", None, '"Brack 7"')),
        ('lens "Pell 50"\n', 'lens "Pell 50" or "Pell 85"\n', ("new", "choice of lens", None, '"Pell 85"')),
        ('lens "Pell 50"\n', 'lens "Pell 50" or none\n', ("new", "choice of lens", None, "none")),
        ("at 60 mm forward", "at 60 mm back", (
            "changed", 'monitor "Brack 7"', "at 60 mm forward, 190 mm up", "at 60 mm back, 190 mm up")),
        ("legs at 1400 mm", "legs at 1200 mm", (
            "changed", 'sticks "Wendle tall sticks"', "legs at 1400 mm", "legs at 1200 mm")),
        ("60 mm forward, 190 mm up", "?", (
            "changed", 'monitor "Brack 7"', "at 60 mm forward, 190 mm up", "at ?")),
        ("-20° to 20°", "-30° to 20°", ("changed", "tilts", "-20 to 20°", "-30 to 20°")),
        ("  tilts", "  left standing\n  tilts", ("changed", "left standing", "no", "yes")),
        ("  tilts", "  push 80 N\n  tilts", ("changed", "push", "not said", "80 N")),
    ],
)  # fmt: skip
def test_one_change_of_a_rig_is_told_as_one(before: str, after: str, expected: tuple[str, ...]) -> None:
    now = WHOLE.replace(RIG, RIG.replace(before, after))
    assert now != WHOLE
    found = compared(WHOLE, now)
    assert told(found, "rig A") == [expected]
    assert {each.kind for each in found.things} == {"rig"}


def test_a_part_that_a_line_describes_by_its_mass_alone_is_told_by_it() -> None:
    was = WHOLE.replace(MONITOR, "  ballast 15 kg, on ground\n")
    assert told(compared(was, was.replace("15 kg", "20 kg")), "rig A") == [
        ("swapped", "ballast", "ballast of 15 kg", "ballast of 20 kg")
    ]


def test_two_values_that_print_alike_are_told_apart() -> None:
    assert told(changed(("60 mm forward", "60.004 mm forward")), "rig A") == [
        ("changed", 'monitor "Brack 7"', "at 60 mm forward, 190 mm up", "at 60.004 mm forward, 190 mm up")
    ]


def test_a_rig_that_is_new_is_told_with_its_parts_and_one_that_is_gone_by_its_name() -> None:
    more = 'rig Z\n  camera "Quillon S2"\n  lens "Pell 85"\n\n'
    found = compared(WHOLE, WHOLE + more)
    new = thing(found, "rig Z")
    assert (new.was, [(each.thing, each.now) for each in new.differences]) == (
        None,
        [("camera", '"Quillon S2"'), ("lens", '"Pell 85"')],
    )
    assert {each.name: each.was for each in new.numbers}["draw"] is None
    back = thing(compared(WHOLE + more, WHOLE), "rig Z")
    assert (back.now, back.differences) == (None, ())


# What is no change of the build


def lines_of(rig: str) -> list[str]:
    return [line for line in rig.splitlines() if line.startswith("  ")]


@settings(max_examples=10)
@given(st.integers(0, 10_000))
def test_the_order_of_lines_and_of_entries_and_the_names_of_rigs_tell_nothing(seed: int) -> None:
    """What stands each on the one before keeps its order, as the format asks; everything else may stand anywhere."""
    shuffled = random.Random(seed)
    rigs = [RIG, RIG.replace("rig A", "rig B").replace("Pell 50", "Pell 85").replace("12 head", "30 head")]
    now = []
    for number, rig in enumerate(rigs):
        lines = lines_of(rig)
        shuffled.shuffle(lines)
        chain = iter(line for line in lines_of(rig) if line.split()[0] in SUPPORT)
        lines = [next(chain) if line.split()[0] in SUPPORT else line for line in lines]
        now.append("\n".join([f"rig New{number}", *lines, "", ""]))
    shuffled.shuffle(now)
    found = compared(f"{BOOK}{''.join(rigs)}", f"# moved\n\n{''.join(now)}{BOOK}", judged=seed < 20)
    assert found.things == ()
    assert found.renamed == {"rig A": "rig New0", "rig B": "rig New1"}
    assert [each.finding.rule for each in found.findings.stepped] == []


def test_a_rig_that_changed_its_name_and_a_part_is_still_the_same_rig() -> None:
    found = changed(("rig A", "rig Pier"), ('  lens "Pell 50"\n', '  lens "Pell 85"\n'))
    assert told(found, "rig Pier") == [("swapped", "lens", '"Pell 50"', '"Pell 85"')]
    assert thing(found, "rig Pier").was == "rig A"


def test_two_rigs_that_swapped_names_are_told_as_that() -> None:
    other = RIG.replace("rig A", "rig B").replace("12 head", "30 head").replace("Pell 50", "Pell 85")
    was = f"{BOOK}{RIG}{other}"
    now = was.replace("rig A", "rig X").replace("rig B", "rig A").replace("rig X", "rig B")
    found = compared(was, now)
    assert (found.things, found.renamed) == ((), {"rig A": "rig B", "rig B": "rig A"})


def test_a_waiver_and_a_rig_instead_follow_a_renamed_rig() -> None:
    other = RIG.replace("rig A", "rig B\n  instead of A").replace("Pell 50", "Pell 85")
    was = f'{BOOK}{RIG}{other}waive tips-on-slope in rig A\n  because "mat"\n'
    now = was.replace("rig A", "rig Pier").replace("instead of A", "instead of Pier")
    found = compared(was, now)
    assert (found.things, found.renamed) == ((), {"rig A": "rig Pier"})
    assert found.same


def test_a_case_that_changed_its_name_alone_is_no_change() -> None:
    found = changed(('case "Tube"', 'case "Long tube"'))
    assert (found.things, found.renamed) == ((), {'case "Tube"': 'case "Long tube"'})


# Cases, orders, moves, the list


@pytest.mark.parametrize(
    ("before", "after", "name", "expected"),
    [
        (', level', ", tilted down 70°", 'case "Tube"', (
            "changed", '"Fenner 12 head" packed', "level", "tilted down 70°")),
        ('holds "Fenner 12 head", level', 'holds "Fenner 30 head"', 'case "Tube"', (
            "new", "holds", None, '1 x "Fenner 30 head"')),
        ('is "Harrowby tube"', "mass 4 kg\n  limit 20 kg", 'case "Tube"', (
            "swapped", "house case", '"Harrowby tube"', "none")),
        ("issue 3", "issue 4", 'list "Pier"', ("changed", "issue", "3", "4")),
        ("wind 4 m/s", "wind 6 m/s", 'list "Pier"', ("changed", "wind", "4 m/s", "6 m/s")),
        ('2 x "Pell 50"', '3 x "Pell 50"', 'list "Pier"', (
            "changed", 'order "House", "Pell 50"', "2, 1 of them spare", "3, 1 of them spare")),
        ('"Pell 50", spare 1', '"Pell 50", spare 1\n  1 x "Pell 85"', 'list "Pier"', (
            "new", 'order "House"', None, '1 x "Pell 85"')),
        ("mass 2.1 kg", "mass 2.2 kg", 'lens "Pell 50"', ("changed", "mass", "2.1 kg", "2.2 kg")),
        ("chart 18 kg at 100 mm, 12", "chart 18 kg at 100 mm, 13", 'head "Fenner 12 head"', (
            "changed", "chart", "18 kg at 100 mm, 12 kg at 200 mm", "18 kg at 100 mm, 13 kg at 200 mm")),
        ("2 to 40 N·m, 10 steps", "2 to 40 N·m, stepless", 'head "Fenner 12 head"', (
            "changed", "counterbalance", "2 to 40 N·m, 10 steps", "2 to 40 N·m, stepless")),
    ],
)  # fmt: skip
def test_one_change_beside_the_rigs_is_told(before: str, after: str, name: str, expected: tuple[str, ...]) -> None:
    assert expected in told(changed((before, after)), name)


def test_what_the_list_says_for_all_its_rigs_is_told_once() -> None:
    found = changed(("wind 4 m/s", "wind 6 m/s"))
    assert told(found, 'list "Pier"') == [("changed", "wind", "4 m/s", "6 m/s")]
    assert [each.differences for each in found.things if each.kind == "rig" and each.differences] == []


def test_a_case_that_is_lost_is_told() -> None:
    found = compared(WHOLE, WHOLE.replace(CASE, ""))
    assert [(each.was, each.now) for each in found.things] == [('case "Tube"', None)]


def test_moves_and_waivers_come_and_go() -> None:
    more = 'move "Van"\n  by road\n  lasts 3 days\n\nwaive tips-on-slope in rig A\n  because "mat"\n'
    found = compared(WHOLE, f"{WHOLE}{more}")
    assert told(found, 'list "Pier"') == [
        ("new", "move", None, '"Van"'),
        ("new", "waiver", None, "tips-on-slope in rig A"),
    ]
    found = changed(("3 days", "4 days"), ('"mat"', '"sand"'), was=f"{WHOLE}{more}")
    assert told(found, 'list "Pier"') == [
        ("changed", 'move "Van": lasts', "72 h", "96 h"),
        ("changed", "waiver tips-on-slope in rig A: because", "mat", "sand"),
    ]


# Numbers


def test_the_numbers_of_a_change_are_those_worked_out_by_hand() -> None:
    found = thing(changed(('  lens "Pell 50"\n', '  lens "Pell 85"\n')), "rig A")
    moved = {each.name: (each.was, each.now) for each in found.numbers}
    was, now = moved["carried"]
    assert was is not None
    assert now is not None
    # slide 0.7, camera 4.2, monitor 0.9 and the lens
    assert (was.low, now.low) == (pytest.approx(7.9), pytest.approx(8.4))
    assert {"carried", "cog_up", "load_share", "slide_needed", "tip_angle_level"} <= set(moved)
    assert "draw" not in moved


def test_power_and_case_masses_move_with_the_build() -> None:
    found = changed((MONITOR, ""), ('holds "Fenner 12 head", level', 'holds "Fenner 30 head", level'))
    moved = {each.name: (each.was, each.now) for each in thing(found, "rig A").numbers}
    assert [each and each.high for each in moved["draw"]] == [62.0, 48.0]
    masses = {each.name: (each.was, each.now) for each in thing(found, 'case "Tube"').numbers}
    assert [each and each.low for each in masses["case_mass"]] == [pytest.approx(7.6), pytest.approx(9.1)]


def test_numbers_go_over_all_combinations() -> None:
    found = thing(changed(('  lens "Pell 50"\n', '  lens "Pell 50" or "Pell 85"\n')), "rig A")
    was, now = {each.name: (each.was, each.now) for each in found.numbers}["carried"]
    assert [was and (was.low, was.high), now and (now.low, now.high)] == [
        (pytest.approx(7.9), pytest.approx(7.9)),
        (pytest.approx(7.9), pytest.approx(8.4)),
    ]


def test_a_changed_parts_book_moves_the_numbers_of_rigs_that_say_the_same() -> None:
    found = changed(("mass 2.1 kg", "mass 2.2 kg"))
    assert thing(found, "rig A").differences == ()
    assert "carried" in {each.name for each in thing(found, "rig A").numbers}


# Findings


def steps(*edits: tuple[str, str], was: str = WHOLE) -> dict[str, str]:
    return {each.finding.rule: each.step for each in changed(*edits, was=was, judged=True).findings.stepped}


def test_findings_come_and_go() -> None:
    heavy = ("mass 4.2 kg", "mass 24 kg")
    assert steps(heavy)["overload-at-height"] == "came"
    back = compared(WHOLE.replace(*heavy), WHOLE, judged=True)
    assert {each.finding.rule: each.step for each in back.findings.stepped}["overload-at-height"] == "went"


def test_a_doubt_that_becomes_certain_is_graver_and_the_other_way_lighter() -> None:
    was = WHOLE.replace("mass 4.2 kg", "mass 4..24 kg")
    assert steps(("mass 4..24 kg", "mass 24 kg"), was=was)["overload-at-height"] == "graver"
    was = WHOLE.replace("mass 4.2 kg", "mass 24 kg")
    assert steps(("mass 24 kg", "mass 4..24 kg"), was=was)["overload-at-height"] == "lighter"


def test_a_finding_that_is_waived_now_is_told_as_that() -> None:
    was = WHOLE.replace("mass 4.2 kg", "mass 24 kg")
    waiver = 'waive overload-at-height in rig A\n  because "shown by hand"\n'
    both = {each.finding.rule: each.step for each in compared(was, was + waiver, judged=True).findings.stepped}
    assert both["overload-at-height"] == "waived"
    both = {each.finding.rule: each.step for each in compared(was + waiver, was, judged=True).findings.stepped}
    assert both["overload-at-height"] == "came"


def test_findings_of_a_renamed_rig_stay() -> None:
    was = WHOLE.replace("mass 4.2 kg", "mass 24 kg")
    found = compared(was, was.replace("rig A", "rig Pier"), judged=True)
    assert found.same
    assert found.findings.stayed > 1


@settings(max_examples=25)
@given(st.data())
def test_there_and_back_again_are_mirrored(data: st.DataObject) -> None:
    """What is new one way is gone the other way, and every number has changed places."""
    lines = [number for number, line in enumerate(WHOLE.splitlines()) if re.match(r"  \w", line)]
    gone = data.draw(st.sets(st.sampled_from(lines), max_size=4))
    now = "\n".join(line for number, line in enumerate(WHOLE.splitlines()) if number not in gone) + "\n"
    there, back = compared(WHOLE, now), compared(now, WHOLE)
    assert {(each.was, each.now) for each in there.things} == {(each.now, each.was) for each in back.things}
    mirrored = sorted(
        (each.now or "", each.was or "", one.name, repr(one.now), repr(one.was))
        for each in back.things
        for one in each.numbers
    )
    straight = [
        (each.was or "", each.now or "", one.name, repr(one.was), repr(one.now))
        for each in there.things
        for one in each.numbers
    ]
    assert sorted(straight) == mirrored
