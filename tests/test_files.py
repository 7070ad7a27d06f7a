"""Files as they come: missing, unreadable, looping, outside, not text at all. Each is said, and the rest is proofed."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from kitproof.command import main
from kitproof.files import NoSuchPathError, lists_in

ON = ("--on", "2027-03-01", "--as", "json")
SLATE = b'part accessory "slate"\n  mass 1,2 kg\n'
SAID = ("number-misread", 2)
"""What SLATE gives, wherever it stands: the sign that the rest was read."""


@pytest.fixture(autouse=True)
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, with a folder above it that does not belong to the list."""
    here = tmp_path / "orders"
    here.mkdir()
    monkeypatch.chdir(here)
    return here


def write(name: str, data: bytes | str) -> Path:
    path = Path(name)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data.encode() if isinstance(data, str) else data)
    return path


def printed(*paths: str) -> Any:
    """The JSON of a proof. Nothing is caught: an exception fails the test."""
    result = CliRunner().invoke(main, ["proof", *paths, *ON], catch_exceptions=False)
    assert result.exit_code in (0, 1), result.output
    return json.loads(result.stdout)


def found(*paths: str) -> set[tuple[str, str, int]]:
    """Rule, file and line of every finding."""
    places = [(each["rule"], each["where"]) for each in printed(*paths)["findings"]]
    return {(rule, where["path"], where["from"]["line"]) for rule, where in places}


def refused(*paths: str) -> str:
    """What is said where a path cannot be proofed at all."""
    result = CliRunner().invoke(main, ["proof", *paths, *ON], catch_exceptions=False)
    assert (result.exit_code, result.stdout) == (2, "")
    return result.stderr


# Files that a list uses


def using(*paths: str) -> set[tuple[str, int]]:
    """What is found in a list that uses these, and in its last lines holds a slip of its own."""
    uses = "".join(f'use "{path}"\n' for path in paths).encode()
    write("list.kitlist", uses + b"\n" * (8 - len(paths)) + SLATE)
    rules = {(rule, line) for rule, path, line in found("list.kitlist") if path == "list.kitlist"}
    assert ("number-misread", 10) in rules
    return rules - {("number-misread", 10)}


def test_a_used_file_that_is_not_there_is_found_at_its_use() -> None:
    assert using("stock/none.kitlist") == {("used-file-missing", 1)}


@pytest.mark.parametrize("path", ["../prices.kitlist", "stock/../../prices.kitlist", "../orders/../prices.kitlist"])
def test_a_used_file_above_the_list_is_not_read(path: str) -> None:
    write("../prices.kitlist", SLATE)
    assert using(path) == {("used-file-outside", 1)}


def test_a_used_file_by_its_absolute_path_is_not_read(desk: Path) -> None:
    book = write("book.kitlist", SLATE)
    assert using(str(book.resolve())) == {("used-file-outside", 1)}
    write("../prices.kitlist", SLATE)
    assert using(str(desk.parent / "prices.kitlist")) == {("used-file-outside", 1)}


def test_a_used_file_that_links_outside_is_not_read(desk: Path) -> None:
    write("../prices.kitlist", SLATE)
    Path("link.kitlist").symlink_to(desk.parent / "prices.kitlist")
    (desk / "stock").symlink_to(desk.parent)
    assert using("link.kitlist", "stock/prices.kitlist") == {("used-file-outside", 1), ("used-file-outside", 2)}


def test_a_used_file_that_links_inside_is_read() -> None:
    write("books/house.kitlist", SLATE)
    Path("link.kitlist").symlink_to("books/house.kitlist")
    assert using("link.kitlist") == set()
    assert ("number-misread", "link.kitlist", 2) in found("list.kitlist")


def test_a_root_mark_above_lets_a_list_use_what_lies_beside_its_folder() -> None:
    write("../kitproof.toml", "")
    write("../prices.kitlist", SLATE)
    assert using("../prices.kitlist") == set()


def test_a_folder_a_broken_link_or_a_pipe_is_no_file_to_use() -> None:
    Path("stock").mkdir()
    Path("broken.kitlist").symlink_to("nothing.kitlist")
    Path("round.kitlist").symlink_to("round.kitlist")
    os.mkfifo("pipe.kitlist")
    assert using("stock", "broken.kitlist", "round.kitlist", "pipe.kitlist") == {
        ("used-file-missing", 1),
        ("used-file-missing", 2),
        ("used-file-missing", 3),
        ("used-file-missing", 4),
    }


