"""Slips, masses as written and waivers, as subjects of rules."""

from __future__ import annotations

import math
import re
from datetime import timedelta

import pytest

from kitproof.facts.part import PartSubject
from kitproof.facts.slips import SLIPS, SlipSubject, WaiverSubject, figures
from kitproof.facts.values import Amount, Truth, Verdict, Words
from kitproof.model.kitlist import PlacedSlip
from kitproof.reading.document import Slip
from tests.house.repository import RULES, SOURCE
from tests.model.texts import DAY, RIG, made, setting


def test_every_kind_of_slip_that_is_made_is_known_and_has_a_rule() -> None:
    made_of = re.compile(r'"((?:used-file|[a-z]+)(?:-[a-z0-9]+)+)"')
    source = "".join(path.read_text("utf-8") for room in ("reading", "model") for path in (SOURCE / room).glob("*.py"))
    named = {word for word in made_of.findall(source) if (RULES / "reading" / f"{word}.rule").exists()}
    assert named <= set(SLIPS)
    assert [kind for kind in SLIPS if not (RULES / "reading" / f"{kind}.rule").exists()] == []


def test_a_slip_says_what_was_typed_and_the_nearest_in_words() -> None:
    kitlist = made(RIG.replace('"long lens"', '"lng lens"'))
    found = SlipSubject(setting(kitlist), kitlist.slips[0])
    assert found.value("kind") == Words("unknown-part")
    assert found.value("said") == Words("lng lens")
    assert found.value("nearest") == Words('"long lens"')
    assert found.where().line == kitlist.rigs[0].lines[-1].where.line


def test_what_was_lined_up_in_columns_is_said_as_a_sentence_has_it() -> None:
    kitlist = made('part lens "twice"\n  mass      4.1 kg\n  mass      4.3 kg\n', parts="")
    assert [SlipSubject(setting(kitlist), each).value("said") for each in kitlist.slips] == [Words("mass 4.3 kg")]


def test_every_mass_as_written_is_a_figure_once_for_each_place() -> None:
    text = RIG + '  accessory "odd", 0.4 kg\ncase "k"\n  holds "other", 3 kg\n  holds "odd"\nrig B like A\n'
    kitlist = made(text)
    found = [(each.part.name, each.amount("mass").low) for each in figures(setting(kitlist))]
    assert sorted(name for name, _ in found) == sorted(
        [part.name for part in kitlist.parts.values() if part.mass] + ["odd", "other"]
    )
    assert len({each.where() for each in figures(setting(kitlist))}) == len(found)


def test_a_figure_knows_what_it_would_be_in_pounds_and_what_is_possible() -> None:
    kitlist = made('part camera "c"\n  mass 40 kg\n', parts="")
    found = figures(setting(kitlist))[0]
    assert found.amount("in_pounds").low == pytest.approx(40 * 0.45359237)
    least, usual, most = (found.amount(name).low for name in ("least", "usual", "most"))
    assert 0 < least < usual < most


def test_a_slip_has_no_part_or_rig_of_its_own_and_is_gathered_with_those_of_the_same_words() -> None:
    kitlist = made(RIG.replace('"long lens"', '"lng lens"').replace('"small head"', '"small hed"'))
    slips = [SlipSubject(setting(kitlist), each) for each in kitlist.slips]
    assert [(each.label, each.home, each.within, each.gathers_by) for each in slips] == [
        ("reading", "list", (), "small hed"),
        ("reading", "list", (), "lng lens"),
    ]


def test_a_slip_says_what_was_wanted_where_and_how_it_is_mended() -> None:
    where = made("").where
    slip = Slip("unknown-part", 0, 0, 4, "lins", "a lens", ("long lens", "short lens"), '"long lens"', "lens")
    found = SlipSubject(setting(made("")), PlacedSlip(slip=slip, where=where))
    values = [found.value(name) for name in ("wanted", "nearest", "repair", "field")]
    assert values == [Words("a lens"), Words('"long lens" or "short lens"'), Words('"long lens"'), Words("lens")]
    bare = SlipSubject(setting(made("")), PlacedSlip(slip=Slip("wrong-unit", 0, 0, 4, "lins"), where=where))
    assert [bare.value(name) for name in ("wanted", "nearest", "repair", "field")] == [Words("")] * 4


