"""Lists made from documents: names found or not, things said twice, what is not known of a lost book."""

from __future__ import annotations

import pytest

from tests.model.texts import RIG, amount, made, slips


def test_a_name_that_is_in_no_book_is_said_with_the_nearest_and_leaves_a_stand_in() -> None:
    kitlist = made(RIG.replace('"long lens"', '"lng lens"'))
    assert [(each.slip.said, each.slip.nearest) for each in kitlist.slips] == [("lng lens", ("long lens",))]
    assert amount(kitlist, "carried").missing == ('lens "lng lens": in no parts book',)


def test_a_part_of_another_kind_is_said() -> None:
    kitlist = made(RIG.replace('lens      "long lens"', 'lens      "seven inch"'))
    assert slips(kitlist) == [("unknown-part", "seven inch")]
    assert kitlist.slips[0].slip.wanted == 'a lens: "seven inch" is a monitor'


def test_an_accessory_may_be_anything_that_hangs_on_a_camera() -> None:
    assert slips(made(RIG + '  accessory "seven inch"\n')) == []
    assert slips(made(RIG + '  accessory "small head"\n')) == [("unknown-part", "small head")]


def test_a_line_may_say_the_mass_of_what_is_in_no_book_and_later_lines_know_it() -> None:
    text = RIG + '  accessory "video link", 0.42 kg\norder\n  1 x "video link"\ncase "k"\n  holds "video link"\n'
    kitlist = made(text)
    assert slips(kitlist) == []
    assert amount(kitlist, "carried").low == pytest.approx(9.12)
    held = kitlist.cases[0].holds[0].part
    assert held is not None
    assert held.mass is not None
    assert held.mass.low == 0.42


def test_a_mass_on_a_line_counts_over_the_book() -> None:
    kitlist = made(RIG + '  monitor "seven inch", 0.9 kg\n')
    assert amount(kitlist, "carried").low == pytest.approx(9.6)
    assert kitlist.parts["seven inch"].mass != 0.9


def test_while_a_book_is_lost_its_names_are_not_said_one_by_one() -> None:
    assert slips(made(RIG + '  monitor "five inch"\nuse "lost"\n')) == [("used-file-missing", "lost")]


def test_a_part_whose_kind_is_not_known_is_one_slip() -> None:
    assert slips(made('part monitr "five inch"\n' + RIG + '  monitor "five inch"\n')) == [("unknown-word", "monitr")]


@pytest.mark.parametrize(
    ("first", "said"),
    [
        ('part lens "long lens"', 'lens "long lens"'),
        ("rig A", 'rig "A"'),
        ('list "x"\nlist "y"', 'list "y"'),
        ('case "k"\ncase "k"', 'case "k"'),
        ('move "m"\nmove "m"', 'move "m"'),
    ],
)
def test_what_is_said_twice_is_said_and_the_first_counts(first: str, said: str) -> None:
    assert slips(made(RIG + first + "\n")) == [("defined-twice", said)]


def test_entries_of_a_used_file_other_than_parts_are_left_out() -> None:
    book = 'part lens "M"\n  mass 1 kg\nrig Z\n  lens "M"\norder\n  1 x "M"\ncase "k"\n'
    kitlist = made(RIG + 'use "book"\n', book=book)
    assert [rig.name for rig in kitlist.rigs] == ["A"]
    assert (kitlist.orders, kitlist.cases) == ((), ())
    assert "M" in kitlist.parts


def test_the_lists_own_part_counts_before_a_books() -> None:
    kitlist = made('use "book"\npart lens "M"\n  mass 2 kg\n', book='part lens "M"\n  mass 1 kg\n')
    mass = kitlist.parts["M"].mass
    assert mass is not None
    assert mass.low == 2
    assert slips(kitlist) == [("defined-twice", 'lens "M"')]


def test_a_list_with_nothing_in_it_is_said() -> None:
    assert slips(made('list "x"\n', parts="")) == [("nothing-listed", "")]
    assert slips(made("", parts="")) == [("nothing-listed", "")]


def test_the_list_entry_gives_title_issue_units_and_days() -> None:
    kitlist = made('list "The Weir"\n  issue 4\n  units lb, in\n  dates 2027-05-01 to 2027-05-09\n  wind 6 m/s\n')
    assert (kitlist.title, kitlist.issue, kitlist.units) == ("The Weir", 4, ("lb", "in"))
    assert kitlist.dates is not None
    assert (kitlist.dates.last - kitlist.dates.first).days == 8
    assert kitlist.site.wind is not None
