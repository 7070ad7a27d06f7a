"""What pairing comes to: pairings that carry a rig, what is undecided, and what is turned down, each with why."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from kitproof.facts.values import Amount
from kitproof.model.parts import Part
from kitproof.proofing.questions import Question
from kitproof.words.dimensions import Dimension

SLOTS = ("sticks", "head", "slide")
"""What is chosen, from the ground up."""


class Pairing(Struct, frozen=True):
    """One part for each slot that is chosen, from the ground up, and the adapters that stand on each of them."""

    parts: tuple[Part, ...]
    joiners: tuple[tuple[Part, ...], ...]

    @property
    def all_parts(self) -> tuple[Part, ...]:
        """From the ground up, adapters in their places."""
        return tuple(
            each for part, run in zip(self.parts, self.joiners, strict=True) for each in (part, *run) if each.name
        )

    @property
    def adapters(self) -> int:
        return sum(map(len, self.joiners))


class Margin(Struct, frozen=True):
    """A fact over all combinations at its worst: its range there, and which combination that is (slot to name)."""

    name: str
    amount: Amount
    dimension: Dimension
    choice: Mapping[str, str]


class Carries(Struct, frozen=True):
    """A pairing that carries every combination. `stock` is the worst of its parts'; `watch` holds the headlines of what
    is worth an eye all the same."""

    pairing: Pairing
    stock: int
    margins: tuple[Margin, ...]
    watch: tuple[str, ...] = ()


class TurnedDown(Struct, frozen=True):
    """Why nothing with all of these parts carries the rig: a rule and its headline; `rule` is "" where they do not
    mate. It is so with whatever is not turned down by itself."""

    parts: tuple[Part, ...]
    rule: str
    says: str


class Undecided(Struct, frozen=True):
    """Parts of which it cannot be told, or that may not carry it: the rule, its headline, and what is not known.

    `tried` is the pairing in which that was found.
    """

    parts: tuple[Part, ...]
    rule: str
    says: str
    missing: tuple[str, ...]
    tried: Pairing


class Paired(Struct, frozen=True):
    """What was found for one rig, and in how many combinations of its alternatives.

    `stock` is how many parts of each kind there are to choose from, `questions` what to ask for where nothing carries
    it for certain. Where `whole` is False, what ranks after those that are shown was not looked at.
    """

    rig: str
    combinations: int
    stock: Mapping[str, int]
    carries: tuple[Carries, ...]
    undecided: tuple[Undecided, ...]
    turned_down: tuple[TurnedDown, ...]
    questions: tuple[Question, ...]
    whole: bool
    carries_a_camera: bool = True
