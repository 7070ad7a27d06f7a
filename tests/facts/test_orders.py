"""Counts over orders, rigs and cases, held to brute force over days and combinations."""

from __future__ import annotations

import itertools
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.build import combinations
from kitproof.facts.orders import ItemSubject, LineSubject, items, order_lines
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount
from kitproof.model.kitlist import KitList
from tests.model.texts import RIG, made, setting

FIRST = date(2027, 5, 1)


def item(kitlist: KitList, name: str) -> ItemSubject:
    found = items(setting(kitlist), Tally(kitlist))
    return next(each for each in found if each.part.name == name)


def line(kitlist: KitList, name: str) -> LineSubject:
    found = order_lines(setting(kitlist), Tally(kitlist))
    return next(each for each in found if each.line.part.name == name)


def exactly(number: int) -> Amount:
    return Amount(number, number)


class Stand:
    """One rig of a random list: how many it needs, its days (None: the list's, or none), what it stands instead of."""

    def __init__(self, count: int, days: tuple[int, int] | None, instead: int | None) -> None:
        self.count, self.days, self.instead = count, days, instead


stands = st.lists(
    st.builds(
        Stand,
        st.integers(1, 3),
        st.one_of(st.none(), st.tuples(st.integers(0, 5), st.integers(0, 3)).map(lambda two: (two[0], sum(two)))),
        st.one_of(st.none(), st.integers(0, 5)),
    ),
    min_size=1,
    max_size=6,
)


def text_of(rigs: list[Stand]) -> str:
    lines = []
    for number, rig in enumerate(rigs):
        lines.append(f"rig {number}\n" + '  monitor "seven inch"\n' * rig.count)
        if rig.days is not None:
            first, last = (FIRST + timedelta(days=day) for day in rig.days)
            lines.append(f"  dates {first} to {last}\n")
        if rig.instead is not None and rig.instead < len(rigs) and rig.instead != number:
            lines.append(f"  instead of {rig.instead}\n")
    return "".join(lines)


def most_together(rigs: list[Stand]) -> int:
    """The most that any set of rigs needs on any one day, every set and every day tried."""
    most = 0
    for day in range(10):
        here = [n for n, rig in enumerate(rigs) if rig.days is None or rig.days[0] <= day <= rig.days[1]]
        for size in range(len(here) + 1):
            for several in itertools.combinations(here, size):
                if not any(rigs[a].instead == b for a in several for b in several if a != b):
                    most = max(most, sum(rigs[each].count for each in several))
    return most


@given(stands)
def test_the_most_used_at_once_is_the_most_on_any_day(rigs: list[Stand]) -> None:
    found = item(made(text_of(rigs)), "seven inch")
    assert found.amount("used_at_once") == exactly(most_together(rigs))
    assert found.amount("in_rigs") == exactly(sum(rig.count for rig in rigs))


def test_many_rigs_that_stand_instead_of_each_other_are_counted_without_trying_every_set() -> None:
    """Sixty rigs in pairs have 2 to the 30th sets."""
    pairs = "".join(f'rig a{n}\n  lens "long lens"\nrig b{n} like a{n}\n  instead of a{n}\n' for n in range(30))
    assert item(made(pairs), "long lens").amount("used_at_once") == exactly(30)


names = st.sampled_from(["long lens", "short lens"])


@given(
    st.lists(st.tuples(st.lists(names, min_size=1, max_size=2, unique=True), st.one_of(st.none(), names)), max_size=4)
)
def test_a_rig_needs_the_most_of_all_its_combinations(lines: list[tuple[list[str], str | None]]) -> None:
    text = "rig A\n" + "".join(
        "  lens " + " or ".join(f'"{name}"' for name in found) + (f', only with "{asks}"' if asks else "") + "\n"
        for found, asks in lines
    )
    kitlist = made(text)
    needs = Tally(kitlist).needs
    for name in ("long lens", "short lens"):
        counts = [sum(each.part.name == name for each in build.standing) for build in combinations(kitlist.rigs[0])]
        assert needs.get(name, {}).get("A", 0) == max(counts)


