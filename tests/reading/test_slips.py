"""Each kind of slip at its exact place, with what mends it. The conformance case `slips` holds many more."""

from __future__ import annotations

import pytest

from kitproof.reading.document import Entry, Slip
from kitproof.reading.entries import read


def entry_of(text: str) -> Entry:
    return read(text, "a").entries[0]


def one(first: str, line: str) -> Slip:
    (slip,) = entry_of(f"{first}\n{line}\n").slips
    assert slip.said == line[slip.start : slip.end]
    return slip


HEAD = 'part head "x"'


@pytest.mark.parametrize(
    ("line", "kind", "said", "repair"),
    [
        ("  mass 6,4 kg", "number-misread", "6,4", "6.4"),
        ("  mass 0,125 kg", "number-misread", "0,125", "0.125"),
        ("  mass 1,050 g", "number-misread", "1,050", "1050"),
        ("  mass 1,050.5 g", "number-misread", "1,050.5", "1050.5"),
        ("  mass 1,2,3 g", "number-misread", "1,2,3", None),
        ("  height 1 050 mm", "number-misread", "1 050", "1050"),
        ("  mass 5 1/2 lb", "number-misread", "5 1/2 lb", "5.5 lb"),
        ("  mass 5-1/2 lb", "number-misread", "5-1/2 lb", "5.5 lb"),
        ("  mass 1/3 lb", "number-misread", "1/3 lb", None),
        ("  mass 5½ lb", "number-misread", "5½ lb", "5.5 lb"),
        ("  mass 6 lb 3 oz", "number-misread", "6 lb 3 oz", "6.1875 lb"),
        ("  height 5 ft 7 in", "number-misread", "5 ft 7 in", "67 in"),
        ('  height 12"', "number-misread", '12"', "12 in"),
        ("  height 12″", "number-misread", "12″", "12 in"),
        ("  height 6'", "number-misread", "6'", "6 ft"),
        ('  sits on screw 3/8"-16', "number-misread", '8"', "8"),
        ("  mass 420 mm", "wrong-unit", "420 mm", None),
        ("  tilt axis 4 kg below plate", "wrong-unit", "4 kg", None),
        ("  rated 18 kg at 4 kg", "wrong-unit", "4 kg", None),
        ("  sits on bowl 100 kg", "wrong-unit", "100 kg", None),
        ("  mass 6.4", "no-unit", "6.4", None),
        ("  mass 6.4 kg ± 2", "no-unit", "2", None),
        ("  mass 8..6 kg", "figures-contradict", "8..6 kg", None),
        ("  mass ± 3 kg", "figures-contradict", "± 3 kg", None),
        ("  mass -6 kg", "figures-contradict", "-6 kg", None),
        ("  cog 3 mm up, 2 mm down", "figures-contradict", "2 mm down", None),
        ("  counterbalance 4 to 38 N·m, 0 steps", "figures-contradict", "0", None),
        ("  height 20 mm high", "unreadable-line", "high", None),
        ("  height", "unreadable-line", "height", None),
        ('  pan bar "Cobble', "unreadable-line", '"Cobble', None),
        ("  pan bar 'Cobble", "unreadable-line", "'Cobble", None),
        ("  pan bar Cobble bar", "unreadable-line", "Cobble bar", '"Cobble bar"'),
        ("  mass \x07 6 kg", "unreadable-line", "\x07", None),
        ("  mass 6666666666666666666666666 kg", "unreadable-line", "6666666666666666666666666", None),
        ("  have 1.5", "unreadable-line", "1.5", None),
        ("  mass 6 kgg", "unknown-word", "kgg", None),
        ("  hieght 6 mm", "unknown-word", "hieght", None),
        ("  quick release manual lok", "unknown-word", "manual lok", None),
        ("  @ 6 kg", "unreadable-line", "@ 6 kg", None),
        ("  sits on 100 mm bowl", "unreadable-line", "100 mm bowl", None),
        ("  takes lens at 20 mm up", "unreadable-line", "lens", None),
        ("  quick release self-locking, manual lock", "figures-contradict", "manual lock", None),
        ('  goes with "a" "b"', "unreadable-line", '"b"', None),
        ("  pan bar none", "unreadable-line", "none", None),
    ],
)
def test_one_line_one_slip(line: str, kind: str, said: str, repair: str | None) -> None:
    slip = one(HEAD, line)
    assert (slip.kind, slip.said, slip.repair) == (kind, said, repair)


@pytest.mark.parametrize(
    "line", ["  mass 1,050 g", "  mass 5½ lb", '  height 12"', '  sits on screw 3/8"-16', "  pan bar Cobble"]
)
def test_a_repaired_line_reads(line: str) -> None:
    slip = one(HEAD, line)
    assert slip.repair is not None
    mended = line[: slip.start] + slip.repair + line[slip.end :]
    assert entry_of(f"{HEAD}\n{mended}\n").slips == ()


def test_several_on_a_line_are_each_said() -> None:
    entry = entry_of(f'{HEAD}\n  size 12" x 8" x 6"\n')
    assert [(slip.start, slip.end, slip.repair) for slip in entry.slips] == [
        (7, 10, "12 in"),
        (13, 15, "8 in"),
        (18, 20, "6 in"),
    ]


def test_the_field_is_named_and_then_not_known() -> None:
    entry = entry_of(f"{HEAD}\n  mass 420 mm\n")
    assert entry.slips[0].field == "mass"
    assert entry.slips[0].wanted == "a mass, such as 6.4 kg"
    assert [(field.word, field.value) for field in entry.fields] == [("mass", None)]


