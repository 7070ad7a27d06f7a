"""Whether things fit in their cases, and whether what is ordered lies in any."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.cases import cases
from kitproof.facts.orders import order_lines
from kitproof.facts.packing import CaseSubject
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount, Truth, Verdict, Words
from tests.model.texts import setting
from tests.proofing.lists import read_bytes

BOOK = """
part head "Head"
  mass 4 kg
  size 240 x 200 x 130 mm

part sticks "Sticks"
  mass 5 kg
  folds to 900 mm

part sticks "Sized sticks"
  mass 5 kg
  folds to 900 mm
  size 900 x 150 x 150 mm

part sticks "Standing sticks"
  mass 5 kg
  folds to 900 mm
  size 800 x 800 x 1500 mm

part lens "Lens"
  mass 1 kg
  length 200 mm
  front 110 mm

part lens "Other lens"
  mass 1 kg
  length 100 mm
  front 110 mm

part kit "Lenses"
  mass 2 kg
  includes 2 x "Lens", "Other lens"

part accessory "No size"
  mass 1 kg

part case "House case"
  mass 5 kg
  inside 500 x 300 x 200 mm
"""


def packed(holds: str, inside: str = "500 x 300 x 200 mm", more: str = "") -> CaseSubject:
    lines = "".join(f"  holds {each}\n" for each in holds.split("; ") if each)
    kitlist = read_bytes(f'{BOOK}\ncase "k"\n  inside {inside}\n{lines}\n{more}'.encode())
    return cases(setting(kitlist))[0]


def fits(*args: str) -> Truth:
    found = packed(*args).value("fits")
    assert isinstance(found, Verdict)
    return found.truth


@pytest.mark.parametrize(
    ("holds", "inside", "truth"),
    [
        ('"Head"', "240 x 200 x 130 mm", Truth.TRUE),
        ('"Head"', "130 x 240 x 200 mm", Truth.TRUE),
        ('"Head"', "239 x 210 x 131 mm", Truth.UNDECIDED),
        ('"Head"', "900 x 900 x 129 mm", Truth.FALSE),
        ('4 x "Head"', "480 x 400 x 130 mm", Truth.TRUE),
        ('4 x "Head"', "479 x 400 x 131 mm", Truth.UNDECIDED),
        ('5 x "Head"', "480 x 400 x 130 mm", Truth.FALSE),
        ('"Lens"; "Head"', "350 x 200 x 130 mm", Truth.TRUE),
        ('"Sized sticks"', "900 x 150 x 150 mm", Truth.TRUE),
        ('"Sticks"', "500 x 300 x 200 mm", Truth.FALSE),
        ('"Standing sticks"', "500 x 300 x 200 mm", Truth.FALSE),
        ('"Lenses"', "400 x 110 x 220 mm", Truth.TRUE),
        ('"Lenses"', "900 x 900 x 109 mm", Truth.FALSE),
        ('case "inner"', "300 x 300 x 300 mm", Truth.TRUE),
        ('case "inner"', "900 x 900 x 290 mm", Truth.FALSE),
        ("", "900 x 900 x 290 mm", Truth.TRUE),
    ],
)
def test_whether_things_fit(holds: str, inside: str, truth: Truth) -> None:
    """In all turns at right angles; whether something aslant would do stays in doubt where it may."""
    assert fits(holds, inside, 'case "inner"\n  outside 300 x 300 x 300 mm\n') is truth


@pytest.mark.parametrize(
    ("holds", "inside", "missing"),
    [
        ('"No size"', "500 x 300 x 200 mm", 'accessory "No size": size'),
        ('"Sticks"', "1000 x 300 x 200 mm", 'sticks "Sticks": size'),
        ('"Standing sticks"', "1000 x 300 x 200 mm", 'sticks "Standing sticks": size'),
        ('"Head"', "?", 'case "k": inside'),
        ('"Head"', "230..250 x 210 x 140 mm", 'case "k": the sizes of what it holds, more closely'),
        ('case "inner"', "500 x 300 x 200 mm", 'case "inner": outside'),
        ('"Head"; of course', "500 x 300 x 200 mm", 'case "k": line 44, which could not be read'),
    ],
)
def test_what_is_not_known_is_asked_for(holds: str, inside: str, missing: str) -> None:
    found = packed(holds, inside, 'case "inner"\n').value("fits")
    assert isinstance(found, Verdict)
    assert found.truth is Truth.MISSING
    assert missing in found.missing


def test_so_many_things_that_not_all_ways_are_tried_are_not_decided() -> None:
    """They would go in by volume, and no way was found at once: to be tried by hand, never a yes or a no."""
    found = packed('20 x "Head"', "1040 x 440 x 280 mm").value("fits")
    assert found == Verdict(Truth.MISSING, ('case "k": whether its 20 things go in, by trying it',))


def test_what_does_not_go_in_even_alone_is_named() -> None:
    case = packed('"Head"; "Sticks"; "Sized sticks"')
    misfits = case.value("misfits")
    assert isinstance(misfits, tuple)
    assert [each.label for each in misfits] == ['case "k", sticks "Sticks"', 'case "k", sticks "Sized sticks"']
    assert case.value("why_not_in") == Words('"Sticks" and "Sized sticks" do not go in even alone, however turned')
    alone = packed('"Head"; "Sticks"').value("why_not_in")
    assert alone == Words('"Sticks" does not go in even alone, however turned')
    volume = packed('9 x "Head"').value("why_not_in")
    assert volume == Words("all together it has more volume than there is inside")
    assert packed('"Head"').value("why_not_in") == Words(None)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('case "k"\n  inside 500 x 300 x 200 mm\n', Truth.TRUE),
        ('case "k"\n  inside ?\n', Truth.TRUE),
        ('case "k"\n  is "House case"\n', Truth.TRUE),
        ('case "k"\n', Truth.FALSE),
    ],
)
def test_whether_anything_says_how_large_a_case_is(text: str, told: Truth) -> None:
    (case,) = cases(setting(read_bytes(f"{BOOK}\n{text}".encode())))
    assert case.value("inside_told") == Verdict(told)


@pytest.mark.parametrize(
    ("ordered", "holds", "packed_count"),
    [
        ('2 x "Head"', "", Amount(0, 0)),
        ('2 x "Head"', '  holds "Head"\n', Amount(1, 1)),
        ('1 x "Lens"', '  holds "Lenses"\n', Amount(2, 2)),
        ('1 x "Lenses"', '  holds 2 x "Lens"\n  holds "Other lens"\n', Amount(1, 1)),
        ('1 x "Lenses"', '  holds "Lens"\n  holds "Other lens"\n', Amount(0, 0)),
        ('1 x "Head"', "  holds of course\n", Amount(0, math.inf, ('case "k": line 49, which could not be read',))),
    ],
)
def test_how_many_of_what_is_ordered_lie_in_cases(ordered: str, holds: str, packed_count: Amount) -> None:
    kitlist = read_bytes(f'{BOOK}\norder\n  {ordered}\ncase "k"\n{holds}'.encode())
    (line,) = order_lines(setting(kitlist), Tally(kitlist))
    found = line.amount("packed")
    assert (found.low, found.high) == (packed_count.low, packed_count.high)
    assert bool(found.missing) is bool(packed_count.missing)
    assert line.value("cases_there") == Verdict(Truth.TRUE)
    assert line.value("travels_in_case") == Verdict(Truth.TRUE)


def test_cases_and_names_that_no_book_has_are_not_looked_for_in_cases() -> None:
    kitlist = read_bytes(f'{BOOK}\norder\n  1 x "House case"\n  1 x "Nothing"\n'.encode())
    for line in order_lines(setting(kitlist), Tally(kitlist)):
        assert line.value("travels_in_case") == Verdict(Truth.FALSE)
        assert line.value("cases_there") == Verdict(Truth.FALSE)


def test_every_outer_side_of_a_case_in_a_case_counts() -> None:
    inner = 'case "inner"\n  outside 200 x 300 x 400 mm\n'
    assert fits('case "inner"', "200 x 300 x 400 mm", inner) is Truth.TRUE
    for less in ("199 x 300 x 400 mm", "200 x 299 x 400 mm", "200 x 300 x 399 mm"):
        assert fits('case "inner"', less, inner) is not Truth.TRUE


@pytest.mark.parametrize("said", ["length 100 mm", "front 110 mm", "length 100 mm\n  front ?", "size 10 x ? x 10 mm"])
def test_a_lens_has_no_size_by_its_length_or_its_front_alone(said: str) -> None:
    found = packed('"Open lens"', "900 x 900 x 900 mm", f'part lens "Open lens"\n  mass 1 kg\n  {said}\n').value("fits")
    assert found == Verdict(Truth.MISSING, ('lens "Open lens": size',))
