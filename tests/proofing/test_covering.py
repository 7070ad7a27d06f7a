"""One fault is one finding: which one stays, what it keeps, and by which grade it then counts."""

from __future__ import annotations

import pytest

from tests.proofing.small_rules import CANNOT_TELL, FAILS, HOLDS, MAY_FAIL, PART, proofed_by, rule, tree

UPPER, LOWER = "upper", "lower"


@pytest.mark.parametrize(
    ("upper", "lower", "stays"),
    [
        (FAILS, FAILS, UPPER),
        (FAILS, MAY_FAIL, UPPER),
        (FAILS, CANNOT_TELL, UPPER),
        (MAY_FAIL, FAILS, LOWER),
        (MAY_FAIL, MAY_FAIL, UPPER),
        (MAY_FAIL, CANNOT_TELL, UPPER),
        (CANNOT_TELL, FAILS, LOWER),
        (CANNOT_TELL, MAY_FAIL, LOWER),
        (CANNOT_TELL, CANNOT_TELL, UPPER),
    ],
)
def test_the_stronger_outcome_stays_and_the_covering_rule_on_a_tie(upper: str, lower: str, stays: str) -> None:
    found = proofed_by({UPPER: rule(upper, "covers lower"), LOWER: rule(lower)}).findings
    assert tree(found) == {stays: [LOWER if stays == UPPER else UPPER]}


def test_a_rule_that_finds_nothing_covers_nothing() -> None:
    assert tree(proofed_by({UPPER: rule(HOLDS, "covers lower"), LOWER: rule(FAILS)}).findings) == {LOWER: []}
    assert tree(proofed_by({UPPER: rule(FAILS, "covers lower"), LOWER: rule(HOLDS)}).findings) == {UPPER: []}


def test_a_rule_covers_on_its_own_subject_only() -> None:
    two = PART + 'part head "K"\n  mass 6 kg\n'
    found = proofed_by({UPPER: rule("mass > 7 kg", "covers lower"), LOWER: rule(FAILS)}, two).findings
    assert [(each.rule, each.subject, len(each.also)) for each in found] == [
        (UPPER, 'part "H"', 1),
        (LOWER, 'part "K"', 0),
    ]


def test_a_chain_ends_in_one_finding() -> None:
    rules = {"a": rule(FAILS, "covers b"), "b": rule(FAILS, "covers c"), "c": rule(FAILS)}
    found = proofed_by(rules).findings
    assert [each.rule for each in found] == ["a"]
    assert sorted(each.rule for each in found[0].also) == ["b", "c"]
    assert [each.also for each in found[0].also] == [(), ()], "what is under also keeps nothing of its own"


@pytest.mark.parametrize(
    ("outcomes", "stays"),
    [
        ((MAY_FAIL, FAILS, CANNOT_TELL), "b"),
        ((FAILS, MAY_FAIL, FAILS), "a"),
        ((MAY_FAIL, CANNOT_TELL, FAILS), "c"),
        ((CANNOT_TELL, CANNOT_TELL, CANNOT_TELL), "a"),
        ((CANNOT_TELL, MAY_FAIL, MAY_FAIL), "b"),
    ],
)
def test_a_chain_goes_to_the_strongest_of_it(outcomes: tuple[str, str, str], stays: str) -> None:
    a, b, c = outcomes
    found = proofed_by({"a": rule(a, "covers b"), "b": rule(b, "covers c"), "c": rule(c)}).findings
    others = sorted({"a", "b", "c"} - {stays})
    assert {each.rule: sorted(other.rule for other in each.also) for each in found} == {stays: others}


def test_one_rule_may_cover_several() -> None:
    rules = {"a": rule(FAILS, "covers b, c"), "b": rule(FAILS), "c": rule(MAY_FAIL)}
    assert tree(proofed_by(rules).findings) == {"a": ["b", "c"]}


def test_two_rules_that_cover_one_leave_it_in_the_first() -> None:
    rules = {"a": rule(FAILS, "covers c"), "b": rule(FAILS, "covers c"), "c": rule(FAILS)}
    assert tree(proofed_by(rules).findings) == {"a": ["c"], "b": []}