def test_masses_in_the_list_and_its_books_are_figures_where_they_are_known_and_written() -> None:
    """A part that is defined twice is written twice; a `?`, a mass not written and an empty slot are none."""
    book = 'part lens "in a book"\n  mass 2 kg\npart lens "not told"\n  mass ?\npart lens "bare"\n'
    text = (
        'part lens "twice"\n  mass 1 kg\npart lens "twice"\n  mass 3 kg\n'
        'rig A\n  lens "inline", 4 kg\n  lens "bare" or none\n  had "x"\n'
        'case "k"\n  holds "packed", 5 kg\ncase "j"\n  holds case "k"\n'
    )
    found = figures(setting(made(text, parts='use "book.kitlist"\n', book=book)))
    told = [(each.part.name, each.amount("mass").low, each.where().path, each.where().line) for each in found]
    assert sorted(told) == [
        ("in a book", 2, "book.kitlist", 2),
        ("inline", 4, "list.kitlist", 7),
        ("packed", 5, "list.kitlist", 11),
        ("twice", 1, "list.kitlist", 3),
        ("twice", 3, "list.kitlist", 5),
    ]


def test_a_mass_that_a_line_gives_for_a_part_of_a_book_is_a_figure_of_that_line() -> None:
    """Else 300 kg typed there would be counted in every sum, and nobody asked whether a lens can have it."""
    kitlist = made(RIG.replace('"long lens"', '"long lens", 300 kg'))
    line = kitlist.rigs[0].lines[-1].where.line
    found = {each.where().line: each for each in figures(setting(kitlist)) if each.label == 'lens "long lens"'}
    assert len(found) == 2, "the one of the book is checked too"
    assert found[line].value("mass") == Amount(300.0, 300.0)


def test_a_figure_is_of_its_part_and_stands_where_the_mass_is_written() -> None:
    kitlist = made('part camera "c"\n  have 1\n  mass 2..3 kg\n', parts="")
    (found,) = figures(setting(kitlist))
    assert (found.label, found.within, found.where().line) == ('camera "c"', ('part "c"',), 3)
    assert found.value("kind") == Words("camera")
    part = found.value("part")
    assert isinstance(part, PartSubject)
    assert part.part.name == "c"
    assert found.amount("mass") == Amount(2, 3)
    pounds = found.amount("in_pounds")
    assert (pounds.low, pounds.high) == (pytest.approx(2 * 0.45359237), pytest.approx(3 * 0.45359237))
    assert pounds.missing == ()


@pytest.mark.parametrize(("days", "over"), [(-1, 1), (0, 0), (5, -5)])
def test_a_waiver_is_over_the_day_after_its_last(days: int, over: int) -> None:
    until = DAY + timedelta(days=days)
    kitlist = made(f"rig B\nwaive lens-unsupported in rig B\n  until {until}\n")
    found = WaiverSubject(setting(kitlist), kitlist.waivers[0], True, True, False, "", True)
    assert found.amount("days_over") == Amount(over, over)
    assert found.value("until") == Words(until.isoformat())
    assert found.value("until_said") == Verdict(Truth.TRUE)


def test_a_waiver_without_a_last_day_is_good_and_one_that_cannot_be_read_is_not_known() -> None:
    kitlist = made("rig B\nwaive lens-unsupported in rig B\n  until soon\nwaive rods-sag in rig B\n")
    lost, open_end = (WaiverSubject(setting(kitlist), each, True, True, False, "", True) for each in kitlist.waivers)
    assert lost.amount("days_over").missing == ("waiver of lens-unsupported: until",)
    assert lost.value("until") == Words(None, ("waiver of lens-unsupported: until",))
    assert open_end.value("until") == Words(None)
    assert open_end.amount("days_over") == Amount(-math.inf, -math.inf)
    assert open_end.value("until_said") == Verdict(Truth.FALSE)
    assert (lost.amount("days_over").low, lost.amount("days_over").high) == (-math.inf, math.inf)


def test_a_waiver_says_what_it_names_and_what_came_of_it() -> None:
    kitlist = made("rig B\nwaive lens-unsupported in rig B\n  because new feet\n  until 2027-06-01\n")
    waiver = kitlist.waivers[0]
    names = ("rule", "subject", "nearest")
    marks = ("rule_known", "subject_known", "used", "allowed")
    for mine in range(4):
        said = [number == mine for number in range(4)]
        found = WaiverSubject(setting(kitlist), waiver, said[0], said[1], said[2], '"rig A"', said[3])
        assert [found.value(name) for name in names] == [Words("lens-unsupported"), Words("rig B"), Words('"rig A"')]
        assert [found.value(name) for name in marks] == [Verdict(Truth.TRUE if each else Truth.FALSE) for each in said]
    assert found.within == ("waiver of lens-unsupported",)
    assert found.where().line == waiver.where.line
    above = waiver.where.line
    assert [found.where((name,)).line - above for name in ("days_over", "until", "because", "rule")] == [2, 2, 1, 0]
