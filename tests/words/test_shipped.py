"""The data that ships with the package is found."""

from __future__ import annotations

import pytest

from kitproof.words.shipped import folder


def test_the_grammar_and_the_rules_are_found() -> None:
    assert (folder("grammar") / "kitlist.lark").is_file()
    assert folder("rules").is_dir()


def test_what_is_missing_is_said() -> None:
    with pytest.raises(FileNotFoundError, match="not installed whole"):
        folder("nothing of this name")
