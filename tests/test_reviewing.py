"""`kitproof compare`: two lists, or one and a revision; its three forms; and what is said where it cannot run."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from markdown_it import MarkdownIt

from kitproof.command import main
from kitproof.showing.compared_markdown import plain
from kitproof.showing.schemas import schema
from tests.comparing.sides import WHOLE
from tests.house.repository import ROOT
from tests.repositories import commit, git, repository, write

SAMPLES = ROOT / "samples"
FAULTS, MENDED = SAMPLES / "nine-bells-faults.kitlist", SAMPLES / "nine-bells-mended.kitlist"
NOW = WHOLE.replace('  lens "Pell 50"\n', '  lens "Pell 85"\n').replace("mass 4.2 kg", "mass 24 kg")


def compare(*words: str | Path) -> Result:
    return CliRunner().invoke(main, ["compare", *map(str, words), "--on", "2027-03-01"], catch_exceptions=False)


def printed(*words: str | Path) -> str:
    result = compare(*words)
    assert (result.exit_code, result.stderr) == (0, "")
    return result.stdout


def refused(*words: str | Path) -> str:
    result = compare(*words)
    assert (result.exit_code, result.stdout) == (2, "")
    return result.stderr


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with a list in two revisions, and in its folder."""
    made = repository(tmp_path / "house", pier=WHOLE)
    commit(made, "second", pier=NOW)
    monkeypatch.chdir(made)
    return made


# Two lists


def test_two_lists_are_compared_in_words_of_the_trade() -> None:
    text = printed(FAULTS, MENDED)
    assert '\nrig A\n  head "Corbane 30" in place of "Fallow 12"\n' in text
    assert re.search(r"\n  load share +\d[^\n]*; was \d", text)
    assert re.search(r"\n  case mass +\d[^\n]*; was \d", text)
    assert "\nWent   STOP rig A: the head cannot hold this build (overload-at-height)\n" in text
    assert text.endswith("Worked out on paper; nothing was load-tested.\n")


