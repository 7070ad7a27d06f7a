"""Pairings against brute force over all of a small stock, and what each stage of the search says by itself."""

from __future__ import annotations

from itertools import permutations, product

import pytest
from msgspec.structs import replace

from kitproof.facts.build import combinations
from kitproof.facts.mating import joints
from kitproof.facts.rig import RigSubject
from kitproof.mending.gear import size_of
from kitproof.mending.ground import Ground
from kitproof.mending.pairing.results import Paired
from kitproof.mending.pairing.search import paired
from kitproof.mending.stock import IN_STOCK, OUT_OF_STOCK, STOCK_NOT_KNOWN
from kitproof.model.parts import Part
from kitproof.model.rigs import Option, Rig, SlotLine
from kitproof.proofing.judging import judged_rig
from kitproof.rulebook.settings import GRADES
from tests.mending.grounds import SAMPLES, ground, sample
from tests.mending.pairing.stocks import PLAIN, RIG, drawn, head, listed, ring, slide, sticks

SPEAKING = frozenset(
    (
        *("overload-at-height", "uncharted-no-margin", "counterbalance-too-weak", "counterbalance-too-strong"),
        *("drag-cannot-hold", "head-for-lock-as-drag", "tilt-beyond-head", "sticks-overloaded", "stack-overloaded"),
        *("slide-missing", "slide-out-of-reach", "left-standing-unbalanced", "legs-beyond-range", "tips-on-slope"),
        *("tips-when-tilted", "overturns-in-wind", "ballast-short", "bowl-size-differs", "screw-size-differs"),
        *("slide-width-differs", "seat-does-not-mate"),
    )
)
"""The shipped rules of grade stop or wrong that a choice of sticks, head, slide and adapters has to do with."""


def found(text: str, most: int | None = None) -> Paired:
    """What is found for the first rig of a list."""
    of = ground(text)
    return paired(of, of.kitlist.rigs[0], most)


def names(parts: tuple[Part, ...]) -> tuple[str, ...]:
    return tuple(part.name for part in parts)


def carrying(result: Paired) -> list[tuple[str, ...]]:
    return [names(each.pairing.all_parts) for each in result.carries]


def reasons(result: Paired) -> dict[tuple[str, ...], str]:
    return {names(each.parts): each.says for each in result.turned_down}


# ---- brute force ---------------------------------------------------------------------------------------------------


def with_parts(rig: Rig, chosen: tuple[Part, ...]) -> Rig:
    """The rig of `stocks` with its support exchanged: the place of each line is where the parts stand."""
    first = {line.slot: line for line in rig.lines}
    support = [
        replace(first[each.kind], options=(Option(part=each, where=rig.where),))
        if each.kind in first
        else SlotLine(slot=each.kind, options=(Option(part=each, where=rig.where),), where=rig.where)
        for each in chosen
    ]
    return replace(rig, lines=(*support, *(each for each in rig.lines if each.slot not in ("sticks", "head", "slide"))))


def said(of: Ground, rig: Rig) -> set[tuple[str, str]]:
    """All that the whole rule book says of a rig that is not quiet, as pairs of a rule and an outcome: those rules that
    speak of what is chosen."""
    hits = judged_rig(of.setting, of.given.book, rig)
    pairs: set[tuple[str, str]] = set()
    for hit in hits:
        for outcome, (_, thing, env) in hit.worst.items():
            grave = GRADES.index(hit.rule.grade) <= GRADES.index("wrong")
            if hit.rule.name in SPEAKING and grave and not hit.rule.is_quiet(outcome, thing, env):
                pairs.add((hit.rule.name, outcome))
    return pairs


def mated(of: Ground, rig: Rig) -> bool:
    """Whether nothing that stands in the rig is known not to mate."""
    return not any(rule in _MATING for rule, outcome in said(of, rig) if outcome == "fails")


