"""JUnit, read by `junitparser`, which has nothing to do with Kitproof."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from junitparser import Failure, JUnitXml, Skipped, TestCase, TestSuite

from kitproof.showing.junit import printable
from tests.house.repository import short
from tests.proofing.lists import read_bytes
from tests.showing.services import FAULTS, LISTS, MENDED, TWO, finding, made, printed, shown, text_of


def suites(text: str) -> list[TestSuite]:
    """What the independent reader makes of a report."""
    return list(JUnitXml.fromstring(text.encode("utf-8")))


def cases(text: str) -> list[TestCase]:
    return [case for suite in suites(text) for case in suite]


def failures(text: str) -> list[str]:
    return [result.type for case in cases(text) for result in case.result if isinstance(result, Failure)]


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_every_finding_is_a_case_and_fails_where_it_sends_the_list_back(path: Path) -> None:
    text = printed("junit", path)
    found = json.loads(printed("json", path))["findings"]
    back = [each["rule"] for each in found if each["counts"] and each["counts_as"] in ("stop", "wrong")]
    assert failures(text) == back
    assert len(cases(text)) == max(1, len(found))
    names = [(case.classname, case.name) for case in cases(text)]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_the_counts_are_what_the_reader_counts(path: Path) -> None:
    report = JUnitXml.fromstring(printed("junit", path).encode("utf-8"))
    said = (report.tests, report.failures, report.skipped, report.errors)
    report.update_statistics()  # type: ignore[no-untyped-call]  # the package has types, but not for this one
    assert (report.tests, report.failures, report.skipped, report.errors) == said


def test_there_is_a_suite_for_each_list_under_its_heading() -> None:
    found = suites(printed("junit", FAULTS, MENDED))
    assert [suite.name.split(": ")[-1] for suite in found] == ["Nine Bells at Corrow, main unit"] * 2
    assert [", issue " in suite.name for suite in found] == [True, True]


def test_a_list_with_no_finding_has_a_case_that_holds() -> None:
    (case,) = cases(text_of("junit", made(read_bytes(b'list "Pier"\n'))))
    assert (case.name, case.result) == ("no findings", [])


def test_what_is_waived_or_waits_is_skipped_with_its_reason() -> None:
    skipped = [result.message for case in cases(text_of("junit", shown(TWO))) for result in case.result]
    assert "waived by the first assistant, until 2027-03-12: weighed again, on Monday" in skipped
    waiting = printed("junit", *[path for path in LISTS if path.name == "lens-unsupported.fails.kitlist"] or [FAULTS])
    for case in cases(waiting):
        for result in case.result:
            assert isinstance(result, Failure | Skipped)
            assert result.message


def test_the_grade_that_sends_back_decides_what_fails() -> None:
    by_grade = [failures(text_of("junit", shown(TWO, grade))) for grade in ("stop", "wrong", "note")]
    assert by_grade[0] == []
    assert len(by_grade[1]) <= len(by_grade[2])
    assert by_grade[1]


def test_characters_that_xml_cannot_hold_are_left_out() -> None:
    text = text_of("junit", made(read_bytes(b'list "Pier"\n'), finding(says="a\x00b\x1b[31m \ud800 \ufffe\x0b<&]]>")))
    (failure,) = cases(text)[0].result
    assert "ab[31m  <&]]>" in failure.text


@given(st.text())
def test_what_is_printable_can_be_read_back(text: str) -> None:
    element = ElementTree.Element("said")
    element.text = printable(text)
    read = ElementTree.fromstring(ElementTree.tostring(element, encoding="utf-8")).text or ""
    assert read.replace("\r\n", "\n").replace("\r", "\n") == printable(text).replace("\r\n", "\n").replace("\r", "\n")
    assert printable(printable(text)) == printable(text)
