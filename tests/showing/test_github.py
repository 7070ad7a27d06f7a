"""Workflow commands, read back by the rules that GitHub's own runner reads them by, as remembered: a line that begins
with `::` is a command up to the next `::`; its properties are joined by commas; %25, %0D, %0A, and in properties %3A
and %2C, stand for the characters."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.showing.github import MOST, command
from tests.house.repository import short
from tests.proofing.lists import read_bytes
from tests.showing.services import FAULTS, LISTS, TWO, finding, made, printed, shown, text_of

KIND = {"stop": "error", "wrong": "error", "watch": "warning", "note": "notice"}


class Annotation(NamedTuple):
    kind: str
    places: dict[str, str]
    text: str


def unescaped(text: str, more: bool) -> str:
    for written, meant in [("%0D", "\r"), ("%0A", "\n"), *([("%3A", ":"), ("%2C", ",")] if more else []), ("%25", "%")]:
        text = text.replace(written, meant)
    return text


def read(text: str) -> list[Annotation]:
    """The commands among the lines."""
    found = []
    for line in re.split(r"\r\n|\r|\n", text):
        match = re.match(r"\s*::([a-z]+)(?: ([^\n]*?))?::(.*)", line)
        if match:
            pairs = [each.split("=", 1) for each in (match[2] or "").split(",")]
            places = {name: unescaped(value, True) for name, value in pairs}
            found.append(Annotation(match[1], places, unescaped(match[3], False)))
    return found


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_no_kind_has_more_than_the_service_shows(path: Path) -> None:
    found = read(printed("github", path))
    for kind in ("error", "warning", "notice"):
        assert sum(each.kind == kind for each in found) <= MOST


@pytest.mark.parametrize("path", LISTS, ids=short)
def test_every_finding_is_there_or_summed_up(path: Path) -> None:
    text = printed("github", path)
    found = [
        each
        for each in json.loads(printed("json", path))["findings"]
        if each["waived"] is None and (each["outcome"] != "cannot tell" or each["counts"])
    ]
    for kind in ("error", "warning", "notice"):
        mine = [each for each in read(text) if each.kind == kind]
        more = sum(int(each.places["title"].split()[0]) for each in mine if "more findings" in each.places["title"])
        shown_here = [each for each in mine if "file" in each.places]
        assert len(shown_here) + more == sum(KIND[each["counts_as"]] == kind for each in found)


def test_the_gravest_are_shown_and_the_rest_is_named_in_one() -> None:
    findings = [finding(number, "stop" if number > 12 else "wrong") for number in range(1, 61)]
    findings = sorted(findings, key=lambda each: each.grade)
    found = read(text_of("github", made(read_bytes(b'list "Pier"\n'), *findings)))
    assert len(found) == MOST
    assert all(each.places["title"].startswith("STOP") for each in found[:-1])
    assert found[-1].places == {"title": "51 more findings than are shown here"}
    assert found[-1].text.count("impossible-mass") == 20
    assert found[-1].text.endswith("and 31 more")


def test_ten_are_all_shown() -> None:
    found = read(text_of("github", made(read_bytes(b'list "Pier"\n'), *(finding(number) for number in range(1, 11)))))
    assert [each.places["line"] for each in found] == [str(number) for number in range(1, 11)]


def test_an_annotation_has_its_place_its_headline_and_the_issue_of_the_list() -> None:
    first = read(printed("github", FAULTS))[0]
    assert first.kind == "error"
    assert first.places["file"].endswith("samples/nine-bells-faults.kitlist")
    assert set(first.places) == {"file", "line", "endLine", "col", "endColumn", "title"}
    assert first.places["title"] == "STOP rig A: the head cannot hold this build"
    assert first.text.splitlines()[-1].startswith("Rule overload-at-height. List: ")
    assert ", issue 4: " in first.text


def test_columns_are_given_within_one_line_only() -> None:
    where = finding().where._replace(to_line=3)
    (only,) = read(text_of("github", made(read_bytes(b'list "Pier"\n'), finding(where=where))))
    assert set(only.places) == {"file", "line", "endLine", "title"}


def test_what_is_waived_is_no_annotation() -> None:
    assert "impossible-mass" not in text_of("github", shown(TWO))
    assert "no-unit" in text_of("github", shown(TWO))


@given(st.text(), st.text())
def test_no_text_can_end_a_command_or_begin_another(text: str, title: str) -> None:
    line = command("error", text, [("file", "a,b:c%"), ("title", title)])
    assert not re.search(r"[\r\n]", line)
    (only,) = read(line)
    assert only.places["file"] == "a,b:c%"
    plain = re.compile(r"[^\S\r\n ]|[\x00-\x09\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")
    assert plain.sub("", only.text) == plain.sub("", text)
    assert plain.sub("", only.places["title"]) == plain.sub("", title)