_MATING = ("bowl-size-differs", "screw-size-differs", "slide-width-differs", "seat-does-not-mate")


def brute(of: Ground, rig: Rig) -> dict[tuple[str, ...], tuple[tuple[Part, ...], set[tuple[str, str]]]]:
    """Every pairing of a stock by its names, with its parts and what is said of it: adapters are tried in every order
    between sticks and head, and for each choice of parts those stay that mate with the fewest."""
    books = of.kitlist.parts.values()
    kinds = [[part for part in books if part.kind == kind] for kind in ("sticks", "head", "slide")]
    rings = [part for part in books if part.kind == "adapter"]
    whole = {}
    for under, top, over in product(*kinds):
        for count in range(len(rings) + 1):
            runs = [(under, *run, top, over) for run in permutations(rings, count)]
            fit = [run for run in runs if mated(of, with_parts(rig, run))]
            if fit or count == len(rings):
                for run in fit or [(under, top, over)]:
                    whole[names(run)] = run, said(of, with_parts(rig, run))
                break
    return whole


@pytest.mark.parametrize("seed", [2, 18, 44])
def test_brute_force_over_all_pairings_finds_the_same_ones_in_the_same_order_and_agrees_with_every_reason(
    seed: int,
) -> None:
    of = ground(drawn(seed))
    rig = of.kitlist.rigs[0]
    result = paired(of, rig, None)
    whole = brute(of, rig)
    wanted = {key for key, (_, said_of) in whole.items() if not said_of}
    best = {(key[0], *key[-2:]) for key in wanted}
    assert {(key[0], *key[-2:]) for key in carrying(result)} == best
    assert set(carrying(result)) <= wanted
    assert len(carrying(result)) == len(best)
    assert result.whole
    order = [rank(of, whole[key][0]) for key in carrying(result)]
    assert order == sorted(order)
    for key, mine in zip(carrying(result), order, strict=True):
        assert mine == min(rank(of, whole[each][0]) for each in wanted if (each[0], *each[-2:]) == (key[0], *key[-2:]))
    told = reasons_by_rule(result)
    for key, (_, said_of) in whole.items():
        if said_of:
            covering = [rule for parts, rule in told.items() if set(parts) <= set(key)]
            assert covering, f"nothing is said of {key}"
    alone = {parts[0] for parts in told if len(parts) == 1}
    for parts, rule in told.items():
        for key, (_, said_of) in whole.items():
            if rule and set(parts) <= set(key) and not alone & (set(key) - set(parts)):
                assert rule in {name for name, _ in said_of}, (parts, rule, key)


def reasons_by_rule(result: Paired) -> dict[tuple[str, ...], str]:
    told = {names(each.parts): each.rule for each in result.undecided}
    return {**told, **{names(each.parts): each.rule for each in result.turned_down}}


def rank(of: Ground, parts: tuple[Part, ...]) -> tuple[int, float, float, float, float]:
    """Stock, then the sizes of head, sticks and slide, then the tightest share, worked out here once more."""
    have = [0 if part.have else 2 if part.have == 0 else 1 for part in parts]
    under, top, over = parts[0], parts[-2], parts[-1]
    rigs = [RigSubject(of.setting, build) for build in combinations(with_parts(of.kitlist.rigs[0], parts))]
    shares = ("load_share", "legs_share", "stack_share", "overturn_share")
    tight = max(rig.amount(share).high for rig in rigs for share in shares)
    return max(have), size_of(top), size_of(under), size_of(over), tight


@pytest.mark.parametrize("seed", [18, 23, 30])
def test_a_search_for_a_few_finds_the_first_of_all(seed: int) -> None:
    everything = carrying(found(drawn(seed)))
    assert carrying(found(drawn(seed), 2)) == everything[:2]


# ---- ranking -------------------------------------------------------------------------------------------------------