@pytest.mark.parametrize("path", ["", " ", ".", "a\0b", "x" * 300, "~/book.kitlist", "$HOME", "file:///etc/hosts"])
def test_a_path_that_can_be_no_file_is_a_finding(path: str) -> None:
    rules = using(path)
    assert {line for _, line in rules} == {1}


def test_a_list_that_uses_itself_is_cut_at_its_use() -> None:
    assert using("list.kitlist") == {("circular-use", 1)}


def test_a_ring_of_three_is_cut_where_it_closes() -> None:
    write("one.kitlist", b'use "two.kitlist"\n' + SLATE)
    write("two.kitlist", b'use "three.kitlist"\n')
    write("three.kitlist", b'use "one.kitlist"\n')
    assert found("one.kitlist") >= {("circular-use", "three.kitlist", 1), ("number-misread", "one.kitlist", 3)}


def test_a_book_used_on_two_ways_is_read_once() -> None:
    write("one.kitlist", b'use "two.kitlist"\nuse "three.kitlist"\n')
    write("two.kitlist", b'use "book.kitlist"\n')
    write("three.kitlist", b'use "./book.kitlist"\n')
    write("book.kitlist", SLATE)
    data = printed("one.kitlist")
    assert [each["rule"] for each in data["findings"] if each["rule"] != "nothing-listed"] == ["number-misread"]


def test_a_slip_in_a_shared_book_is_one_finding_for_two_lists() -> None:
    write("book.kitlist", SLATE)
    write("a.kitlist", b'use "book.kitlist"\n\nrig A\n  accessory "slate"\n')
    write("b.kitlist", b'use "book.kitlist"\n\nrig B\n  accessory "slate"\n')
    data = printed("a.kitlist", "b.kitlist", "book.kitlist")
    assert [each["rule"] for each in data["findings"]] == ["number-misread"]
    assert data["tally"]["wrong"] == 1


def test_a_chain_of_many_books_is_followed() -> None:
    for number in range(300):
        write(f"{number}.kitlist", f'use "{number + 1}.kitlist"\n')
    write("300.kitlist", SLATE)
    assert ("number-misread", "300.kitlist", 2) in found("0.kitlist")


# Lists as they come


def test_bytes_that_are_no_text_are_a_finding_and_the_rest_is_read() -> None:
    write("list.kitlist", b'part accessory "Ol\xe9 flag"\n  mass 0.4 kg\n\n' + SLATE)
    assert found("list.kitlist") == {("not-utf-8", "list.kitlist", 1), ("number-misread", "list.kitlist", 5)}


@pytest.mark.parametrize(
    "data", [b"\x00" * 400, bytes(range(256)) * 4, b"\xff\xfe\x00" * 50, b"\x7fELF\x02\x01\x01\x00"]
)
def test_what_is_no_list_at_all_is_said_and_not_read(data: bytes) -> None:
    write("list.kitlist", data)
    assert found("list.kitlist")


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "utf-16-le", "utf-32"])
def test_a_byte_order_mark_is_no_fault_and_wider_characters_are_said(encoding: str) -> None:
    write("list.kitlist", SLATE.decode().encode(encoding))
    rules = {rule for rule, _, _ in found("list.kitlist")}
    assert rules == {"number-misread"} if encoding == "utf-8-sig" else rules & {"not-utf-8", "unknown-word"}


@pytest.mark.parametrize("data", [b"", b"\n\n\n", b"# one\n  # two\n", b"   \n\t\n", b"\xef\xbb\xbf"])
def test_a_list_with_nothing_in_it_is_noted(data: bytes) -> None:
    write("list.kitlist", data)
    assert found("list.kitlist") == {("nothing-listed", "list.kitlist", 1)}
    assert printed("list.kitlist")["tally"]["note"] == 1


def test_a_null_character_is_a_finding_on_its_line() -> None:
    write("list.kitlist", b'part accessory "sl\0ate"\n  mass 1 kg\n\n' + SLATE)
    rules = found("list.kitlist")
    assert ("number-misread", "list.kitlist", 5) in rules
    assert {line for rule, _, line in rules if rule != "number-misread"} == {1}


