"""Rigs proposed where the sheet groups its lines, as far as that is certain."""

from __future__ import annotations

from datetime import date

from kitproof.sheets.opening import opened
from kitproof.sheets.rigs import Proposed, proposed
from kitproof.sheets.taking import taken
from kitproof.words.kinds import KINDS
from tests.sheets.made import PARTS, shelf, take

WHOLE = """Qty,Item
,A CAMERA
1,Tern S2
1,Dunlin 32
1,Dunlin 50
6,Sorrel 98
1,Bramble 12
1,Bramble long bar
1,Bramble tie-down
1,Alder tall 150
1,Vetch 7
"""


def rigs(text: str) -> dict[str, Proposed]:
    return proposed(take(text).rows)


def slots(rig: Proposed) -> list[tuple[str, str]]:
    return [(slot.word, slot.value) for slot in rig.slots]


def test_a_rig_has_its_support_from_the_ground_up_and_then_the_sheet_s_order() -> None:
    rig = rigs(WHOLE)["a"]
    assert slots(rig) == [
        ("sticks", '"Alder tall 150"'),
        ("head", '"Bramble 12"'),
        ("camera", '"Tern S2"'),
        ("lens", '"Dunlin 32" or "Dunlin 50"'),
        ("battery", '"Sorrel 98", spare 5'),
        ("pan bar", '"Bramble long bar", on head'),
        ("tie-down", '"Bramble tie-down", on sticks'),
        ("monitor", '"Vetch 7"'),
    ]
    assert (rig.name, rig.rows[0], rig.rows[-1], rig.left_out) == ("A", "row 3", "row 11", ())


def test_a_slot_knows_its_rows_and_a_rig_the_days_that_all_of_its_rows_have() -> None:
    head = "Rig,Qty,Item,From,To\n"
    text = "A,1,Tern S2,2027-06-07,2027-06-25\nA,1,Dunlin 32,2027-06-07,2027-06-25\n"
    rig = rigs(head + text)["a"]
    assert rig.days == (date(2027, 6, 7), date(2027, 6, 25))
    assert [slot.rows for slot in rig.slots] == [("row 2",), ("row 3",)]
    assert rigs(head + text + "A,1,Dunlin 50,,\n")["a"].days is None


def test_what_is_not_certain_is_left_out_with_its_reason() -> None:
    rig = rigs(WHOLE + "2,Vetch 5\n1,Alder low 150\n1,Sorrel 150\n1,Sorrel two-way\n1,Yarrow sand bag 10\n")["a"]
    assert {word for word, _ in slots(rig)} == {"head", "camera", "lens", "pan bar", "tie-down", "monitor"}
    assert rig.left_out == (
        "row 10, row 13: which sticks stands in the rig, or in what order, is not said",
        "row 6, row 14: which battery is mounted is not said",
        "row 12: how many of them are on the rig is not said",
        "row 15: no charger stands in a rig",
        "row 16: where the ballast lies or hangs is not said",
    )


def test_too_little_to_build_is_not_proposed() -> None:
    assert rigs("Rig,Qty,Item\nA,1,Tern S2\nB,1,Dunlin 50\nB,1,Vetch 7\n") == {}
    assert list(rigs("Rig,Qty,Item\nA,1,Tern S2\na,1,Dunlin 50\n")) == ["a"]


def test_a_row_in_doubt_is_in_no_rig() -> None:
    rig = rigs("Rig,Qty,Item\nA,1,Tern S2\nA,1,Dunlin 50\nA,1,Bramble head\n")["a"]
    assert slots(rig) == [("camera", '"Tern S2"'), ("lens", '"Dunlin 50"')]


def test_every_kind_of_part_is_a_slot_or_left_out() -> None:
    parts = {f"Aster {kind}": kind for kind in KINDS}
    text = "Rig,Qty,Item\n" + "".join(f"A,1,{name}\n" for name in parts)
    rig = proposed(taken(opened(text.encode()), shelf(parts), {}).rows)["a"]
    told = len(rig.slots) + len(rig.left_out)
    assert told == len(KINDS) > len(PARTS)
