"""Findings: what they count for, what they are known by, and how those of several lists become one proof."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from kitproof.proofing.findings import Finding, Proof, Waived, in_order, marked, together
from kitproof.reading.document import Where
from kitproof.rulebook.settings import GRADES
from tests.house.repository import ROOT
from tests.proofing.lists import proofed, proofed_text, read, read_bytes
from tests.proofing.small_rules import CANNOT_TELL, FAILS, MAY_FAIL, proofed_by, rule

FAULTS = ROOT / "samples" / "nine-bells-faults.kitlist"


@pytest.mark.parametrize("grade", GRADES)
@pytest.mark.parametrize("at", GRADES)
@pytest.mark.parametrize("outcome", [FAILS, MAY_FAIL, CANNOT_TELL], ids=["fails", "may fail", "cannot tell"])
def test_which_outcomes_of_which_grades_send_a_list_back(grade: str, at: str, outcome: str) -> None:
    """What fails and what may fail counts by its grade; what cannot be told counts for `stop` rules alone."""
    whole = proofed_by({"a": rule(outcome, grade=grade)})
    grave_enough = GRADES.index(grade) <= GRADES.index(at)
    assert whole.sends_back(at) is (grave_enough and (outcome != CANNOT_TELL or grade == "stop"))


def test_the_tally_counts_each_finding_once() -> None:
    rules = {grade: rule(FAILS, grade=grade) for grade in GRADES} | {"waits": rule(CANNOT_TELL, grade="stop")}
    tally = proofed_by(rules).tally
    assert (tally.stop, tally.wrong, tally.watch, tally.note) == (1, 1, 1, 1)
    assert (tally.cannot_tell, tally.waived) == (1, 0)


def test_what_could_not_be_judged_is_counted_apart() -> None:
    whole = proofed_by({"a": rule(FAILS), "b": rule(MAY_FAIL), "c": rule(CANNOT_TELL), "d": rule("mass > 90 kg")})
    assert (whole.judged, whole.not_judged) == (3, 1)


def test_a_rule_that_does_not_apply_is_not_counted() -> None:
    whole = proofed_by({"a": rule(FAILS, "given mass > 50 kg"), "b": rule(FAILS, "given mass > 1 kg")})
    assert whole.judged == 1


def test_what_is_missing_is_named_for_what_cannot_be_told_and_for_nothing_else() -> None:
    found = {each.rule: each.missing for each in proofed_by({"a": rule(FAILS), "c": rule(CANNOT_TELL)}).findings}
    assert found == {"a": (), "c": ('head "H": height',)}


def test_lines_that_were_not_read_are_counted_once_each() -> None:
    assert proofed_text('part head "H"\n  ????\n  mass 4 kg kg\n  tilt 1..2..3\n').not_read == 3
    assert proofed_text('part head "H"\n  mass 4 kg\n').not_read == 0


# Fingerprints


def prints(whole: Proof) -> list[str]:
    return [each.fingerprint for each in whole.findings]


def test_every_finding_of_a_list_has_a_fingerprint_of_its_own() -> None:
    found = prints(proofed(read(FAULTS)))
    assert len(found) > 20
    assert len(set(found)) == len(found)
    assert {len(each) for each in found} == {16}


def test_a_fingerprint_survives_lines_that_move() -> None:
    text = FAULTS.read_text("utf-8")
    moved = "# one more line\n\n" + text.replace("\nrig A\n", "\n# a comment\n\n\nrig A\n  # another\n")
    before, after = (read_bytes(each.encode()) for each in (text, moved))
    assert set(prints(proofed(before))) == set(prints(proofed(after)))
    assert {each.where.line for each in proofed(before).findings} != {
        each.where.line for each in proofed(after).findings
    }


def test_a_fingerprint_tells_rules_and_subjects_apart() -> None:
    text = 'part head "H"\n  mass 90 kg\n\npart head "K"\n  mass 90 kg\n'
    both = proofed_by({"a": rule("mass > 5 kg"), "b": rule("mass > 6 kg")}, text)
    assert len({*prints(both)}) == 4


def test_two_slips_of_one_kind_are_told_apart() -> None:
    found = prints(proofed_text('part head "H"\n  mass 1,2 kg\n\npart head "K"\n  mass 1,2 kg\n'))
    assert len(set(found)) == 2


def test_a_fault_that_is_put_right_leaves_the_fingerprints_of_others() -> None:
    text = 'part head "H"\n  mass 1,2 kg\n  height 12\n\npart head "K"\n  mass 90 kg\n'
    before, after = proofed_text(text), proofed_text(text.replace("  height 12\n", "  height 12 mm\n"))
    assert len(after.findings) == len(before.findings) - 1
    assert set(prints(after)) < set(prints(before))


# Order, and several lists


def finding(**said: object) -> Finding:
    where = Where("a.kitlist", 1, 1, 1, 2)
    plain = Finding("r", "wrong", "fails", "t", "a.kitlist", None, "list", where, "It is.", "It matters.")
    return replace(plain, **said)


def test_the_gravest_comes_first_then_the_certain_then_by_place() -> None:
    later = Where("a.kitlist", 9, 1, 9, 2)
    ordered = [
        finding(grade="stop", where=later),
        finding(grade="stop", outcome="may fail"),
        finding(rule="a"),
        finding(rule="b"),
        finding(where=later),
        finding(outcome="may fail"),
        finding(grade="note"),
        finding(grade="stop", outcome="cannot tell"),
        finding(outcome="cannot tell"),
    ]
    assert in_order(ordered[::-1]) == ordered
    assert len(set(marked_prints(ordered))) == len(ordered)


def marked_prints(findings: list[Finding]) -> list[str]:
    return [each.fingerprint for each in marked(findings)]


def test_what_two_lists_find_in_the_book_that_they_share_is_one_finding() -> None:
    shared = Where("book.kitlist", 2, 3, 2, 9)
    one = Proof((finding(where=shared, path="a.kitlist"),), 3, 1, 2)
    two = Proof((finding(where=shared, path="b.kitlist"), finding(path="b.kitlist")), 4, 0, 1)
    whole = together([one, two])
    assert sorted(each.path for each in whole.findings) == ["a.kitlist", "b.kitlist"]
    assert (whole.judged, whole.not_judged) == (7, 1)


def test_the_gravest_of_several_lists_comes_first() -> None:
    note, stop = finding(rule="a", grade="note"), finding(rule="b", grade="stop")
    whole = together([Proof((note,), 1, 0, 0), Proof((stop,), 1, 0, 0)])
    assert [each.grade for each in whole.findings] == ["stop", "note"]


def test_what_one_list_waives_and_another_does_not_counts() -> None:
    shared = finding(where=Where("book.kitlist", 2, 3, 2, 9))
    waived = replace(shared, waived=Waived("so", "us", None, Where("a.kitlist", 1, 1, 1, 2)), counts=False)
    proofs = [Proof((waived,), 1, 0, 0), Proof((shared,), 1, 0, 0)]
    for order in (proofs, proofs[::-1]):
        whole = together(order)
        assert len(whole.findings) == 1
        assert whole.sends_back("wrong")
    assert not together(proofs[:1] * 2).sends_back("wrong")


def test_two_findings_at_one_place_of_one_list_stay_two() -> None:
    """A chart with two figures too high is wrong twice, and both are at the chart."""
    whole = proofed_text('part head "H"\n  mass 4 kg\n  chart 5 kg at 100 mm, 6 kg at 200 mm, 7 kg at 300 mm\n')
    assert len([each for each in whole.findings if each.rule == "chart-rises"]) == 2
    assert together([whole]).findings == whole.findings


def test_what_two_rigs_of_one_name_find_in_a_shared_book_stays_two() -> None:
    """Two lists each have a rig A; what is wrong with one says nothing of the other."""
    one = finding(subject="rig A", path="a.kitlist", where=Where("a.kitlist", 4, 1, 4, 2))
    two = finding(subject="rig A", path="b.kitlist", where=Where("b.kitlist", 4, 1, 4, 2))
    assert len(together([Proof((one,), 1, 0, 0), Proof((two,), 1, 0, 0)]).findings) == 2


def test_nothing_together_is_nothing() -> None:
    whole = together([])
    assert (whole.findings, whole.judged, whole.not_judged, whole.not_read) == ((), 0, 0, 0)
    assert not whole.sends_back("note")
