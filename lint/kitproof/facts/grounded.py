"""How high above the ground things are that hang on the head, the sticks or what stands between them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from msgspec import Struct

from kitproof.facts.build import Standing
from kitproof.facts.geometry import Placed
from kitproof.facts.outlines import centre_of, outline
from kitproof.model.quantities import Range


class Hanging(Struct, frozen=True):
    """A thing that hangs, and the height of its centre of gravity above the ground."""

    thing: Placed
    height: Range


def finite(place: Range) -> bool:
    return math.isfinite(place[0]) and math.isfinite(place[1])


def hanging(
    things: Sequence[Placed], seats: Mapping[int, tuple[Standing, Range]], leg: float, top: float
) -> list[Hanging]:
    """All that hangs. `seats` are those of the chain below the plate, by the id of what stands there; `leg` is the
    height of the bowl and `top` the greatest height of the plate.

    Where its place is written it is there, and that may be above the plate; else it is within the outline of what it is
    on, of the sticks anywhere along their legs. On nothing known its seat is anywhere from the ground to the plate.
    Where its own centre is not known, it is anywhere from the ground to the plate or to its seat.
    """
    known = dict(seats)
    waiting = {id(thing.standing): thing for thing in things}
    for thing in things:
        _take(thing, known, waiting, leg, top)
    return [Hanging(thing, _centre(thing, known[id(thing.standing)][1], top)) for thing in things]


def _take(
    thing: Placed, known: dict[int, tuple[Standing, Range]], waiting: dict[int, Placed], leg: float, top: float
) -> None:
    """Seats a thing, what it is on before it where that one still waits: its line may come later."""
    waiting.pop(id(thing.standing), None)
    below = next((each for each in waiting.values() if _bears(each.standing, thing)), None)
    if below is not None:
        _take(below, known, waiting, leg, top)
    known[id(thing.standing)] = (thing.standing, _seat(thing, known, leg, top))


def _seat(thing: Placed, known: Mapping[int, tuple[Standing, Range]], leg: float, top: float) -> Range:
    line = thing.standing.line
    if thing.group == "ground":
        return (0.0, 0.0)
    owner = _owner(thing, known)
    if owner is None:
        return (0.0, top)
    standing, seat = owner
    if line.at is None and standing.line.slot == "sticks":
        return (0.0, leg)
    up = outline(standing.part).up if line.at is None else line.at.up
    return (seat[0] + up[0], seat[1] + up[1]) if finite(up) else (0.0, max(top, seat[1]))


def _owner(thing: Placed, known: Mapping[int, tuple[Standing, Range]]) -> tuple[Standing, Range] | None:
    return next((each for each in known.values() if _bears(each[0], thing)), None)


def _bears(standing: Standing, thing: Placed) -> bool:
    """Whether a thing is on another: as its line says, else ballast on the sticks, and what else hangs on the head."""
    line = thing.standing.line
    usual = "sticks" if line.slot == "ballast" else "head"
    return (standing.part.name if line.on_is_name else standing.line.slot) == (line.on or usual)


def _centre(thing: Placed, seat: Range, top: float) -> Range:
    hung = thing.standing.line.hung
    if hung is not None:
        return (hung.low, hung.high)
    own = centre_of(thing.standing.part)[0].up
    if finite(own):
        return (seat[0] + own[0], seat[1] + own[1])
    return (min(0.0, seat[0]), max(top, seat[1]))
