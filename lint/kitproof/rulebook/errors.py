"""What is wrong with rule files: each mistake at its place, in a person's words, all of them together."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct


class RuleError(Struct, frozen=True, order=True):
    """One mistake. Lines and columns count from 1, `to_column` stands just after the last character."""

    path: str
    line: int
    column: int
    to_column: int
    says: str

    def __str__(self) -> str:
        place = f", line {self.line}, column {self.column}" if self.line else ""
        return f"{self.path}{place}: {self.says}"


class BadRules(Exception):  # noqa: N818 - named for what it holds: bad rules, not one error
    """Every mistake of every rule file. A rule book with one mistake is refused whole."""

    def __init__(self, errors: Iterable[RuleError]) -> None:
        self.errors: tuple[RuleError, ...] = tuple(sorted(set(errors)))
        super().__init__("\n".join(str(error) for error in self.errors))


def nearest(name: str, known: Iterable[str]) -> str:
    """The nearest known name, "" where none is near."""
    import difflib

    found = difflib.get_close_matches(name, sorted(set(known)), n=1, cutoff=0.6)
    return found[0] if found else ""


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """A sentence with the nearest known name, or with all of them where they are few and none is near."""
    names = sorted(set(known))
    near = nearest(name, names)
    if near:
        return f" The nearest is {near}."
    if names and len(names) <= 12:
        return " Known: " + ", ".join(names) + "."
    return ""
