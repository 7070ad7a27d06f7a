"""What is said of batteries in the air: beside equipment or not, and the day whose limits are looked at."""

from __future__ import annotations

import math
from datetime import date

import pytest

from kitproof.facts.cases import moves_of
from kitproof.facts.packing import PackedSubject, packed_things
from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Setting
from kitproof.facts.values import Amount, Several, Truth, Verdict, Words
from tests.model.texts import DAY
from tests.proofing.lists import proofed_text, read_bytes

BOOK = (
    'part battery "B"\n  energy 98 Wh\n  chemistry lithium-ion\n'
    'part monitor "M"\n  mass 1 kg\n'
    'part camera "C"\n  mass 1 kg\n'
    'part recorder "R"\n  mass 1 kg\n'
    'part light "L"\n  mass 1 kg\n'
    'part accessory "Link"\n  mass 1 kg\n  draws 7 W\n'
    'part accessory "Blotted"\n  mass 1 kg\n  draws seven\n'
    'part accessory "Bag"\n  mass 1 kg\n'
)


def setting(text: str) -> Setting:
    return Setting(read_bytes((BOOK + text).encode()), DAY, {}, FACTS)


def packed(text: str) -> PackedSubject:
    """The first thing of a case."""
    return packed_things(setting(f'case "k"\n{text}'))[0]


@pytest.mark.parametrize(
    ("beside", "said"),
    [
        *((f'holds "{name}"', Verdict(Truth.TRUE)) for name in ("C", "M", "R", "L", "Link")),
        ('holds "Bag"', Verdict(Truth.FALSE)),
        ("", Verdict(Truth.FALSE)),
        ('holds case "inner"', Verdict(Truth.FALSE)),
        ('holds "Bag', Verdict(Truth.MISSING, ('case "k": line 22, which could not be read',))),
        ('holds "Blotted"', Verdict(Truth.MISSING, ('accessory "Blotted": draws (line 17 could not be read)',))),
    ],
)
def test_a_battery_is_packed_with_equipment_that_batteries_run(beside: str, said: Verdict) -> None:
    """A camera, monitor, recorder or light is run by one whether or not a book says what it draws."""
    assert packed(f'  holds "B", spare\n  {beside}\ncase "inner"\n  mass 1 kg\n').value("with_equipment") == said


@pytest.mark.parametrize(
    ("state", "said"),
    [
        (", spare", Verdict(Truth.TRUE)),
        (', fitted in "M"', Verdict(Truth.FALSE)),
        ("", Verdict(Truth.MISSING, ('case "k", battery "B": spare, or fitted in what',))),
    ],
)
def test_a_battery_travels_as_a_spare_or_fitted_and_is_asked_about_where_neither_is_said(
    state: str, said: Verdict
) -> None:
    assert packed(f'  holds "B"{state}\n').value("spare") == said


@pytest.mark.parametrize(
    ("state", "said"),
    [
        (", charge 30 %", Amount(0.3, 0.3)),
        (", charge 20 to 30 %", Amount(0.2, 0.3)),
        (", charge ?", Amount(0, math.inf, ('case "k", battery "B": charge',))),
        ("", Amount(0, math.inf, ('case "k", battery "B": charge',))),
    ],
)
def test_how_far_a_battery_is_charged(state: str, said: Amount) -> None:
    assert packed(f'  holds "B"{state}\n').amount("charge") == said


@pytest.mark.parametrize(
    ("text", "things", "missing"),
    [
        ('case "k"\n  goes "Fly"\n  holds "M"\n  holds case "i"\ncase "i"\n  holds "B"\n', ["k M", "i B"], ()),
        ('case "k"\n  goes "Fly"\n  holds case "i"\ncase "i"\n  goes "Fly"\n  holds "B"\n', ["i B"], ()),
        ('case "k"\n  goes "Fly"\n  holds "M"\ncase "i"\n  holds "B"\n', ["k M"], ()),
        ('case "k"\n  holds "B"\n  goes "Flight"\n', [], ('move "Flight"',)),
        ('case "k"\n  holds "B"\n  goes Fly\n', [], ('case "k": a move of line 24',)),
        ('case "k"\n  goes "Fly", "Flight"\n  holds "B"\n', ["k B"], ()),
        (
            'case "k"\n  goes "Fly"\n  holds "B"\n  holds "M\n',
            ["k B"],
            ('case "k": line 25, which could not be read',),
        ),
    ],
)
def test_everything_that_goes_on_a_move_is_met_once(text: str, things: list[str], missing: tuple[str, ...]) -> None:
    """A case goes with the one that it lies in; where a move of a case is not known it may go on any."""
    (move,) = moves_of(setting(f'move "Fly"\n  by air cabin\n{text}'))
    found = move.value("packed")
    assert isinstance(found, Several)
    assert [f"{each.case.name} {each.part.name}" for each in found if isinstance(each, PackedSubject)] == things
    assert found.missing == missing


def test_terminals_are_covered_where_that_is_said() -> None:
    assert packed('  holds "B", spare, terminals covered\n').value("terminals_covered") == Verdict(Truth.TRUE)
    assert packed('  holds "B", spare\n').value("terminals_covered") == Verdict(Truth.FALSE)


def test_limits_are_those_of_the_day_of_the_move_else_of_the_proof() -> None:
    found = moves_of(setting('move "a"\n  by air hold\n  on 2027-07-05\nmove "b"\n  by air hold\n'))
    assert [each.day for each in found] == [date(2027, 7, 5), None]
    assert [each.value("limits_day") for each in found] == [
        Words("2027-07-05"),
        Words("2027-03-01, the day of this proof, since the move says none"),
    ]


CARGO = (
    f'{BOOK}\nmove "Cargo"\n  by air cargo\n  lasts 2 days\n  on {{}}\n\n'
    'case "k"\n  goes "Cargo"\n  holds "M"\n  holds "B", spare, terminals covered, charge 80 %\n'
)


@pytest.mark.parametrize(("on", "found"), [("2025-12-31", False), ("2026-01-01", True)])
def test_the_charge_beside_equipment_is_judged_by_the_day_of_the_move(on: str, found: bool) -> None:
    """Packing instruction 966, from 1 January 2026: as quoted by shippers. The day of the proof is in 2027."""
    whole = proofed_text(CARGO.format(on))
    said = [each for each in whole.findings if each.rule == "packed-charge-too-high"]
    assert bool(said) is found
    assert all(f"by the limits of {on}" in each.caution for each in said)
    assert "charge-too-high" not in {each.rule for each in whole.findings}
