"""What is ordered from whom: by supplier, with what all lists promise next to what there is."""

from __future__ import annotations

import json

from kitproof.facts.promises import beside
from kitproof.proofing.ordered import ordered
from kitproof.proofing.proof import setting_of
from kitproof.showing.ordered_text import ordered_json, ordered_lines
from tests.proofing.lists import DAY, book, read_bytes

STOCK = 'part head "Ash"\n  have 3\npart lens "Elm"\n'
MINE = (
    f'{STOCK}list "Mine"\n  dates 2027-03-08 to 2027-03-12\n'
    'order "Heads, from Harrowby"\n  2 x "Ash", spare 1\n'
    'order\n  1 x "Elm"\n'
    'order "From Harrowby"\n  dates 2027-03-09 to 2027-03-09\n  1 x "Ash"\n'
)
THEIRS = f'{STOCK}list "Theirs"\n  dates 2027-03-12 to 2027-03-19\norder "From Harrowby"\n  2 x "Ash"\n'
UNDATED = f'{STOCK}list "Some day"\norder "From Harrowby"\n  1 x "Ash"\n'


def found(*texts: str) -> tuple[list[str], list[dict[str, object]]]:
    """The lines and the JSON of the first of some lists that are proofed together."""
    lists = [read_bytes(text.encode(), f"{number}.kitlist") for number, text in enumerate(texts)]
    suppliers = ordered(setting_of(lists[0], book(), DAY, beside(lists)[0]))
    lines = ["".join(piece.text for piece in line) for line in ordered_lines(suppliers)]
    return lines, ordered_json(suppliers)


def test_orders_from_one_supplier_stand_together_with_their_days() -> None:
    lines, _ = found(MINE, THEIRS)
    assert lines == [
        "",
        "ordered from Harrowby",
        '  2 x "Ash", 1 of them spare, from 2027-03-08 to 2027-03-12; promised 4 of 3',
        '  1 x "Ash", on 2027-03-09; promised 4 of 3',
        "",
        "ordered, and not said from whom",
        '  1 x "Elm", from 2027-03-08 to 2027-03-12',
    ]


def test_what_may_be_promised_is_said_as_a_range() -> None:
    lines, data = found(UNDATED, THEIRS)
    assert lines[-1] == '  1 x "Ash", on days that are not known; promised 1 to 3 of 3'
    assert data == [
        {
            "list": "0.kitlist",
            "from": "Harrowby",
            "lines": [
                {
                    "part": "Ash",
                    "kind": "head",
                    "ordered": 1,
                    "spare": 0,
                    "first": None,
                    "last": None,
                    "have": 3,
                    "promised": {"low": 1.0, "high": 3.0, "missing": ['list "Some day": dates']},
                }
            ],
        }
    ]


def test_a_list_whose_line_cannot_be_read_may_promise_any_number() -> None:
    lines, data = found(MINE, THEIRS + "  2 x Ash\n")
    assert "promised 4 or more of 3" in " ".join(line.strip() for line in lines)
    assert '"high": null' in json.dumps(data)