def test_an_unknown_word_has_the_nearest_ones_and_its_row_is_unread() -> None:
    entry = entry_of(f"{HEAD}\n  hieght 20 mm\n  mass 3 kg\n")
    assert entry.slips[0].nearest == ("height",)
    assert entry.unread == (1,)
    assert [field.word for field in entry.fields] == ["mass"]


def test_a_word_of_another_kind_is_told_whose_it_is() -> None:
    slip = one(HEAD, "  lens moment 4 N·m")
    assert (slip.kind, slip.said) == ("unknown-word", "lens moment")
    assert "a camera" in slip.wanted


def test_the_first_of_two_is_kept() -> None:
    entry = entry_of(f"{HEAD}\n  mass 3 kg\n  mass 4 kg\n")
    assert [field.row for field in entry.fields] == [1]
    assert [(slip.kind, slip.row, slip.start, slip.end) for slip in entry.slips] == [("figures-contradict", 2, 2, 11)]


def test_one_that_could_not_be_read_does_not_hide_the_next() -> None:
    entry = entry_of(f"{HEAD}\n  mass 6,4 kg\n  mass 4 kg\n")
    assert [(field.row, field.value is None) for field in entry.fields] == [(2, False)]
    assert [(slip.kind, slip.row) for slip in entry.slips] == [("number-misread", 1)]


@pytest.mark.parametrize("line", ["takes shoe", "tag a 1", 'note "a"', 'goes with "a"'])
def test_what_may_be_repeated_is_kept_twice(line: str) -> None:
    entry = entry_of(f"{HEAD}\n  {line}\n  {line}\n")
    assert (len(entry.fields), entry.slips) == (2, ())


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("level", "tilted down 70°"),
        ("tilt locked", "tilt free"),
        ("slide on", "slide off"),
        ("pan bar down", "pan bar off"),
        ("counterbalance 8", "counterbalance off"),
        ("spare", 'fitted in "x"'),
    ],
)
def test_states_that_contradict(first: str, second: str) -> None:
    slip = one('case "c"', f'  holds "x", {first}, {second}')
    assert (slip.kind, slip.said) == ("figures-contradict", second)


def test_an_unknown_state_leaves_the_others() -> None:
    entry = entry_of('case "c"\n  holds "x", tilt lokced, level\n')
    assert entry.slips[0].nearest == ("tilt locked",)
    assert [state.text for state in entry.fields[0].value.states] == ["level"]  # type: ignore[union-attr] # it is Held


def test_an_unknown_entry_is_one_slip_and_covers_its_lines() -> None:
    document = read('prat head "x"\n  mass 6,4 kg\n  nonsense\n\nrig A\n', "a")
    unknown, rig = document.entries
    assert [(slip.kind, slip.said, slip.nearest) for slip in unknown.slips] == [("unknown-word", "prat", ("part",))]
    assert (unknown.kind, unknown.unread, rig.kind) == ("", (0, 1, 2), "rig")


def test_an_unknown_part_kind_still_has_its_fields_checked() -> None:
    entry = entry_of('part haed "x"\n  chart 6 kg at 100 mm\n  mass 6,4 kg\n')
    assert [(slip.kind, slip.said, slip.nearest) for slip in entry.slips] == [
        ("unknown-word", "haed", ("head",)),
        ("number-misread", "6,4", ()),
    ]
    assert (entry.name, entry.part_kind) == ("x", "")


def test_a_field_in_the_first_column_stays_with_its_entry() -> None:
    entry = entry_of(f"{HEAD}\nmass 6 kg\n  height 20 mm\n")
    assert [(slip.kind, slip.row, slip.repair) for slip in entry.slips] == [("unreadable-line", 1, "  mass 6 kg")]
    assert [field.word for field in entry.fields] == ["height"]


def test_an_indented_line_with_no_entry_above() -> None:
    ((line, slip),) = read("\n  mass 6 kg\n", "a").slips
    assert (line, slip.kind, slip.said) == (2, "unreadable-line", "mass 6 kg")


@pytest.mark.parametrize(
    ("line", "kind", "said"),
    [
        ("list", "unreadable-line", "list"),
        ("list The film", "unreadable-line", "The film"),
        ('part "x"', "unreadable-line", '"x"'),
        ("rig", "unreadable-line", "rig"),
        ("waive a-rule", "unreadable-line", "a-rule"),
        ("waive a-rule in rgi B", "unknown-word", "rgi"),
        ("weights within 2", "no-unit", "2"),
        ("weights within 2,5 %", "number-misread", "2,5"),
        ('use "x', "unreadable-line", '"x'),
        ('case "x" y', "unreadable-line", "y"),
        ('part head "x\x07"', "unreadable-line", "\x07"),
    ],
)
def test_first_lines(line: str, kind: str, said: str) -> None:
    (slip,) = entry_of(line + "\n").slips
    assert (slip.kind, slip.said) == (kind, said)
    assert slip.said == line[slip.start : slip.end]


def test_a_line_that_cannot_be_read_does_not_part_a_slot_from_its_or() -> None:
    entry = entry_of('rig A\n  lens "y"\n  push 80 kg\n  or "z"\n  tilts 3°\n  or "u"\n')
    assert [(slip.kind, slip.row) for slip in entry.slips] == [("wrong-unit", 2), ("unreadable-line", 5)]
    assert [field.word for field in entry.fields] == ["lens", "or", "push", "tilts"]


def test_or_wants_a_slot_above_it() -> None:
    entry = entry_of('rig A\n  tilts 3°\n  or "x"\n  lens "y"\n  or "z"\n')
    assert [(slip.kind, slip.row) for slip in entry.slips] == [("unreadable-line", 2)]
    assert [field.word for field in entry.fields] == ["tilts", "lens", "or"]
