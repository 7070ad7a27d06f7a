"""What is kept on disk: found again whole, or not at all; never in the way."""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from kitproof import kept
from kitproof.kept import NOTHING, Kept


@pytest.fixture
def folder(tmp_path: Path) -> Kept:
    return Kept(str(tmp_path / "kept"), "this one")


def test_what_is_kept_is_found_again(folder: Kept) -> None:
    name = folder.name("a", "b")
    assert folder.get("thing", name) is None
    folder.put("thing", name, b"body")
    assert folder.get("thing", name) == b"body"
    assert folder.get("other", name) is None


def test_names_tell_parts_and_kitproofs_apart(folder: Kept) -> None:
    names = [folder.name("ab", "c"), folder.name("a", "bc"), folder.name("abc"), Kept("", "another").name("ab", "c")]
    assert len(set(names)) == len(names)
    assert folder.name("ab", "c") == names[0]


@pytest.mark.parametrize("damage", [b"", b"short", b"x" * 200])
def test_what_is_damaged_is_as_if_it_were_not_there(folder: Kept, damage: bytes) -> None:
    folder.put("thing", "n", b"body" * 20)
    (Path(folder.where) / "thing-n").write_bytes(damage)
    assert folder.get("thing", "n") is None


def test_one_changed_byte_anywhere_is_damage(folder: Kept) -> None:
    folder.put("thing", "n", b"body")
    path = Path(folder.where) / "thing-n"
    whole = path.read_bytes()
    for at in range(len(whole)):
        path.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert folder.get("thing", "n") is None


def test_a_folder_that_cannot_be_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    blocked = Kept(str(tmp_path / "file" / "kept"), "this one")
    blocked.put("thing", "n", b"body")
    assert blocked.get("thing", "n") is None


def test_nothing_is_kept_where_nothing_is_to_be() -> None:
    NOTHING.put("thing", "n", b"body")
    assert NOTHING.get("thing", "n") is None


def test_runs_that_share_a_folder_never_see_half_of_anything(folder: Kept) -> None:
    bodies = [bytes([each]) * 50_000 for each in range(8)]

    def write(body: bytes) -> bool:
        for _ in range(20):
            folder.put("thing", "n", body)
            if folder.get("thing", "n") not in (*bodies, None):
                return False
        return True

    with ThreadPoolExecutor(8) as pool:
        assert all(pool.map(write, bodies))


def test_the_oldest_are_thrown_away(folder: Kept, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept, "MOST_FILES", 10)
    monkeypatch.setattr(kept, "FEWEST_FILES", 5)
    for number in range(11):
        folder.put("thing", str(number), b"")
        os.utime(Path(folder.where) / f"thing-{number}", (number, number))
    folder.put("thing", "last", b"")
    folder.thin_out()
    left = {each.name for each in Path(folder.where).iterdir()}
    assert "thing-last" in left
    assert "thing-0" not in left
    assert len(left) == 5


def test_the_surroundings_say_where(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv(kept.FOLDER, "")
    assert kept.here() is NOTHING
    monkeypatch.setenv(kept.FOLDER, str(tmp_path))
    assert kept.here().where == str(tmp_path)
    monkeypatch.delenv(kept.FOLDER)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr("sys.platform", "linux")
    assert kept.folder() == str(tmp_path / "kitproof")


def test_a_changed_file_of_the_package_makes_another_kitproof(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "one.py").write_text("a = 1")
    monkeypatch.setattr(kept, "PACKAGE", str(tmp_path))
    monkeypatch.setattr(kept, "_STAMPS", {})
    before = kept.stamp()
    assert kept.stamp() == before
    (tmp_path / "one.py").write_text("a = 22")
    monkeypatch.setattr(kept, "_STAMPS", {})
    assert kept.stamp() != before
