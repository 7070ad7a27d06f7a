"""The code quality report, held to the schema that GitLab's documentation describes in words, from memory."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.house.repository import ROOT, short
from tests.proofing.lists import read_bytes
from tests.showing.services import FAULTS, LISTS, TWO, finding, made, printed, shown, text_of

TEXT = {"type": "string", "minLength": 1}
LINE = {"type": "integer", "minimum": 1}
SCHEMA = {
    "type": "array",
    "items": {
        "type": "object",
        "required": ["description", "check_name", "fingerprint", "severity", "location"],
        "properties": {
            "description": TEXT,
            "check_name": TEXT,
            "fingerprint": TEXT,
            "severity": {"enum": ["info", "minor", "major", "critical", "blocker"]},
            "location": {
                "type": "object",
                "required": ["path", "lines"],
                "properties": {
                    "path": {**TEXT, "not": {"pattern": r"^\./"}},
                    "lines": {"type": "object", "required": ["begin"], "properties": {"begin": LINE, "end": LINE}},
                },
            },
        },
    },
}


def issues(text: str) -> list[Any]:
    found: list[Any] = json.loads(text)
    assert [fault.message for fault in Draft202012Validator(SCHEMA).iter_errors(found)] == []
    return found


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_every_finding_that_stands_is_an_issue(path: Path) -> None:
    found = [each for each in json.loads(printed("json", path))["findings"] if each["waived"] is None]
    assert [each["check_name"] for each in issues(printed("gitlab", path))] == [each["rule"] for each in found]


def test_fingerprints_are_unique_over_all_lists_of_a_run() -> None:
    marks = [each["fingerprint"] for each in issues(printed("gitlab", ROOT / "samples", ROOT / "rules" / "support"))]
    assert len(marks) > 50
    assert len(set(marks)) == len(marks)


def test_two_findings_that_are_alike_have_two_fingerprints() -> None:
    one, two = issues(text_of("gitlab", made(read_bytes(b'list "Pier"\n'), finding(1), finding(1))))
    assert one["fingerprint"] != two["fingerprint"]


def test_a_finding_keeps_its_fingerprint_when_lines_move() -> None:
    before, after = (issues(text_of("gitlab", shown(text))) for text in (TWO, f"# moved\n\n{TWO}"))
    assert [each["fingerprint"] for each in before] == [each["fingerprint"] for each in after]
    assert [each["location"]["lines"]["begin"] + 2 for each in before] == [
        each["location"]["lines"]["begin"] for each in after
    ]


def test_the_grades_are_severities() -> None:
    grades = ("stop", "wrong", "watch", "note")
    given = made(read_bytes(b'list "Pier"\n'), *(finding(number, each) for number, each in enumerate(grades, 1)))
    assert [each["severity"] for each in issues(text_of("gitlab", given))] == ["blocker", "major", "minor", "info"]


def test_the_issue_of_the_list_is_said() -> None:
    assert "(issue 4 of the list)" in issues(printed("gitlab", FAULTS))[0]["description"]