def test_every_finding_of_a_covered_rule_is_covered() -> None:
    chart = 'part head "H"\n  mass 8 kg\n  chart 5 kg at 100 mm, 6 kg at 200 mm, 7 kg at 300 mm\n'
    points = rule("point.mass > 1 kg", "each point in chart")
    found = proofed_by({UPPER: rule(FAILS, "covers lower"), LOWER: points}, chart).findings
    assert tree(found) == {UPPER: [LOWER, LOWER, LOWER]}


def test_it_counts_by_the_gravest_grade_of_what_it_keeps() -> None:
    rules = {UPPER: rule(FAILS, "covers lower", grade="note"), LOWER: rule(MAY_FAIL, grade="stop")}
    whole = proofed_by(rules)
    (found,) = whole.findings
    assert (found.rule, found.grade, found.counts_as) == (UPPER, "note", "stop")
    assert (whole.tally.stop, whole.tally.note) == (1, 0)
    assert whole.sends_back("stop")


def test_a_quiet_finding_is_kept_and_does_not_count() -> None:
    rules = {
        UPPER: rule(FAILS, "covers lower", grade="note"),
        LOWER: rule(MAY_FAIL, "quiet may fail", grade="stop"),
    }
    whole = proofed_by(rules)
    (found,) = whole.findings
    assert [each.quiet for each in found.also] == [True]
    assert found.counts_as == "note"
    assert not whole.sends_back("watch")


def test_a_quiet_outcome_is_weaker_than_any_that_is_shown() -> None:
    rules = {UPPER: rule(FAILS, "covers lower", "quiet fails"), LOWER: rule(CANNOT_TELL)}
    assert tree(proofed_by(rules).findings) == {LOWER: [UPPER]}


@pytest.mark.parametrize(
    ("quiet", "shown"),
    [
        ("quiet may fail", ["fails", "cannot tell"]),
        ("quiet cannot tell", ["fails", "may fail"]),
        ("quiet fails", ["may fail", "cannot tell"]),
        ("quiet may fail where mass > 1 kg", ["fails", "cannot tell"]),
        ("quiet may fail where mass > 10 kg", ["fails", "may fail", "cannot tell"]),
        ("quiet may fail where height > 1 m", ["fails", "may fail", "cannot tell"]),
    ],
)
def test_a_quiet_outcome_is_kept_out_only_where_that_is_certain(quiet: str, shown: list[str]) -> None:
    rules = {name: rule(fails, quiet) for name, fails in (("a", FAILS), ("b", MAY_FAIL), ("c", CANNOT_TELL))}
    assert [each.outcome for each in proofed_by(rules).findings] == shown


def test_a_quiet_finding_is_judged_all_the_same() -> None:
    whole = proofed_by({"a": rule(MAY_FAIL, "quiet may fail")})
    assert (whole.findings, whole.judged) == ((), 1)


RIGS = (
    'part sticks "S"\n  mass 5 kg\n  takes bowl 100 mm\n\npart head "H"\n  mass 4 kg\n  sits on bowl 75 mm\n'
    '  takes slide wide\n\npart camera "C"\n  mass 3 kg\n  sits on slide narrow\n\n'
    'rig A\n  sticks "S"\n  head "H"\n  camera "C"\n\nrig B like A\n'
)


def test_gather_makes_one_finding_of_each_rig_with_the_other_places_to_see() -> None:
    joint = "not mates"
    apart = proofed_by({"a": rule(joint, about="joint")}, RIGS).findings
    once = proofed_by({"a": rule(joint, "gather rig", about="joint")}, RIGS).findings
    assert sorted(each.subject for each in apart) == ["rig A", "rig A", "rig B", "rig B"]
    assert [each.subject for each in once] == ["rig A", "rig B"]
    assert [len(each.see) for each in once] == [1, 1]


def test_the_strongest_of_those_gathered_is_shown() -> None:
    text = 'part head "H"\n  mass 3 kg\n  chart 5..15 kg at 100 mm, 12 kg at 200 mm\n'
    points = rule("point.mass > 10 kg", "each point in chart", "gather part", "at point")
    (found,) = proofed_by({"a": points}, text).findings
    assert (found.outcome, found.where.column) == ("fails", text.splitlines()[2].index("12 kg") + 1)
    assert len(found.see) == 1


def test_a_rule_that_is_covered_by_its_old_name_is_covered() -> None:
    rules = {UPPER: rule(FAILS, "covers elder"), LOWER: rule(FAILS, "once elder")}
    assert tree(proofed_by(rules).findings) == {UPPER: [LOWER]}
