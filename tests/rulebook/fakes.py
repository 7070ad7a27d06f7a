"""A small vocabulary, things with given values, and rules written around one condition."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from kitproof.facts.fact import Fact
from kitproof.facts.values import TRUTH, Amount, Held, Type, Words, number, reach, set_of, text, thing
from kitproof.reading.document import Where
from kitproof.rulebook.compile import Env
from kitproof.rulebook.loading import load
from kitproof.rulebook.rules import Rule, RuleBook
from kitproof.words.dimensions import LENGTH, MASS, NUMBER, TEMPERATURE, TIME

ENV = Env(date(2027, 3, 8))

WIDELY: dict[str, Type] = {
    "carried": number(MASS),
    "capacity": number(MASS),
    "cog_up": number(LENGTH),
    "chart_top": number(LENGTH),
    "load_share": number(NUMBER),
    "ratio": number(NUMBER),
    "runtime": number(TIME),
    "cold": number(TEMPERATURE),
    "legs_at": reach(LENGTH),
    "tilts": reach(LENGTH),
    "chart_kind": text("chart", "single", "none"),
    "note": text(),
    "left_standing": TRUTH,
    "underslung": TRUTH,
    "mates": TRUTH,
    "head": thing("part", "head"),
    "camera": thing("part", "camera"),
    "parts": set_of("part"),
}
PART: dict[str, Type] = {
    "mass": number(MASS),
    "rated": number(MASS),
    "height": number(LENGTH),
    "legs": reach(LENGTH),
    "kind": text("head", "lens", "camera"),
    "upright": TRUTH,
    "own_case": thing("part", "case"),
    "chart": set_of("point"),
}
POINT: dict[str, Type] = {"mass": number(MASS), "height": number(LENGTH), "cold": number(TEMPERATURE)}


def _never(subject: object) -> Held:
    raise AssertionError("values come from the fake things")


def _facts(about: str, types: Mapping[str, Type]) -> dict[str, Fact]:
    return {
        name: Fact(name, about, of, f"what {name} means", _never, certain=name == "kind") for name, of in types.items()
    }


VOCABULARY = {"rig": _facts("rig", WIDELY), "part": _facts("part", PART), "point": _facts("point", POINT)}

HEAD_ONLY = {"rated", "chart", "own_case"}


def knows(kind: str, name: str) -> bool:
    """A camera has nothing that only heads have."""
    return kind == "head" or name not in HEAD_ONLY


@dataclass(frozen=True)
class Fake:
    """A thing whose facts are given; what is not given is not there."""

    label: str = "rig A"
    about: str = "rig"
    values: Mapping[str, Held] = field(default_factory=dict)
    day: date | None = None

    def value(self, name: str) -> Held:
        return self.values.get(name)

    def where(self, path: tuple[str, ...] = ()) -> Where:
        return Where("/".join((self.label, *path)), 1, 1, 1, 2)


def rig(**values: Held) -> Fake:
    return Fake(values=values)


def part(label: str, **values: Held) -> Fake:
    return Fake(label, "part", values)


def about(low: float, high: float | None = None, *missing: str) -> Amount:
    return Amount(low, low if high is None else high, missing)


def words(said: str | None, *missing: str) -> Words:
    return Words(said, missing)


def rule_text(fails: str = "carried > capacity", **more: str) -> str:
    """A rule file with a condition; `more` adds or replaces words, "" leaves one out."""
    lines = {
        "title": '"too heavy"',
        "about": "rig",
        "fails": fails,
        "says": '"It fails."',
        "doubt": '"whether it fails"',
        "because": '"It matters."',
    }
    lines.update(more)
    return "\n".join(f"{word:<9}{value}" for word, value in lines.items() if value) + "\n"


def book(files: Mapping[str, str]) -> RuleBook:
    return load(files, VOCABULARY, knows=knows)


def rule(fails: str = "carried > capacity", **more: str) -> Rule:
    return book({"support/too-heavy.rule": rule_text(fails, **more)}).rules["too-heavy"]
