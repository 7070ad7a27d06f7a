"""What a repository ignores is left out of a folder that is searched. Git itself says what it ignores."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitproof.files import NoSuchPathError, lists_in
from tests.repositories import git, repository, write

FILES = ("a.kitlist", "b.kitlist", "old/a.kitlist", "old/b.kitlist", "old/deep/a.kitlist", "new/a.kitlist")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    made = repository(tmp_path / "house")
    for name in FILES:
        write(made, name, "# nothing\n")
    monkeypatch.chdir(made)
    return made


def found(name: str = ".") -> set[str]:
    return {each.as_posix() for each in lists_in((name,))}


def seen_by_git(folder: Path) -> set[str]:
    return set(git(folder, "ls-files", "--others", "--exclude-standard", "*.kitlist").splitlines())


def test_with_nothing_ignored_all_are_found(folder: Path) -> None:
    assert found() == set(FILES) == seen_by_git(folder)


LINES = (
    "a.kitlist",
    "/a.kitlist",
    "old/",
    "old/*",
    "!old/a.kitlist",
    "**/deep",
    "!a.kitlist",
    "# said",
    "",
    "*.kitlist",
    "b*",
)


@settings(max_examples=25)
@given(top=st.lists(st.sampled_from(LINES), max_size=4), inner=st.lists(st.sampled_from(LINES), max_size=3))
def test_it_leaves_out_what_git_ignores(
    tmp_path_factory: pytest.TempPathFactory, top: list[str], inner: list[str]
) -> None:
    folder = repository(tmp_path_factory.mktemp("house"))
    for name in FILES:
        write(folder, name, "# nothing\n")
    write(folder, ".gitignore", "\n".join(top) + "\n")
    write(folder, "old/.gitignore", "\n".join(inner) + "\n")
    try:
        mine = {each.relative_to(folder).as_posix() for each in lists_in((str(folder),))}
    except NoSuchPathError:
        mine = set()
    assert mine == seen_by_git(folder)


def test_a_file_above_the_searched_folder_counts_up_to_the_top(folder: Path) -> None:
    write(folder.parent, ".gitignore", "b.kitlist\n")
    write(folder, ".gitignore", "/old/deep/\na.kitlist\n")
    assert found("old") == {"old/b.kitlist"}


def test_a_list_that_is_named_is_proofed_all_the_same(folder: Path) -> None:
    write(folder, ".gitignore", "*.kitlist\n")
    assert found("old/a.kitlist") == {"old/a.kitlist"}


def test_a_folder_that_is_named_is_searched_all_the_same(folder: Path) -> None:
    write(folder, ".gitignore", "old/\n")
    write(folder, "old/.gitignore", "deep\n")
    assert found() == {"a.kitlist", "b.kitlist", "new/a.kitlist"}
    assert found("old") == {"old/a.kitlist", "old/b.kitlist"}
    assert found("old/deep") == {"old/deep/a.kitlist"}


def test_outside_a_repository_the_folder_s_own_file_counts(tmp_path: Path) -> None:
    for name in ("orders/a.kitlist", "orders/b.kitlist"):
        write(tmp_path, name, "# nothing\n")
    write(tmp_path, ".gitignore", "a.kitlist\n")
    write(tmp_path, "orders/.gitignore", "b.kitlist\n")
    assert [each.name for each in lists_in((str(tmp_path / "orders"),))] == ["a.kitlist"]


def test_a_folder_of_which_all_is_left_out_says_why(folder: Path) -> None:
    write(folder, ".gitignore", "*.kitlist\n")
    with pytest.raises(NoSuchPathError, match=r"\.gitignore leaves it out"):
        found()


@pytest.mark.parametrize("data", [b"\xff\xfe\x00[\x00", b"[\n[z-a]\n\\\n!\n/\n", b"\r\n*.tmp\r\n"])
def test_a_file_of_no_sense_stops_nothing(folder: Path, data: bytes) -> None:
    (folder / ".gitignore").write_bytes(data)
    assert found() == seen_by_git(folder)
