"""Subjects: what rules are about. Each works out a fact when it is first asked for and keeps it."""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping
from datetime import date
from typing import Any, ClassVar

from msgspec import Struct

from kitproof.facts.fact import Fact
from kitproof.facts.hulls import Watch
from kitproof.facts.values import Amount, Held, Tagged, Words
from kitproof.model.kitlist import KitList
from kitproof.model.promises import Promised
from kitproof.model.quantities import Interval
from kitproof.reading.document import Where

TAG = "tag."


class Setting(Struct, frozen=True):
    """What all subjects of one proof share: the list, the day, the house's numbers, and the registry of facts.

    `others` is what the other lists that are proofed with it promise of the parts that it promises itself. `watch` is
    there while many combinations are judged at once, and notes what is looked at.
    """

    kitlist: KitList
    day: date
    house: Mapping[str, float]
    facts: Mapping[str, Mapping[str, Fact]]
    others: tuple[Promised, ...] = ()
    watch: Watch | None = None


class Subject:
    """One thing that rules can be about. `about` is its word in the rule language."""

    about: ClassVar[str] = ""

    def __init__(self, setting: Setting) -> None:
        self.setting = setting
        self._known: dict[str, Held] = {}
        self._noted: dict[str, tuple[Any, frozenset[int]]] = {}

    @property
    def label(self) -> str:
        """What messages and findings call it."""
        raise LookupError(self.about)

    @property
    def home(self) -> str:
        """The subject that a finding about it is printed under: a joint is in its rig, a packed thing in its case."""
        return self.within[0] if self.within else "list"

    @property
    def within(self) -> tuple[str, ...]:
        """The subjects that it lies in, itself first: a waiver of any of them covers it. All lie in the list."""
        return ()

    @property
    def gathers_by(self) -> Hashable:
        """What `gather` makes one finding of: the same rig or case; for what was misread, the same words."""
        return self.home

    @property
    def day(self) -> date | None:
        """The day that it takes place on, by which dated limits are chosen; None where it has none of its own."""
        return None

    @property
    def tags(self) -> Mapping[str, str | Interval]:
        """A house's own words and numbers on it."""
        return {}

    def value(self, name: str) -> Held:
        """The value of a fact of this subject, worked out once; `tag.colour` is a house's own word."""
        if self.setting.watch is not None:
            return self.setting.watch.noted(self._noted, name, lambda: self._worked_out(name))
        if name not in self._known:
            self._known[name] = self._worked_out(name)
        return self._known[name]

    def _worked_out(self, name: str) -> Held:
        if name.startswith(TAG):
            return self._tag(name.removeprefix(TAG))
        return self.setting.facts[self.about][name].compute(self)

    def whatever(self, value: Amount) -> Amount:
        """What a fact is for want of something, whatever the numbers that were looked at: it does not hang on them."""
        if self.setting.watch is not None:
            self.setting.watch.blurred.clear()
        return value

    def amount(self, name: str) -> Amount:
        """A fact that is a number."""
        value: Any = self.value(name)
        return value  # type: ignore[no-any-return]  # the registry gives the fact's type

    def where(self, path: tuple[str, ...] = ()) -> Where:
        """The place of the subject, or of what a path of names leads to, as far as it leads."""
        if path:
            try:
                found = self.value(path[0])
            except LookupError:
                return self.place(path[0])
            if isinstance(found, Subject):
                return found.where(path[1:])
            return self.place(path[0])
        return self.place("")

    def place(self, field: str) -> Where:
        """The place of one of its fields; of itself where the field is "" or not written."""
        raise LookupError(field)

    def _tag(self, word: str) -> Held:
        said = self.tags.get(word)
        if said is None:
            return Words(None, (f"{self.label}: tag {word}",))
        if isinstance(said, str):
            return Words(said)
        if not said.known:
            return Tagged(-math.inf, math.inf, (f"{self.label}: tag {word}",), said.dimension)
        return Tagged(said.low, said.high, (), said.dimension)
