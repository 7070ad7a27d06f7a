"""Entries recalled from the last reading: never another document than reading everything anew gives."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.kept import Kept
from kitproof.reading.entries import by_text, read
from kitproof.recalling import Recall
from tests.house.repository import ROOT
from tests.reading.samples import good_texts

TEXTS = [*good_texts(), *((ROOT / "samples" / name).read_text() for name in ("nine-bells-faults.kitlist",))]
LINES = [line for text in TEXTS for line in text.splitlines()]


@given(st.data())
def test_what_is_known_changes_nothing_in_what_is_read(data: st.DataObject) -> None:
    before = data.draw(st.sampled_from(TEXTS)).splitlines()
    after = list(before)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(after)))
        after[at : at + data.draw(st.integers(0, 2))] = data.draw(st.lists(st.sampled_from(LINES), max_size=2))
    known = by_text(read("\n".join(before), "a"))
    assert read("\n".join(after), "a", known) == read("\n".join(after), "a")


def test_only_what_changed_is_read_again(monkeypatch: pytest.MonkeyPatch) -> None:
    text = TEXTS[-1]
    known = by_text(read(text, "a"))
    met: list[int] = []
    monkeypatch.setattr("kitproof.reading.anew.entry_anew", lambda begun, below: met.append(begun[0]))
    read(text, "a", known)
    assert met == []
    read(text + "\nlist 5\n", "a", known)
    assert len(met) == 1


def test_what_is_kept_of_a_file_is_recalled(tmp_path: Path) -> None:
    document = read(TEXTS[-1], "a")
    first = Recall(Kept(str(tmp_path), "this one"))
    assert first.known("a") == {}
    first.keep([document])
    second = Recall(Kept(str(tmp_path), "this one"))
    assert read(TEXTS[-1], "a", second.known("a")) == document
    assert Recall(Kept(str(tmp_path), "another")).known("a") == {}
