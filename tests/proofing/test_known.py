"""Known findings: a record of one proof held against the next."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from msgspec.structs import replace

from kitproof.files import fetcher
from kitproof.model.making import make_list
from kitproof.model.sources import gather
from kitproof.proofing.known import SCHEMA, BadRecordError, against, read_record, record
from tests.proofing.lists import DAY, proofed, read

SAMPLE = Path(__file__).parents[2] / "samples" / "nine-bells-faults.kitlist"


def test_what_was_recorded_is_known_and_counts_for_nothing() -> None:
    proof = proofed(read(SAMPLE))
    again = against(proof, read_record(record(proof)), {each.key for each in proof.findings})
    assert all(each.known and not each.counts for each in again.findings if each.waived is None)
    assert proof.sends_back("note")
    assert not again.sends_back("note")
    assert again.tally.known == len([each for each in proof.findings if each.waived is None])
    assert again.gone == ()


def test_a_finding_that_is_not_in_the_record_still_counts() -> None:
    proof = proofed(read(SAMPLE))
    known = read_record(record(proof))
    left_out = known[0]
    again = against(proof, known[1:], set())
    new = [each for each in again.findings if each.counts]
    assert [each.fingerprint for each in new] == [left_out.fingerprint]


def test_what_has_become_more_certain_or_graver_is_not_known_any_more() -> None:
    proof = proofed(read(SAMPLE))
    proof = replace(proof, findings=tuple(each for each in proof.findings if each.outcome == "fails"))
    doubts = tuple(replace(each, outcome="may fail") for each in proof.findings)
    before = read_record(record(replace(proof, findings=doubts)))
    now = against(proof, before, set())
    assert [each.counts for each in now.findings] == [each.counts for each in proof.findings]
    light = read_record(record(replace(proof, findings=tuple(replace(each, grade="note") for each in proof.findings))))
    graver = [each.grade for each in against(proof, light, set()).findings if each.counts]
    assert "stop" in graver
    assert "note" not in graver


def test_fingerprints_survive_lines_that_moved() -> None:
    text = SAMPLE.read_text("utf-8")
    moved = text.replace("\nrig A\n", "\n# a remark\n\n\nrig A\n", 1)
    assert moved != text
    path, real = str(SAMPLE), SAMPLE.resolve()
    before = proofed(make_list(gather(path, str(real), text.encode(), fetcher(real.parent))), DAY)
    after = proofed(make_list(gather(path, str(real), moved.encode(), fetcher(real.parent))), DAY)
    assert {each.fingerprint for each in before.findings} == {each.fingerprint for each in after.findings}
    assert [each.where for each in before.findings] != [each.where for each in after.findings]


def test_no_two_findings_have_one_fingerprint() -> None:
    findings = proofed(read(SAMPLE)).findings
    assert len({each.fingerprint for each in findings}) == len(findings)


def test_what_no_longer_occurs_is_said_for_the_lists_proofed_only() -> None:
    proof = proofed(read(SAMPLE))
    known = read_record(record(proof))
    key = proof.findings[0].key
    mended = proofed(read(SAMPLE.with_name("nine-bells-mended.kitlist")))
    assert against(mended, known, set()).gone == ()
    gone = against(mended, known, {key}).gone
    assert f"overload-at-height in rig A of {key}" in gone


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("no JSON at all", "it is not JSON as --record writes it"),
        ("[]", 'it does not say "schema"'),
        (json.dumps({"schema": "kitproof/known/2", "findings": []}), 'it does not say "schema"'),
        (json.dumps({"schema": SCHEMA, "findings": {}}), 'it does not say "schema"'),
        (json.dumps({"schema": SCHEMA, "findings": [{"rule": "a"}]}), "its finding 1 has no fingerprint"),
    ],
)
def test_a_record_that_cannot_be_used_says_why(text: str, says: str) -> None:
    with pytest.raises(BadRecordError) as refused:
        read_record(text)
    assert str(refused.value).startswith(says)
