"""How far long work is, said on a terminal and nowhere else."""

from __future__ import annotations

import io

import pytest

from kitproof.options import MANY, watched


class Screen(io.StringIO):
    """Standard error as a terminal, or as none."""

    def __init__(self, terminal: bool) -> None:
        super().__init__()
        self.terminal = terminal

    def isatty(self) -> bool:
        return self.terminal


@pytest.mark.parametrize(
    ("many", "terminal", "said"), [(MANY, True, True), (MANY, False, False), (MANY - 1, True, False)]
)
def test_progress_is_shown_on_a_terminal_where_there_are_many(
    many: int, terminal: bool, said: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    screen = Screen(terminal)
    monkeypatch.setattr("sys.stderr", screen)
    assert list(watched(range(many), "Reading")) == list(range(many))
    assert ("Reading" in screen.getvalue()) is said