def test_the_smallest_that_will_do_comes_first_the_head_before_the_sticks() -> None:
    result = found(listed(head("Large", 60), head("Fair", 22), *PLAIN[1:], sticks("Light", 30)), None)
    assert [each[:2] for each in carrying(result)] == [
        ("Light", "Fair"),
        ("Sticks 0", "Fair"),
        ("Light", "Large"),
        ("Sticks 0", "Large"),
    ]


def test_what_is_in_stock_comes_before_what_is_smaller_and_is_not() -> None:
    out, not_said = head("Out", 22, more="  have 0\n"), head("Not said", 24, more="")
    result = found(listed(*PLAIN, out, not_said))
    assert [(each[1], carries.stock) for each, carries in zip(carrying(result), result.carries, strict=True)] == [
        ("Head 0", IN_STOCK),
        ("Not said", STOCK_NOT_KNOWN),
        ("Out", OUT_OF_STOCK),
    ]


@pytest.mark.parametrize(("dates", "stock"), [("2027-03-10", OUT_OF_STOCK), ("2027-05-01", IN_STOCK)])
def test_stock_is_what_other_rigs_leave_on_the_dates(dates: str, stock: int) -> None:
    other = f'\nrig B\n  head "Head 0"\n  dates {dates} to {dates}\n'
    result = found(listed(head("Head 0", 30, more="  have 1\n"), *PLAIN[1:]) + other)
    assert [each.stock for each in result.carries] == [stock]


def test_of_a_size_the_one_with_more_margin_comes_first_then_the_lighter() -> None:
    heavy, fair = head("Heavy", 14, mass="4 kg"), head("Fair", 14)
    strong = head("Strong", 14).replace("9.80 kg at 250", "13.00 kg at 250")
    result = found(listed(heavy, fair, strong, *PLAIN[1:]))
    assert [each[1] for each in carrying(result)] == ["Strong", "Fair", "Heavy"]


# ---- adapters ------------------------------------------------------------------------------------------------------


def test_adapters_come_in_only_where_they_are_needed_and_as_few_as_will_do() -> None:
    result = found(listed(*PLAIN, sticks("Wide", 70, 150), ring(150, 100), ring(150, 75), ring(75, 100)))
    assert carrying(result) == [
        ("Sticks 0", "Head 0", "Slide 0"),
        ("Wide", "Ring 150 to 100", "Head 0", "Slide 0"),
    ]


def test_of_two_adapters_as_many_the_one_that_bears_it_is_taken() -> None:
    weak = ring(150, 100, "Weak ring", 5)
    result = found(listed(PLAIN[0], sticks("Sticks 0", 60, 150), PLAIN[2], weak, ring(150, 100)))
    assert carrying(result) == [("Sticks 0", "Ring 150 to 100", "Head 0", "Slide 0")]
    assert reasons(result)["Sticks 0", "Weak ring", "Head 0", "Slide 0"].startswith("a part of the stack bears more")


def test_adapters_of_the_rig_s_own_go_out_and_a_riser_stays() -> None:
    riser = (
        'part riser "Riser"\n  mass 1 kg\n  height 150 mm\n  rated 60 kg\n  sits on bowl 100 mm\n  takes bowl 100 mm\n'
    )
    rig = RIG.replace("  head ", '  riser "Riser"\n  adapter "Ring 100 to 75"\n  head ')
    of = ground(listed(*PLAIN, riser, ring(100, 75), rig=rig))
    result = paired(of, of.kitlist.rigs[0], None)
    assert carrying(result) == [("Sticks 0", "Head 0", "Slide 0")]


# ---- reasons -------------------------------------------------------------------------------------------------------


