"""What a list says on purpose that it does not know: a mass, a height, a place written as `?`.

What cannot be told for such a `?` counts like a doubt of the same grade. Else writing `?` would let a list through that
was sent back for the very figure: a question mark is an answer that is owed, not one that was given.
"""

from __future__ import annotations

from collections.abc import Iterator

from kitproof.model.kitlist import Case, KitList
from kitproof.model.parts import Part
from kitproof.model.quantities import ANYWHERE, Interval
from kitproof.model.rigs import SlotLine


def asked_on_purpose(kitlist: KitList) -> frozenset[str]:
    """How lists of what is missing call everything that is written as `?`."""
    found: set[str] = set()
    for part in _parts(kitlist):
        found.update(_of_part(part))
    for rig in kitlist.rigs:
        for line in rig.lines:
            found.update(_of_line(line))
    for case in kitlist.cases:
        found.update(_of_case(case))
    return frozenset(found)


def _parts(kitlist: KitList) -> Iterator[Part]:
    yield from kitlist.parts.values()
    yield from (o.part for rig in kitlist.rigs for line in rig.lines for o in line.options if o.part)
    yield from (packed.part for case in kitlist.cases for packed in case.holds if packed.part)


def _of_part(part: Part) -> Iterator[str]:
    """Quantities, sides and places of which nothing is known, and whose line could be read."""
    for field in part.places:
        if field in part.unread:
            continue
        value = getattr(part, field, None)
        several = value if isinstance(value, tuple) else (value,)
        if any(isinstance(each, Interval) and not each.known for each in several):
            yield part.lacks(field)
    spot = part.cog
    if "cog" not in part.unread and spot is not None and ANYWHERE in (spot.forward, spot.up, spot.left):
        yield part.lacks("cog")


def _of_line(line: SlotLine) -> Iterator[str]:
    spot = line.at
    if not line.at_known or (spot is not None and ANYWHERE in (spot.forward, spot.up, spot.left)):
        where = "its place on its travel" if line.slot == "slide" else "its place on the rig"
        yield from (f"{option.part.label}: {where}" for option in line.options if option.part)


def _of_case(case: Case) -> Iterator[str]:
    """What a case, or the house's case that it is, says of itself as `?`."""
    for field in ("mass", "limit", "inside", "outside"):
        value = getattr(case, field)
        several = value if isinstance(value, tuple) else (value,)
        blank = value == () and field in case.places
        if blank or any(isinstance(each, Interval) and not each.known for each in several):
            yield f"{case.label}: {field}"
