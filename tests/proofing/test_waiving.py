"""Waivers: what they accept, until when, and what is said of those that accept nothing."""

from __future__ import annotations

from datetime import date

import pytest

from kitproof.proofing.findings import Proof
from kitproof.proofing.waiving import subject_words
from tests.proofing.lists import DAY, proofed_text
from tests.proofing.small_rules import CANNOT_TELL, FAILS, MAY_FAIL, PART, proofed_by, rule

LIST = (
    'list "Pier"\n\n'
    'part head "H"\n  mass 90 kg\n\n'
    'part sticks "S"\n  mass 5 kg\n  rated 40 kg\n  takes bowl 100 mm\n\n'
    'rig A\n  sticks "S"\n  head "H"\n\n'
    "rig B like A\n\n"
    'move "Van"\n  by road\n  lasts 1 days\n\n'
    'case "Tall tube 2"\n  goes "Van"\n  holds "H", level, slide on, pan bar off, counterbalance off\n\n'
)
WHY = '  because "it is so"\n  by "first assistant"\n'


def waive(what: str, until: str = "", day: date = DAY, text: str = LIST) -> Proof:
    last = f"  until {until}\n" if until else ""
    return proofed_text(f"{text}waive {what}\n{last}{WHY}", day)


def rules_of(whole: Proof, *, waived: bool) -> set[tuple[str, str]]:
    return {(each.rule, each.subject) for each in whole.findings if (each.waived is not None) is waived}


def test_the_list_has_what_is_waived_below() -> None:
    assert rules_of(proofed_text(LIST), waived=False) >= {
        ("sticks-overloaded", "rig A"),
        ("sticks-overloaded", "rig B"),
        ("slide-left-on", 'case "Tall tube 2"'),
        ("impossible-mass", 'part "H"'),
    }


@pytest.mark.parametrize(
    ("what", "accepted"),
    [
        ("sticks-overloaded in rig A", {("sticks-overloaded", "rig A")}),
        ('sticks-overloaded in rig "A"', {("sticks-overloaded", "rig A")}),
        ("sticks-overloaded in rig B", {("sticks-overloaded", "rig B")}),
        ("sticks-overloaded in list", {("sticks-overloaded", "rig A"), ("sticks-overloaded", "rig B")}),
        ('slide-left-on in case "Tall tube 2"', {("slide-left-on", 'case "Tall tube 2"')}),
        ("slide-left-on in case “Tall tube 2”", {("slide-left-on", 'case "Tall tube 2"')}),
        ("slide-left-on in case 'Tall tube 2'", {("slide-left-on", 'case "Tall tube 2"')}),
        ('slide-left-on in  case   "Tall tube 2"', {("slide-left-on", 'case "Tall tube 2"')}),
        ('impossible-mass in part "H"', {("impossible-mass", 'part "H"')}),
        ("impossible-mass in list", {("impossible-mass", 'part "H"')}),
    ],
)
def test_a_waiver_accepts_what_lies_in_its_subject_and_no_more(what: str, accepted: set[tuple[str, str]]) -> None:
    whole = waive(what)
    assert rules_of(whole, waived=True) == accepted
    assert rules_of(whole, waived=False) == rules_of(proofed_text(LIST), waived=False) - accepted
    assert whole.tally.waived == len(accepted)


def test_a_packed_head_is_waived_by_its_move_as_well() -> None:
    """All within a subject: what lies in a case goes on the case's moves."""
    assert rules_of(waive('slide-left-on in move "Van"'), waived=True) == {("slide-left-on", 'case "Tall tube 2"')}


@pytest.mark.parametrize(
    ("what", "rule_of_waivers"),
    [
        ("sticks-overloadet in rig A", "waiver-of-nothing-known"),
        ("sticks-overloaded in rig C", "waiver-of-nothing-known"),
        ('slide-left-on in case "Tall tube 3"', "waiver-of-nothing-known"),
        ('slide-left-on in part "X"', "waiver-of-nothing-known"),
        ("slide-left-on in rig A", "waiver-unused"),
        ("slide-missing in list", "waiver-unused"),
        ('sticks-overloaded in move "Van"', "waiver-unused"),
    ],
)
def test_a_waiver_that_accepts_nothing_is_said(what: str, rule_of_waivers: str) -> None:
    whole = waive(what)
    assert whole.tally.waived == 0
    assert [each.rule for each in whole.findings if each.rule.startswith("waiver")] == [rule_of_waivers]