def test_each_that_is_turned_down_has_one_reason() -> None:
    wrong = (head("Small", 7), head("Odd", 30, 75), sticks("Frail", 9), sticks("Low", 60, legs="300..800 mm"))
    result = found(listed(*PLAIN, *wrong, slide("Short", 5), slide("Flat", 120, "flat")))
    told = reasons(result)
    assert told["Small",] == "the head cannot hold this build"
    assert told["Odd",] == "does not mate"
    assert told["Flat",] == "does not mate"
    assert told["Frail", "Head 0"] == "the sticks bear more than they are rated for"
    assert told["Low", "Head 0", "Slide 0"] == "the legs do not go to that height"
    assert told["Head 0", "Short"] == "it cannot be balanced within the slide's travel"
    assert carrying(result) == [("Sticks 0", "Head 0", "Slide 0")]


def test_every_combination_counts_and_margins_are_those_of_the_worst() -> None:
    heavy = 'part lens "Heavy"\n  mass 40 kg\n  length 220 mm\n  cog 5 mm forward\n  sits on lens PL\n'
    result = found(listed(*PLAIN))
    worst = {each.name: each for each in result.carries[0].margins}
    assert worst["load_share"].choice == {"lens": "Lens 1"}
    assert 0 < worst["load_share"].amount.high < 1
    assert found(listed(*PLAIN, heavy, rig=RIG.replace('"Lens 1"', '"Heavy"'))).carries == ()


def test_a_rule_that_the_house_retired_turns_nothing_down() -> None:
    of = ground(listed(head("Head 0", 7), *PLAIN[1:]))
    assert paired(of, of.kitlist.rigs[0], None).carries == ()
    without = {name: rule for name, rule in of.given.book.rules.items() if name not in ("overload-at-height",)}
    left = ground(listed(head("Head 0", 7), *PLAIN[1:]), by=replace(of.given.book, rules=without))
    result = paired(left, left.kitlist.rigs[0], None)
    assert "overload-at-height" not in reasons_by_rule(result).values()


# ---- nothing to show -----------------------------------------------------------------------------------------------


def test_what_is_in_doubt_does_not_carry_it_and_it_is_said_what_to_ask_for() -> None:
    result = found(listed(*PLAIN).replace("  mass 4 kg\n  size 250", "  mass ?\n  size 250"))
    assert result.carries == ()
    assert [names(each.parts) for each in result.undecided] == [("Head 0", "Slide 0")]
    assert any("Camera" in each for each in result.undecided[0].missing)
    assert any(
        each.part is not None and (each.part.name, each.field) == ("Camera", "mass") for each in result.questions
    )


def test_a_rig_that_needs_more_than_there_is_has_nothing() -> None:
    result = found(listed(head("Head 0", 5), *PLAIN[1:]))
    assert result.carries == ()
    assert reasons(result) == {("Head 0",): "the head cannot hold this build"}


def test_parts_that_are_not_there_at_all_leave_nothing_to_choose_from() -> None:
    result = found(listed(PLAIN[1], rig=RIG))
    assert result.carries == ()
    assert result.stock == {"sticks": 1, "head": 0, "slide": 0}


def test_a_rig_with_no_camera_has_nothing_to_carry() -> None:
    assert not found(listed(*PLAIN, rig='\nrig A\n  sticks "Sticks 0"\n')).carries_a_camera


def test_slots_that_a_rig_has_not_filled_are_chosen_too() -> None:
    rig = RIG.replace('  slide  "Slide 0"\n', "").replace('  head   "Head 0"\n', "")
    assert carrying(found(listed(*PLAIN, rig=rig))) == [("Sticks 0", "Head 0", "Slide 0")]


def test_the_rigs_of_the_mended_sample_are_carried_by_what_they_stand_on() -> None:
    of = sample(SAMPLES / "nine-bells-mended.kitlist")
    for rig in of.kitlist.rigs:
        own = {line.slot: line.options[0].part for line in rig.lines if line.slot in ("sticks", "head", "slide")}
        mine = {part.name for part in own.values() if part is not None}
        everything = paired(of, rig, None)
        assert any(mine <= set(key) for key in carrying(everything)), rig.name
        assert joints(RigSubject(of.setting, next(combinations(rig))))
