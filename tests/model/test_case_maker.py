"""Cases, moves, orders and waivers made from their entries."""

from __future__ import annotations

from datetime import date

import pytest

from tests.model.texts import made, slips

TUBE = 'part case "tube"\n  mass 6 kg\n  inside 900 x 300 x 300 mm\n  limit 30 kg\n'


class TestCase:
    def test_what_it_is_lends_what_it_does_not_say(self) -> None:
        case = made(TUBE + 'case "k"\n  is "tube"\n  limit 20 kg\n').cases[0]
        assert [side.low for side in case.inside] == [0.9, 0.3, 0.3]
        assert case.mass is not None
        assert case.mass.low == 6
        assert case.limit is not None
        assert case.limit.low == 20
        assert case.outside == ()

    @pytest.mark.parametrize("line", ["inside 900 x 300", "mass heavy", "limit 20"])
    def test_what_cannot_be_read_is_not_lent(self, line: str) -> None:
        case = made(TUBE + f'case "k"\n  is "tube"\n  {line}\n').cases[0]
        value = getattr(case, line.split()[0])
        assert value == () or not value.known

    def test_the_states_of_what_it_holds(self) -> None:
        text = (
            'case "k"\n  holds "small head", tilted down 70°, tilt locked, counterbalance 8, pan bar along legs\n'
            '  holds 3 x "big battery", charge 30 %, fitted in "big camera"\n'
            '  holds "small head", level, counterbalance off\n'
        )
        head, battery, level = made(text).cases[0].holds
        assert head.tilted is not None
        assert head.tilted.high == pytest.approx(-1.2217304764)
        assert (head.step, head.states >= {"tilt locked", "pan bar along legs"}) == (8, True)
        assert (battery.count, battery.fitted_in) == (3, "big camera")
        assert battery.charge is not None
        assert battery.charge.low == pytest.approx(0.3)
        assert level.tilted is not None
        assert (level.tilted.low, level.tilted.high, level.step) == (0, 0, 0)

    def test_lines_that_cannot_be_read_are_named(self) -> None:
        case = made('move "m"\ncase "k"\n  holds "small head\n  goes "m", "n"\n  goes the other way\n').cases[0]
        assert len(case.unread) == 1
        assert case.goes == ("m",)
        assert len(case.lost_moves) == 2


class TestMove:
    def test_its_fields(self) -> None:
        move = made('move "m"\n  by air hold\n  lasts 3 days\n  on 2027-03-08\n  people 2\n  carrier agrees\n').moves[
            "m"
        ]
        assert (move.by, move.on, move.people, move.carrier_agrees) == ("air hold", date(2027, 3, 8), 2, True)
        assert move.lasts is not None
        assert move.lasts.low == 3 * 86400
        assert not move.stored


class TestOrder:
    def test_its_lines(self) -> None:
        text = (
            'rig A\norder "From Harrowby"\n  dates 2027-03-08\n  2 x "small head", for rig A, spare 1\n  "long lens"\n'
        )
        order = made(text).orders[0]
        assert [(line.part.name, line.count, line.spare, line.for_rig) for line in order.lines] == [
            ("small head", 2, 1, "A"),
            ("long lens", 1, 0, ""),
        ]
        assert {line.supplier for line in order.lines} == {"From Harrowby"}
        assert order.dates is not None

    def test_lines_that_cannot_be_read_are_named(self) -> None:
        order = made('order\n  2 x small head\n  1 x "long lens"\n').orders[0]
        assert len(order.lines) == 1
        assert len(order.unread) == 1


class TestWaiver:
    def test_its_fields(self) -> None:
        text = 'rig B\nwaive lens-unsupported in rig B\n  until 2027-03-12\n  because "late"\n  by "first assistant"\n'
        waiver = made(text).waivers[0]
        assert (waiver.rule, waiver.subject) == ("lens-unsupported", "rig B")
        assert (waiver.until, waiver.because, waiver.by) == (date(2027, 3, 12), "late", "first assistant")

    def test_a_day_that_cannot_be_read_is_there_and_not_known(self) -> None:
        kitlist = made("rig B\nwaive lens-unsupported in rig B\n  until next week\n")
        assert kitlist.waivers[0].until is None
        assert "until" in kitlist.waivers[0].places
        assert slips(kitlist)