@pytest.mark.parametrize(
    ("until", "good"), [("", True), ("2027-03-02", True), ("2027-03-01", True), ("2027-02-28", False), ("?", False)]
)
def test_its_last_day_is_included(until: str, good: bool) -> None:
    whole = waive("sticks-overloaded in rig A", until)
    assert whole.tally.waived == int(good)


def test_the_day_is_the_one_that_is_asked_for() -> None:
    before, after = date(2026, 1, 1), date(2031, 1, 1)
    assert waive("sticks-overloaded in rig A", "2030-06-30", before).tally.waived == 1
    late = waive("sticks-overloaded in rig A", "2030-06-30", after)
    assert late.tally.waived == 0
    assert [each.rule for each in late.findings if each.rule.startswith("waiver")] == ["waiver-out-of-date"]


def test_a_waived_finding_keeps_the_words_of_its_waiver() -> None:
    whole = waive("sticks-overloaded in rig A", "2027-03-12")
    (mark,) = [each.waived for each in whole.findings if each.waived is not None]
    assert (mark.because, mark.by, mark.until) == ("it is so", "first assistant", date(2027, 3, 12))
    assert mark.where.line == LIST.count("\n") + 1


def test_a_waived_finding_never_sends_a_list_back() -> None:
    for fails, outcome in ((FAILS, "fails"), (MAY_FAIL, "may fail"), (CANNOT_TELL, "cannot tell")):
        open_one = proofed_by({"a": rule(fails, grade="stop")})
        waived_one = proofed_by({"a": rule(fails, grade="stop")}, f'{PART}waive a in part "H"\n{WHY}')
        assert [each.outcome for each in waived_one.findings] == [outcome]
        assert open_one.sends_back("stop")
        assert not waived_one.sends_back("note")


@pytest.mark.parametrize("name", ["now", "elder"])
def test_a_rule_is_waived_by_its_old_name_too(name: str) -> None:
    whole = proofed_by({"now": rule(FAILS, "once elder")}, f"{PART}waive {name} in list\n{WHY}")
    assert whole.tally.waived == 1


def test_a_waiver_of_a_small_fault_does_not_take_a_graver_one_with_it() -> None:
    """The finding that stays keeps the other under `also`; accepting the one is not accepting the other."""
    rules = {"grave": rule(MAY_FAIL, "covers small", grade="stop"), "small": rule(FAILS, grade="note")}
    together = proofed_by(rules)
    assert [(each.rule, each.counts_as) for each in together.findings] == [("small", "stop")]
    whole = proofed_by(rules, f"{PART}waive small in list\n{WHY}")
    assert [(each.rule, each.waived is not None) for each in whole.findings] == [("grave", False), ("small", True)]
    assert whole.sends_back("stop")


def test_a_waiver_of_what_is_covered_is_used() -> None:
    rules = {"grave": rule(FAILS, "covers small"), "small": rule(FAILS)}
    whole = proofed_by(rules, f"{PART}waive small in list\n{WHY}")
    assert [(each.rule, each.waived is not None) for each in whole.findings] == [("grave", False), ("small", True)]


def test_two_waivers_of_one_finding_are_no_fault() -> None:
    twice = f"{LIST}waive sticks-overloaded in rig A\n{WHY}\nwaive sticks-overloaded in list\n{WHY}"
    whole = proofed_text(twice)
    assert whole.tally.waived == 2
    assert [each.rule for each in whole.findings if each.rule.startswith("waiver")] == []


def test_waivers_of_rules_about_waivers_end_somewhere() -> None:
    """A waiver cannot accept what is said of waivers, itself included."""
    whole = proofed_text(f"waive waiver-unused in list\n{WHY}")
    assert "waiver-unused" in {each.rule for each in whole.findings}
    assert whole.tally.waived == 0


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("rig A", "rig A"),
        ('rig "A"', "rig A"),
        ("rig “Main unit”", "rig Main unit"),
        ("case 'Plate 5'", 'case "Plate 5"'),
        ("case  “Tall  tube”", 'case "Tall tube"'),
        ("list", "list"),
    ],
)
def test_quotes_and_spaces_do_not_matter_in_a_subject(typed: str, meant: str) -> None:
    assert subject_words(typed) == meant
