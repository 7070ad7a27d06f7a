"""Slips, masses as written and waivers, as subjects of rules."""

from __future__ import annotations

import math
import re
from datetime import timedelta

import pytest

from kitproof.facts.slips import SLIPS, SlipSubject, WaiverSubject, figures
from kitproof.facts.values import Amount, Truth, Verdict, Words
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
