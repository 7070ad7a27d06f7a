"""The history of a folder, read with git: what is there, what has changed, and what is said where it cannot be read."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

from kitproof.history import NO_GIT, NONE_KEPT, History, NoHistoryError
from tests.repositories import commit, git, repository, write


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return repository(tmp_path / "house", orders__pier="# one\n", book="# one\n")


def changed(folder: Path, revision: str) -> set[str]:
    history = History(folder)
    found = history.changed_after(history.commit(revision))
    return {each.relative_to(folder.resolve()).as_posix() for each in found}


def test_the_top_is_found_from_any_folder_within(folder: Path) -> None:
    assert History(folder / "orders").top == folder.resolve()


def test_what_differs_is_new_or_gone_has_changed(folder: Path) -> None:
    commit(folder, "second", orders__quay="# two\n")
    write(folder, "orders/pier.kitlist", "# three\n")
    write(folder, "é new\n.kitlist", "# four\n")
    (folder / "book.kitlist").unlink()
    assert changed(folder, "second") == {"orders/pier.kitlist", "é new\n.kitlist", "book.kitlist"}
    assert changed(folder, "first") == {"orders/pier.kitlist", "é new\n.kitlist", "book.kitlist", "orders/quay.kitlist"}


def test_what_is_as_it_was_has_not_changed_nor_has_what_is_ignored(folder: Path) -> None:
    write(folder, ".gitignore", "*.tmp\n")
    write(folder, "scratch.tmp", "x")
    assert changed(folder, "HEAD") == {".gitignore"}


def test_a_file_is_given_as_it_was(folder: Path) -> None:
    commit(folder, "second", orders__pier="# two\r\n")
    history = History(folder)
    pier = folder.resolve() / "orders" / "pier.kitlist"
    assert history.file(history.commit("first"), pier) == b"# one\n"
    assert history.file(history.commit("second"), pier) == b"# two\r\n"
    pier.unlink()
    assert history.file(history.commit("HEAD~1"), pier) == b"# one\n"


def test_only_a_plain_file_inside_is_given(folder: Path, tmp_path: Path) -> None:
    (folder / "link.kitlist").symlink_to("book.kitlist")
    commit(folder, "second")
    history = History(folder)
    head, top = history.commit("HEAD"), folder.resolve()
    assert history.file(head, top / "book.kitlist") == b"# one\n"
    for path in (top / "link.kitlist", top / "orders", top / "none.kitlist", tmp_path / "book.kitlist"):
        assert history.file(head, path) is None


@pytest.mark.parametrize("revision", ["no such", "-x", "--all", "", "HEAD:book.kitlist", "main..first", "first\n"])
def test_a_revision_that_is_not_there_is_said(folder: Path, revision: str) -> None:
    with pytest.raises(NoHistoryError, match="There is no revision") as problem:
        History(folder).commit(revision)
    assert not problem.value.none


def test_the_nearest_revision_is_named(folder: Path) -> None:
    with pytest.raises(NoHistoryError, match=r'There is no revision "frist" here\. The nearest: first\.'):
        History(folder).commit("frist")


def test_a_shallow_clone_says_how_to_get_the_rest(folder: Path, tmp_path: Path) -> None:
    commit(folder, "second", book="# two\n")
    git(tmp_path, "clone", "--quiet", "--depth", "1", folder.resolve().as_uri(), "shallow")
    history = History(tmp_path / "shallow")
    assert history.commit("HEAD") == git(folder, "rev-parse", "second")
    with pytest.raises(NoHistoryError, match=r"This clone is shallow.* git fetch --unshallow"):
        history.commit("HEAD~1")


def test_a_folder_in_no_repository_keeps_no_history(tmp_path: Path) -> None:
    with pytest.raises(NoHistoryError) as problem:
        History(tmp_path)
    assert (str(problem.value), problem.value.none) == (NONE_KEPT, True)


def test_a_machine_without_git_says_so(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(folder))
    with pytest.raises(NoHistoryError) as problem:
        History(folder)
    assert (str(problem.value), problem.value.none) == (NO_GIT, True)


def test_a_damaged_repository_is_said_in_git_s_words(folder: Path) -> None:
    (folder / ".git" / "config").write_text("[core\n")
    with pytest.raises(NoHistoryError, match=r"cannot be read\. Git says: bad config") as problem:
        History(folder)
    assert not problem.value.none


def test_what_a_hook_is_told_does_not_lead_to_another_repository(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = repository(tmp_path / "other")
    monkeypatch.setenv("GIT_DIR", str(other / ".git"))
    monkeypatch.setenv("GIT_INDEX_FILE", "no such index")
    assert History(folder).top == folder.resolve()
    assert changed(folder, "first") == set()


def test_no_program_that_a_repository_names_is_run(folder: Path) -> None:
    """`git diff` by itself would run these; the same repository proves that they would be seen."""
    mark = folder / "ran"
    script = write(folder, "spy.sh", f"#!/bin/sh\necho ran > '{mark}'\n")
    script.chmod(0o755)
    for key in ("diff.external", "core.fsmonitor", "diff.kitlist.textconv"):
        git(folder, "config", key, str(script.resolve()))
    write(folder, ".gitattributes", "*.kitlist diff=kitlist\n")
    write(folder, "book.kitlist", "# two\n")
    assert "book.kitlist" in changed(folder, "first")
    assert not mark.exists()
    subprocess.run(["git", "diff"], cwd=folder, env={**os.environ}, capture_output=True, check=False)
    assert mark.exists()
