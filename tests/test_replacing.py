"""A file is replaced whole or not at all."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from kitproof.files import lists_in
from kitproof.replacing import NotReplacedError, replace_file
from tests.house.repository import ROOT

OLD, NEW = b"rig A\r\n", b"\xef\xbb\xbfrig B\n"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "order.kitlist"
    path.write_bytes(OLD)
    return path


def beside(path: Path) -> dict[str, bytes]:
    """The files beside one, itself among them."""
    return {each.name: each.read_bytes() for each in path.parent.iterdir()}


def test_killed_at_200_points_the_file_is_the_old_one_or_the_new_one(tmp_path: Path) -> None:
    """Each time at another of all the steps of putting a mended list in place; what is kept of the old one is never
    half of it."""
    said = subprocess.run(
        [sys.executable, "-m", "tests.mending.killed", str(tmp_path), "200", "1"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    ).stdout
    counts = {name: int(many) for name, many in re.findall(r"([a-z][a-z ]*) (\d+)", said)}
    assert set(counts) == {"new", "old"}
    assert sum(counts.values()) == 200


def test_the_new_bytes_stand_there_and_nothing_else_is_left(path: Path) -> None:
    assert replace_file(path, OLD, NEW) is None
    assert beside(path) == {"order.kitlist": NEW}


def test_the_old_file_is_kept_under_a_name_that_says_so_and_is_no_list(path: Path) -> None:
    kept = replace_file(path, OLD, NEW, keep=True)
    assert kept is not None
    assert beside(path) == {"order.kitlist": NEW, "order.kitlist.before-mending": OLD}
    assert [each.name for each in lists_in((str(path.parent),))] == ["order.kitlist"]


def test_what_was_kept_before_is_not_written_over(path: Path) -> None:
    replace_file(path, OLD, NEW, keep=True)
    replace_file(path, NEW, b"third", keep=True)
    assert beside(path) == {
        "order.kitlist": b"third",
        "order.kitlist.before-mending": OLD,
        "order.kitlist.before-mending-2": NEW,
    }
    path.write_bytes(OLD)
    replace_file(path, OLD, NEW, keep=True)
    assert len(beside(path)) == 3


@pytest.mark.parametrize("mode", [0o600, 0o664])
def test_permissions_are_kept(path: Path, mode: int) -> None:
    path.chmod(mode)
    kept = replace_file(path, OLD, NEW, keep=True)
    assert kept is not None
    assert {each.stat().st_mode & 0o777 for each in (path, kept)} == {mode}


def test_a_link_is_followed(path: Path, tmp_path: Path) -> None:
    link = tmp_path / "elsewhere" / "today.kitlist"
    link.parent.mkdir()
    link.symlink_to(path)
    replace_file(link, OLD, NEW)
    assert link.is_symlink()
    assert path.read_bytes() == NEW


def test_a_read_only_file_is_left_as_it_is(path: Path) -> None:
    path.chmod(0o444)
    with pytest.raises(NotReplacedError, match="read-only"):
        replace_file(path, OLD, NEW, keep=True)
    assert beside(path) == {"order.kitlist": OLD}


def test_one_that_has_changed_meanwhile_is_left_as_it_is(path: Path) -> None:
    path.write_bytes(b"rig C\n")
    with pytest.raises(NotReplacedError, match="meanwhile"):
        replace_file(path, OLD, NEW, keep=True)
    assert beside(path) == {"order.kitlist": b"rig C\n"}


def test_one_that_changes_while_the_new_one_is_written_is_left_as_it_is(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settle = os.fsync

    def somebody_else_saves(number: int) -> None:
        path.write_bytes(b"rig C\n")
        settle(number)

    monkeypatch.setattr(os, "fsync", somebody_else_saves)
    with pytest.raises(NotReplacedError, match="meanwhile"):
        replace_file(path, OLD, NEW)
    assert beside(path) == {"order.kitlist": b"rig C\n"}


@pytest.mark.parametrize("step", ["fsync", "replace", "chmod"])
def test_a_disk_that_fails_leaves_the_file_as_it_is(path: Path, step: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*arguments: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, full)
    with pytest.raises(NotReplacedError, match="no space left on device"):
        replace_file(path, OLD, NEW, keep=True)
    assert beside(path) == {"order.kitlist": OLD}


def test_one_that_has_gone_is_said(path: Path) -> None:
    path.unlink()
    with pytest.raises(NotReplacedError, match="no such file"):
        replace_file(path, OLD, NEW)
