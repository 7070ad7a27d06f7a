"""What may be offered as a fix: words for a person, and the changes that they come to."""

from __future__ import annotations

from msgspec import Struct

from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Thing
from kitproof.model.parts import Part
from kitproof.proofing.findings import Change


class Offer(Struct, frozen=True):
    """A fix that is not proved yet: what to do, with no full stop, and the changes to the text.

    Where a rig takes other parts, `new` are those and `old` is the one they stand in for: orders and cases follow.
    """

    says: str
    changes: tuple[Change, ...]
    old: Part | None = None
    new: tuple[Part, ...] = ()


def rig_of(thing: Thing) -> RigSubject | None:
    """The rig that a thing is, or is in: a joint or a stage of it."""
    rig = thing if isinstance(thing, RigSubject) else getattr(thing, "rig", None)
    return rig if isinstance(rig, RigSubject) else None
