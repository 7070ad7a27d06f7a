"""What a house sets: limits, grades, and rules that it does not use."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field

from kitproof.rulebook.errors import RuleError

GRADES = ("stop", "wrong", "watch", "note")
"""From the gravest to the least."""


Spot = tuple[str, int, int, int]
"""File, line, column, and the column just after; line 0 where there is no file, but the command line."""


class Settings(Struct, frozen=True):
    """A house's own numbers and choices.

    `limits` holds a value as written, "30 h", by `RULE.NAME`, `GROUP.NAME`, or the name alone where only one limit has
    it. `grades` are by rule. `never_waived` are rules of which no waiver is taken; `cannot_tell_counts` the grades at
    which `cannot tell` counts like a finding (None: `stop` alone); `units` those to print in where a list asks
    for none. `places` says where each name stands, by the key that it is set under and the name.
    """

    limits: Mapping[str, str] = field(default_factory=dict)
    grades: Mapping[str, str] = field(default_factory=dict)
    retired: tuple[str, ...] = ()
    never_waived: tuple[str, ...] = ()
    cannot_tell_counts: tuple[str, ...] | None = None
    units: tuple[str, ...] = ()
    places: Mapping[tuple[str, str], Spot] = field(default_factory=dict)

    def place(self, key: str, name: str) -> str:
        """Where a name was set, in words; `key` is what it was set under, such as limits."""
        path, line, _, _ = self.places.get((key, name), COMMAND_LINE)
        return f"{path}, line {line}" if line else path

    def error(self, key: str, name: str, says: str) -> RuleError:
        """A mistake about a name that the house has written."""
        path, line, column, to_column = self.places.get((key, name), COMMAND_LINE)
        return RuleError(path, line, column, to_column, says)


COMMAND_LINE: Spot = ("the command line", 0, 0, 0)
NO_SETTINGS = Settings()