@pytest.mark.parametrize(
    "line",
    [
        b"x" * 1_000_000,
        b"  mass " + b"1" * 1_000_000,
        b'  note "' + b"y" * 1_000_000 + b'"',
        b'use "' + b"z" * 1_000_000,
    ],
)
def test_a_line_of_a_million_characters_is_one_finding(line: bytes) -> None:
    write("list.kitlist", b'part accessory "a"\n' + line + b"\n\n" + SLATE)
    rules = found("list.kitlist")
    assert ("number-misread", "list.kitlist", 5) in rules
    assert {line for rule, _, line in rules if rule != "number-misread"} == {2}


@pytest.mark.parametrize("end", [b"\r\n", b"\r", b"\n"])
def test_every_kind_of_line_end_counts_the_same_lines(end: bytes) -> None:
    write("list.kitlist", SLATE.replace(b"\n", end))
    assert found("list.kitlist") == {("number-misread", "list.kitlist", 2)}


def test_a_list_with_a_name_in_other_letters_is_proofed() -> None:
    write("Überflut/ħeron – №5.kitlist", SLATE)
    assert found(".") == {("number-misread", "Überflut/ħeron – №5.kitlist", 2)}


def test_a_list_whose_name_is_no_text_is_proofed() -> None:
    """A name in an older character set, as old drives have it."""
    with open(b"ol\xe9.kitlist", "wb") as file:
        file.write(SLATE)
    for form in ("text", "json"):
        result = CliRunner().invoke(main, ["proof", ".", "--on", "2027-03-01", "--as", form], catch_exceptions=False)
        assert result.exit_code == 1
        assert "number-misread" in result.stdout


# Paths that cannot be proofed


def test_a_broken_link_is_said() -> None:
    Path("broken.kitlist").symlink_to("nothing.kitlist")
    assert "broken.kitlist" in refused("broken.kitlist")


def test_a_link_to_itself_is_said() -> None:
    Path("round.kitlist").symlink_to("round.kitlist")
    assert "round.kitlist" in refused("round.kitlist")


def test_a_broken_link_in_a_folder_is_said_and_hides_nothing() -> None:
    """One list of a folder that cannot be read stops the command: a folder half proofed would look whole."""
    Path("broken.kitlist").symlink_to("nothing.kitlist")
    write("list.kitlist", SLATE)
    assert "broken.kitlist" in refused(".")


def test_a_folder_that_is_called_like_a_list_is_searched() -> None:
    write("old.kitlist/list.kitlist", SLATE)
    assert found(".") == {("number-misread", "old.kitlist/list.kitlist", 2)}


@pytest.mark.parametrize("path", ["x" * 300, "a/" * 3000, "", "nowhere/list.kitlist"])
def test_a_path_that_can_be_no_file_is_refused(path: str) -> None:
    assert refused(path).count("\n") == 1


def test_a_loop_of_folders_is_walked_once() -> None:
    write("deep/list.kitlist", SLATE)
    Path("deep/again").symlink_to("..")
    assert found(".") == {("number-misread", "deep/list.kitlist", 2)}


# Examples of rules


def test_the_examples_of_a_rule_are_no_orders_unless_they_are_asked_for() -> None:
    for name in ("order", "own/backs/heavy.fails", "own/backs/heavy.holds", "own/backs/other.fails"):
        write(f"{name}.kitlist", SLATE)
    write("own/backs/heavy.rule", "")
    assert [path.as_posix() for path in lists_in((".",))] == ["order.kitlist", "own/backs/other.fails.kitlist"]
    own = ["own/backs/heavy.fails.kitlist", "own/backs/heavy.holds.kitlist", "own/backs/other.fails.kitlist"]
    assert [path.as_posix() for path in lists_in(("own/backs",))] == own
    assert [path.as_posix() for path in lists_in((own[0],))] == own[:1]


def test_a_folder_of_nothing_but_examples_has_no_list() -> None:
    write("own/backs/heavy.fails.kitlist", SLATE)
    write("own/backs/heavy.rule", "")
    with pytest.raises(NoSuchPathError, match="There is no list in the folder own"):
        list(lists_in(("own",)))
