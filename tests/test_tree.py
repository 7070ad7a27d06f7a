"""A tree of texts in memory is looked at as the same files on disk are."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.looks import Looks
from kitproof.tree import Tree

STEPS = st.sampled_from(["a", "b", "stock", "kitproof.toml"])
PATHS = st.lists(STEPS, min_size=1, max_size=3).map("/".join)
LOOKS: dict[str, Callable[[Looks, str], object]] = {
    "folder": Looks.is_folder,
    "file": Looks.is_file,
    "there": Looks.is_there,
    "names": Looks.names,
    "bytes": Looks.bytes,
    "real": Looks.real,
}


def seen(looks: Looks, look: str, path: str) -> object:
    try:
        return LOOKS[look](looks, path)
    except OSError:
        return OSError


def put_on_disk(texts: dict[str, str], top: Path) -> bool:
    """Whether the texts can lie on disk together: no file is a folder too."""
    if any(other.startswith(f"{name}/") for name in texts for other in texts):
        return False
    for name, text in texts.items():
        (top / name).parent.mkdir(parents=True, exist_ok=True)
        (top / name).write_bytes(text.encode())
    return True


@given(texts=st.dictionaries(PATHS, st.text(max_size=3), max_size=5), path=st.one_of(PATHS, st.just(".")))
def test_every_look_sees_what_it_would_see_on_disk(
    texts: dict[str, str], path: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    top = tmp_path_factory.mktemp("tree")
    if not put_on_disk(texts, top):
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(top)
        tree, disk = Tree(texts), Looks()
        for name in (path, str(top / path), f"./{path}", f"a/../{path}"):
            for look in LOOKS:
                if "a/.." in name and not (top / "a").is_dir():
                    continue
                assert seen(tree, look, name) == seen(disk, look, name), (look, name)


def test_the_top_is_a_root_and_nothing_outside_is_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "top").mkdir()
    (tmp_path / "outside").touch()
    monkeypatch.chdir(tmp_path / "top")
    tree = Tree({"a": "text"})
    assert tree.is_there(".git")
    assert not tree.is_file(".git")
    assert not tree.is_there("../outside")
    assert not tree.is_there(str(tmp_path / "outside"))


def test_what_no_utf_8_can_hold_is_kept_for_a_finding() -> None:
    assert Tree({"a": "\ud800"}).bytes("a") == b"\xed\xa0\x80"


@pytest.mark.parametrize("path", ["", ".", "..", "../a", "a/../../b", "/a"])
def test_a_path_that_does_not_lead_into_the_tree_is_refused(path: str) -> None:
    with pytest.raises(ValueError, match="names no text in the tree"):
        Tree({path: ""})