@pytest.mark.parametrize("pair", [(FAULTS, MENDED), (MENDED, FAULTS)], ids=["mended", "spoilt"])
def test_no_line_is_wider_than_a_page(pair: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    text = printed(*(path.relative_to(ROOT) for path in pair))
    assert max(map(len, text.splitlines())) <= 80


def test_a_list_and_itself_say_so(folder: Path) -> None:
    text = printed("pier.kitlist", "pier.kitlist")
    assert "The build, its numbers and its findings are as they were." in text
    assert json.loads(printed("pier.kitlist", "pier.kitlist", "--as", "json"))["same"] is True


# JSON


@pytest.mark.parametrize("pair", [(FAULTS, MENDED), (MENDED, FAULTS)], ids=["mended", "spoilt"])
def test_json_keeps_to_its_schema(pair: tuple[Path, Path]) -> None:
    data = json.loads(printed(*pair, "--as", "json"))
    reader = Draft202012Validator(schema("kitproof/compared/1"))
    assert [f"{fault.json_path}: {fault.message}" for fault in reader.iter_errors(data)] == []
    assert {each["kind"] for each in data["things"]} == {"list", "rig", "case", "part"}
    data["things"][0]["colour"] = "red"
    assert not reader.is_valid(data)


def test_json_and_text_tell_the_same() -> None:
    data = json.loads(printed(FAULTS, MENDED, "--as", "json"))
    text = " ".join(printed(FAULTS, MENDED).split())
    for each in data["things"]:
        for one in each["differences"]:
            assert (one["now"] or one["was"]) in text
    for each in data["findings"]["changed"]:
        assert f"({each['rule']})" in text


# Markdown, read by another reader


def tokens(text: str) -> list[Any]:
    return MarkdownIt("gfm-like", {"linkify": False}).parse(text)


def test_markdown_is_headings_lists_and_tables() -> None:
    text = printed(FAULTS, MENDED, "--as", "markdown")
    kinds = {token.type for token in tokens(text)}
    assert {"heading_open", "bullet_list_open", "table_open"} <= kinds
    headings = [token.content for before, token in zip(tokens(text), tokens(text)[1:]) if before.type == "heading_open"]  # noqa: B905  # the second is one shorter
    assert headings[0] == "Findings"
    assert "rig A" in headings
    cells = [token for token in tokens(text) if token.type in ("td_open", "tr_open")]
    rows = sum(token.type == "tr_open" for token in cells)
    assert rows > 20


@settings(max_examples=40)
@given(st.text(st.characters(codec="utf-8"), min_size=1))
def test_no_text_of_a_list_is_more_than_text(text: str) -> None:
    said = plain(text)
    (paragraph,) = [token for token in tokens(f"x {said} x") if token.type == "inline"]
    assert {child.type for child in paragraph.children or []} <= {"text", "text_special"}
    shown = "".join(child.content for child in paragraph.children or [])
    assert " ".join(shown.split()) == " ".join(f"x {text} x".replace("\x00", "\ufffd").split())
    assert "@" not in said
    assert not re.search(r"[#!]\d", said.replace("&#", ""))


@pytest.mark.parametrize(
    "text",
    ["- 4", "+ 4", "=== x", "4. x", "4) x", "# x", "> x", "---", "| x | y |", "<b>x</b>", "[x](y)", "!x", "```x"],
)
def test_no_text_of_a_list_begins_a_list_or_a_heading(text: str) -> None:
    kinds = [token.type for token in tokens(f"- {plain(text)}\n")]
    around = ["bullet_list_open", "list_item_open", "paragraph_open"]
    assert kinds == [*around, "inline", *(each.replace("_open", "_close") for each in reversed(around))]
    shown = "".join(child.content for child in tokens(f"- {plain(text)}\n")[3].children or [])
    assert shown == text


# One list and its history


def test_a_list_is_compared_with_what_it_was(folder: Path) -> None:
    text = printed("pier.kitlist", "--before", "first")
    assert text.startswith('Before pier.kitlist, issue 3: Pier, at the revision "first"\n')
    assert 'lens "Pell 85" in place of "Pell 50"' in text
    assert "Came   STOP rig A: the head cannot hold this build (overload-at-height)" in text
    assert "as they were" in printed("pier.kitlist", "--before", "HEAD")


def test_two_revisions_are_compared_whatever_stands_there_now(folder: Path) -> None:
    (folder / "pier.kitlist").unlink()
    there = printed("pier.kitlist", "--before", "first", "--after", "second")
    assert 'lens "Pell 85" in place of "Pell 50"' in there
    back = printed("pier.kitlist", "--before", "second", "--after", "first")
    assert 'lens "Pell 50" in place of "Pell 85"' in back
    assert "Went   STOP rig A" in back


def test_a_parts_book_is_taken_as_it_was(folder: Path) -> None:
    rig = 'rig A\n  camera "Quillon S2"\n'
    commit(
        folder, "third", mole=f'list "Mole"\nuse "book.kitlist"\n{rig}', book='part camera "Quillon S2"\n  mass 4 kg\n'
    )
    write(folder, "book.kitlist", 'part camera "Quillon S2"\n  mass 5 kg\n')
    assert "mass: 5 kg; was 4 kg" in printed("mole.kitlist", "--before", "HEAD")


# What cannot be done is said


def test_outside_version_control_it_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(tmp_path, "pier.kitlist", WHOLE)
    monkeypatch.chdir(tmp_path)
    assert refused("pier.kitlist", "--before", "HEAD") == "This folder keeps no history. Give two files to compare.\n"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "Which lists? Name two"),
        (("pier.kitlist",), "Which lists? Name two"),
        (("a", "b", "c"), "Which lists? Name two"),
        ((".", "pier.kitlist"), "Which lists? Name two"),
        (("-", "pier.kitlist"), "Which lists? Name two"),
        (("pier.kitlist", "pier.kitlist", "--before", "first"), "Which lists? Name two"),
        (("pier.kitlist", "pier.kitlist", "--after", "first"), "say --before REV as well"),
        (("pier.kitlist", "peer.kitlist"), 'The nearest here is "pier.kitlist".'),
        (("pier.kitlist", "--before", "frist"), 'There is no revision "frist" here. The nearest: first.'),
        (("pier.kitlist", "--before", "first", "--after", "scond"), 'There is no revision "scond" here.'),
        (("mole.kitlist", "--before", "first"), '"mole.kitlist" was not there at the revision "first".'),
        (("no/such/folder/mole.kitlist", "--before", "first"), "was not there at the revision"),
    ],
)
def test_what_it_cannot_compare_it_says(folder: Path, words: tuple[str, ...], says: str) -> None:
    complaint = refused(*words)
    assert says in complaint
    assert len(complaint.splitlines()) == 1


def test_a_list_that_came_later_was_not_there_then(folder: Path) -> None:
    commit(folder, "third", mole=WHOLE)
    assert refused("mole.kitlist", "--before", "first") == '"mole.kitlist" was not there at the revision "first".\n'
    assert "as they were" in printed("mole.kitlist", "--before", "third")


def test_a_shallow_clone_says_how_to_get_the_rest(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    git(tmp_path, "clone", "--quiet", "--depth", "1", folder.resolve().as_uri(), "shallow")
    monkeypatch.chdir(tmp_path / "shallow")
    assert "This clone is shallow" in refused("pier.kitlist", "--before", "HEAD~1")


def test_a_list_that_is_no_list_is_compared_all_the_same(folder: Path) -> None:
    (folder / "bytes.kitlist").write_bytes(bytes(range(256)))
    assert printed("pier.kitlist", "bytes.kitlist")
    assert printed("bytes.kitlist", "pier.kitlist", "--as", "markdown")
