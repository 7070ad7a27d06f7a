"""What a house sets: limits, grades, and rules that it does not use."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from kitproof.rulebook.errors import RuleError

GRADES = ("stop", "wrong", "watch", "note")
"""From the gravest to the least."""


@dataclass(frozen=True, slots=True)
class Settings:
    """A house's own numbers and choices, as written in its settings file `path`.

    `limits` holds a value as written, "30 h", by `RULE.NAME`, `GROUP.NAME`, or the name alone where only one limit has
    it. `grades` are by rule. `places` is where a name stands: line, column, and the column just after it.
    """

    limits: Mapping[str, str] = field(default_factory=dict)
    grades: Mapping[str, str] = field(default_factory=dict)
    retired: tuple[str, ...] = ()
    path: str = "kitproof.toml"
    places: Mapping[str, tuple[int, int, int]] = field(default_factory=dict)

    def error(self, name: str, says: str) -> RuleError:
        """A mistake about a name that the house has written."""
        line, column, to_column = self.places.get(name, (1, 1, 2))
        return RuleError(self.path, line, column, to_column, says)


NO_SETTINGS = Settings()
