"""Whether things fit in their cases, and whether what is ordered lies in any."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.cases import cases
from kitproof.facts.orders import order_lines
from kitproof.facts.packing import CaseSubject
from kitproof.facts.stowing import packed_size
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
        ('"Head"', "500 mm x ? x 200 mm", 'case "k": inside'),
        ('"Head"', "230..250 x 210 x 140 mm", 'case "k": the sizes of what it holds, more closely'),
        ('case "inner"', "500 x 300 x 200 mm", 'case "inner": outside'),
        ('case "half said"', "500 x 300 x 200 mm", 'case "half said": outside'),
        ('case "nowhere"', "500 x 300 x 200 mm", 'case "nowhere": outside'),
        ('"Head"; of course', "500 x 300 x 200 mm", 'case "k": line 44, which could not be read'),
    ],
)
def test_what_is_not_known_is_asked_for(holds: str, inside: str, missing: str) -> None:
    found = packed(holds, inside, 'case "inner"\ncase "half said"\n  outside 300 mm x ? x 300 mm\n').value("fits")
    assert isinstance(found, Verdict)
    assert found.truth is Truth.MISSING
    assert missing in found.missing


def test_all_that_is_not_known_is_asked_for_in_the_order_listed() -> None:
    missing = ('sticks "Sticks": size', 'accessory "No size": size')
    assert packed('"Sticks"; "No size"', "950 x 950 x 950 mm").value("fits") == Verdict(Truth.MISSING, missing)
    found = packed('"No size"; 20 x "Head"', "1040 x 440 x 280 mm").value("fits")
    missing = ('accessory "No size": size', 'case "k": whether its 20 things go in, by trying it')
    assert found == Verdict(Truth.MISSING, missing)


def test_what_folds_to_a_length_that_is_not_known_has_no_size() -> None:
    kitlist = read_bytes(
        b'part sticks "Open sticks"\n  folds to ?\npart sticks "Sized"\n  folds to ?\n  size 1 x 2 x 3 m\n'
    )
    assert packed_size(kitlist.parts["Open sticks"]) == (None, ('sticks "Open sticks": size',))
    assert packed_size(kitlist.parts["Sized"]) == (((1, 1), (2, 2), (3, 3)), ())


@pytest.mark.parametrize(
    ("kit", "inside", "truth"),
    [
        ('part kit "K"\n  includes 2 x "Lenses"\n', "1000 x 110 x 110 mm", Truth.TRUE),
        ('part kit "K"\n  includes 2 x "Lenses"\n', "999 x 110 x 110 mm", Truth.FALSE),
        ('part kit "K"\n  size 100 x 100 x 100 mm\n  includes "Sized sticks"\n', "100 x 100 x 100 mm", Truth.TRUE),
        ('part kit "K"\n  size 900 x 900 x 900 mm\n  includes "Head"\n', "300 x 300 x 300 mm", Truth.FALSE),
    ],
)
def test_a_kit_lies_in_as_what_it_includes_or_by_its_own_size(kit: str, inside: str, truth: Truth) -> None:
    """Of two times two lenses of 200 mm and one of 100 mm, end to end, there is 1 m."""
    assert fits('"K"', inside, kit) is truth


@pytest.mark.parametrize(
    ("part", "missing"),
    [
        ('kit "K"\n  includes "Head", "Nowhere"', 'accessory "Nowhere": in no parts book'),
        ('kit "K"\n  includes "Head"\n  includes of course', 'kit "K": size'),
        ('kit "K"\n  includes "Head"\n  size ?', 'kit "K": size'),
        ('kit "K"\n  includes "Head", "K"', 'kit "K": size'),
        ('kit "K"', 'kit "K": size'),
        ('camera "K"\n  includes "Head"', 'camera "K": size'),
    ],
)
def test_it_is_not_known_to_fit_where_not_all_that_it_is_made_of_is_known(part: str, missing: str) -> None:
    """A camera is more than the handle that it includes; a kit is no more than what it includes."""
    assert packed('"K"', "900 x 900 x 900 mm", f"part {part}\n").value("fits") == Verdict(Truth.MISSING, (missing,))


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
    three = packed('"Head"; "Sticks"; "Sized sticks"; "Standing sticks"').value("why_not_in")
    names = '"Sticks", "Sized sticks" and "Standing sticks"'
    assert three == Words(f"{names} do not go in even alone, however turned")
    volume = packed('9 x "Head"').value("why_not_in")
    assert volume == Words("all together it has more volume than there is inside")
    assert packed('"Head"').value("why_not_in") == Words(None)
    assert packed('"Sticks"', "?").value("misfits") == ()


def test_a_kit_of_which_one_thing_does_not_go_in_does_not_go_in() -> None:
    case = packed('"K"', more='part kit "K"\n  includes "Head", "Sized sticks"\n')
    assert case.value("why_not_in") == Words('"K" does not go in even alone, however turned')


def test_a_case_that_does_not_go_in_is_named_and_is_no_packed_part() -> None:
    case = packed('case "inner"', more='case "inner"\n  outside 600 x 400 x 300 mm\n')
    assert case.value("why_not_in") == Words('case "inner" does not go in even alone, however turned')
    assert case.value("misfits") == ()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('case "k"\n  inside 500 x 300 x 200 mm\n', Truth.TRUE),
        ('case "k"\n  inside ?\n', Truth.TRUE),
        ('case "k"\n  is "House case"\n', Truth.TRUE),
        ('part case "Sack"\n  mass 1 kg\ncase "k"\n  is "Sack"\n', Truth.FALSE),
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
        ('1 x "Lenses"', '  holds 2 x "Lens"\n', Amount(0, 0)),
        ('1 x "Lenses"', '  holds "Lenses"\n', Amount(1, 1)),
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


@pytest.mark.parametrize(
    ("part", "packed_count"),
    [
        ('kit "K"\n  includes "Head", 2 x "Lens"', Amount(1, 1)),
        ('kit "K"\n  includes "Head", 0 x "Lens"', Amount(2, 2)),
        ('kit "K"\n  includes "Head"\n  includes of course', Amount(0, 2, ('kit "K": includes',))),
        ('kit "K"', Amount(0, 0)),
        ('camera "K"\n  includes "Head"', Amount(0, 0)),
    ],
)
def test_a_kit_lies_in_cases_where_all_that_it_includes_does(part: str, packed_count: Amount) -> None:
    """Two heads and three lenses are packed. A camera is more than the head that it includes, and may be left behind; a
    line of a kit that could not be read may include what is left behind."""
    text = f'{BOOK}\npart {part}\norder\n  2 x "K"\ncase "k"\n  holds 2 x "Head"\n  holds 3 x "Lens"\n'
    kitlist = read_bytes(text.encode())
    (line,) = order_lines(setting(kitlist), Tally(kitlist))
    found = line.amount("packed")
    assert (found.low, found.high) == (packed_count.low, packed_count.high)
    assert [each.partition(" (")[0] for each in found.missing] == list(packed_count.missing)


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


@pytest.mark.parametrize(
    "said",
    ["length 100 mm", "front 110 mm", "length 100 mm\n  front ?", "length ?\n  front 110 mm", "size 10 mm x ? x 10 mm"],
)
def test_a_lens_has_no_size_by_its_length_or_its_front_alone(said: str) -> None:
    found = packed('"Open lens"', "900 x 900 x 900 mm", f'part lens "Open lens"\n  mass 1 kg\n  {said}\n').value("fits")
    assert found == Verdict(Truth.MISSING, ('lens "Open lens": size',))
