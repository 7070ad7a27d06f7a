"""Readings put into a parts book: what is new, what agrees, what contradicts; and all else stays as it was."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.reading.entries import read
from kitproof.sheets.booking import Booked, booked, kinds_of, opening_of
from kitproof.sheets.inventory import Inventory, Stocked
from kitproof.sheets.readings import Reading

BOOK = """\
# our book

part head "Tolland 30"  # the old one
  mass      6.4 kg ± 2 %  # weighed
  rated     30 kg
  tilt      ?
  sits on   bowl 100 mm
  note      "blue"
  # all of it

part sticks "Stile"
  weighed   front 2.1 kg at 60 mm forward, rear 1.9 kg at 90 mm back
"""


def reading(word: str, value: str) -> Reading:
    return Reading(word, value, "column C", "row 2")


def of_parts(*parts: tuple[str, str, list[tuple[str, str]]]) -> Inventory:
    return Inventory(
        tuple(
            Stocked(name, kind, "column B", ("row 2",), tuple(reading(*each) for each in readings))
            for kind, name, readings in parts
        ),
        (),
    )


def head(*readings: tuple[str, str]) -> Inventory:
    return of_parts(("head", "Tolland 30", list(readings)))


def put(found: Inventory, text: str = BOOK, *, overwrite: bool = False) -> Booked:
    return booked(found, text, opening_of("stock.csv"), overwrite=overwrite)


def states(done: Booked) -> list[tuple[str, str, str]]:
    return [(each.reading.word, each.state, each.was) for _, entered in done.parts for each in entered]


def test_a_book_that_is_not_there_yet_is_made() -> None:
    done = put(head(("have", "2"), ("mass", "6.4 kg")), "")
    assert done.text == (
        '# Taken from the inventory "stock.csv" by kitproof from-sheet --parts.\n\n'
        'part head "Tolland 30"\n  have      2\n  mass      6.4 kg\n'
    )
    assert done.new == {"Tolland 30"}


def test_what_the_book_does_not_say_is_added_and_all_else_stays() -> None:
    done = put(head(("have", "2"), ("note", '"dented"')))
    assert states(done) == [("have", "added", ""), ("note", "added", "")]
    assert done.text == BOOK.replace(
        '  note      "blue"\n', '  note      "blue"\n  have      2\n  note      "dented"\n'
    )


@pytest.mark.parametrize(
    ("word", "value"),
    [
        ("mass", "6.4 kg"),
        ("mass", "14.1 lb"),
        ("mass", "6.5 kg"),  # within the 2 % that the book gives
        ("rated", "30000 g"),
        ("sits on", "bowl 10 cm"),
        ("note", '"blue"'),
    ],
)
def test_what_the_book_says_already_changes_nothing(word: str, value: str) -> None:
    done = put(head((word, value)), overwrite=True)
    assert [state for _, state, _ in states(done)] == ["agrees"]
    assert done.text == BOOK


@pytest.mark.parametrize(
    ("word", "value", "was"),
    [
        ("mass", "7 kg", "6.4 kg ± 2 %"),
        ("rated", "30 kg at 150 mm", "30 kg"),
        ("sits on", "bowl 75 mm", "bowl 100 mm"),
    ],
)
def test_what_contradicts_the_book_is_taken_only_when_told(word: str, value: str, was: str) -> None:
    kept = put(head((word, value)))
    assert states(kept) == [(word, "kept", was)]
    assert kept.text == BOOK
    over = put(head((word, value)), overwrite=True)
    assert states(over) == [(word, "changed", was)]
    assert over.text == BOOK.replace(was, value)


def test_what_the_book_says_is_not_known_is_filled_in_and_said() -> None:
    done = put(head(("tilt", "-75° to 90°")))
    assert states(done) == [("tilt", "changed", "?")]
    assert done.text == BOOK.replace("tilt      ?", "tilt      -75° to 90°")


def test_two_scales_are_a_mass_already() -> None:
    done = put(of_parts(("sticks", "Stile", [("mass", "3 kg")])), overwrite=True)
    assert [state for _, state, _ in states(done)] == ["kept"]
    assert done.text == BOOK


def test_another_family_of_interface_is_one_more() -> None:
    done = put(head(("sits on", "flat")))
    assert states(done) == [("sits on", "added", "")]


@pytest.mark.parametrize("end", ["\r\n", "\n"])
@pytest.mark.parametrize("tail", ["", "{end}", "{end}# the end"])
def test_line_ends_and_the_end_of_the_book_stay(end: str, tail: str) -> None:
    text = BOOK.rstrip("\n").replace("\n", end) + tail.format(end=end)
    done = put(of_parts(("monitor", "Tarn 7", [("have", "1")]), ("head", "Tolland 30", [("have", "2")])), text)
    assert done.text.startswith(text.partition('  note      "blue"')[0])
    assert done.text.endswith(f'{end}{end}part monitor "Tarn 7"{end}  have      1{end}')
    assert done.text.replace("\r\n", "").count("\n") == (0 if end == "\r\n" else done.text.count("\n"))
    assert "# the end" in done.text or "the end" not in tail


VALUES = {
    "have": st.integers(0, 99).map(str),
    "mass": st.floats(0.5, 30).map(lambda each: f"{each:.2f} kg"),
    "rated": st.floats(1, 60).map(lambda each: f"{each:.1f} kg at 150 mm"),
    "sits on": st.sampled_from(["bowl 75 mm", "bowl 100 mm", "flat"]),
    "note": st.sampled_from(['"a"', '"b"']),
}
READINGS = st.fixed_dictionaries({}, optional=VALUES).map(lambda each: list(each.items()))
FOUND = st.lists(
    st.tuples(st.just("head"), st.sampled_from(["Tolland 30", "Mire 9", "Tolland 8"]), READINGS),
    max_size=3,
    unique_by=lambda each: each[1],
).map(lambda parts: of_parts(*parts))


@given(FOUND, FOUND, st.booleans())
def test_a_book_loses_nothing_is_proofable_and_taking_stock_again_changes_nothing(
    first: Inventory, second: Inventory, overwrite: bool
) -> None:
    made = put(first)
    done = put(second, made.text, overwrite=overwrite)
    assert read(done.text, "").slips == ()
    assert not any(entry.slips for entry in read(done.text, "").entries)
    assert put(second, done.text, overwrite=overwrite).text == done.text
    assert kinds_of(done.text).keys() >= kinds_of(made.text).keys()
    if not overwrite:
        kept = iter(done.text.splitlines())
        assert all(line in kept for line in BOOK.splitlines() if line != "  tilt      ?")
    total = sum(len(part.readings) for part in second.parts)
    assert done.number("added", "changed", "agrees", "kept") == total
