"""Where the time of a proof goes: by stage, and within the judging by rule."""

from __future__ import annotations

from collections.abc import Callable

Lap = Callable[[str], None]
"""Told the name of what has just been done."""


def no_lap(_: str) -> None:
    """Nothing is measured."""


class Laps:
    """Time by the name of what it was spent on, in s, by a clock that is passed in.

    A rule that is the first to ask for a fact bears what it takes to work the fact out.
    """

    def __init__(self, clock: Callable[[], float]) -> None:
        self.clock = clock
        self.last = clock()
        self.spent: dict[str, float] = {}

    def lap(self, name: str) -> None:
        """All time since the last lap was spent on this."""
        now = self.clock()
        self.spent[name] = self.spent.get(name, 0.0) + now - self.last
        self.last = now
