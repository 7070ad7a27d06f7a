"""What is said of batteries in the air: beside equipment or not, and the day whose limits are looked at."""

from __future__ import annotations

from datetime import date

import pytest

from kitproof.facts.cases import moves_of
from kitproof.facts.packing import packed_things
from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Setting
from kitproof.facts.values import Truth, Verdict, Words
from tests.model.texts import DAY
from tests.proofing.lists import proofed_text, read_bytes

BOOK = (
    'part battery "B"\n  energy 98 Wh\n  chemistry lithium-ion\n'
    'part monitor "M"\n  mass 1 kg\n'
    'part accessory "Link"\n  mass 1 kg\n  draws 7 W\n'
    'part accessory "Bag"\n  mass 1 kg\n'
)


def setting(text: str) -> Setting:
    return Setting(read_bytes((BOOK + text).encode()), DAY, {}, FACTS)


@pytest.mark.parametrize(
    ("beside", "truth"),
    [
        ('holds "M"', Truth.TRUE),
        ('holds "Link"', Truth.TRUE),
        ('holds "Bag"', Truth.FALSE),
        ("", Truth.FALSE),
        ('holds "Bag', Truth.MISSING),
    ],
)
def test_a_battery_is_packed_with_equipment_that_batteries_run(beside: str, truth: Truth) -> None:
    (battery, *_) = packed_things(setting(f'case "k"\n  holds "B", spare\n  {beside}\n'))
    said = battery.value("with_equipment")
    assert isinstance(said, Verdict)
    assert said.truth is truth


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