def test_spares_of_a_rig_are_needed_and_spares_of_an_order_are_of_the_count() -> None:
    text = RIG + '  battery "big battery", spare 4\norder\n  6 x "big battery", spare 2\n'
    kitlist = made(text)
    assert item(kitlist, "big battery").amount("used_at_once") == exactly(5)
    assert item(kitlist, "big battery").amount("ordered") == exactly(6)
    assert line(kitlist, "big battery").amount("ordered") == exactly(6)
    assert line(kitlist, "big battery").amount("spare") == exactly(2)


def test_a_kit_orders_and_packs_what_is_in_it() -> None:
    text = (
        'part kit "lens kit"\n  includes 2 x "long lens", "battery kit"\n'
        'part kit "battery kit"\n  includes 3 x "big battery"\n'
        'rig A\n  battery "big battery"\n  lens "long lens"\norder\n  2 x "lens kit"\n  1 x "long lens"\n'
        'case "k"\n  holds "lens kit"\n'
    )
    kitlist = made(text)
    assert item(kitlist, "long lens").amount("ordered") == exactly(5)
    assert item(kitlist, "big battery").amount("ordered") == exactly(6)
    assert line(kitlist, "long lens").amount("held") == exactly(2)


def test_a_kit_in_itself_is_counted_once_round() -> None:
    text = 'part kit "K"\n  includes "L"\npart kit "L"\n  includes "K"\norder\n  1 x "K"\n'
    assert item(made(text), "K").amount("ordered") == exactly(1)


@pytest.mark.parametrize(
    ("text", "name", "fact"),
    [
        ('rig A\n  lens "long lens"\n  lnes "short lens"\n', "long lens", "used_at_once"),
        ('rig A\n  lens "long lens"\n  also lens "short lens\n', "long lens", "in_rigs"),
        ('rig A\n  lens "long lens"\norder\n  2 x long lens\n', "long lens", "ordered"),
    ],
)
def test_a_line_that_cannot_be_read_may_add_to_a_count(text: str, name: str, fact: str) -> None:
    found = item(made(text), name).amount(fact)
    assert (found.low, found.high) == ((0 if fact == "ordered" else 1), float("inf"))
    assert found.missing


def test_a_case_line_that_cannot_be_read_may_hold_anything() -> None:
    found = line(made('order\n  1 x "long lens"\ncase "k"\n  holds "short lens\n'), "long lens").amount("held")
    assert (found.low, found.high) == (0, float("inf"))
    assert found.missing


def test_a_slot_line_that_cannot_be_read_may_hold_a_part_of_that_slot_only() -> None:
    text = 'rig A\n  lens "long lens\norder\n  1 x "long lens"\n  1 x "seven inch"\n'
    kitlist = made(text)
    assert line(kitlist, "long lens").amount("in_rigs").high == 1
    assert line(kitlist, "seven inch").amount("in_rigs") == exactly(0)


def test_days_that_cannot_be_read_may_be_any() -> None:
    text = (
        'list "x"\n  dates 2027-05-01\nrig A\n  lens "long lens"\n  dates 2027-06-01\n'
        'rig B\n  lens "long lens"\n  dates next week\n'
    )
    assert item(made(text), "long lens").amount("used_at_once") == exactly(2)


def test_what_is_in_no_book_is_no_item() -> None:
    kitlist = made(RIG + '  accessory "odd", 1 kg\n  monitor "seven ich"\n')
    found = {each.part.name for each in items(setting(kitlist), Tally(kitlist))}
    assert found == {"tall sticks", "small head", "wide slide", "studio base", "big camera", "long lens"}


def test_a_rig_instead_of_one_that_is_instead_of_another_leaves_those_two_together() -> None:
    """A with one lens and C with one may both stand; B with five stands instead of either: five, not six."""
    text = (
        'rig A\n  lens "long lens"\nrig B\n  instead of A\n  lens "long lens", spare 4\n'
        'rig C\n  instead of B\n  lens "long lens"\n'
    )
    assert item(made(text), "long lens").amount("used_at_once") == exactly(5)
    assert item(made(text.replace("spare 4", "spare 0")), "long lens").amount("used_at_once") == exactly(2)
