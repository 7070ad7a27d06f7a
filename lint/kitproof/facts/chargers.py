"""Charging: how many batteries a day wants where those that have run down are charged again."""

from __future__ import annotations

import math

from kitproof.facts.fact import fact
from kitproof.facts.power import FROM_MEMORY, day_of, runtime_of_one
from kitproof.facts.rig import RigSubject
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount, Words, joined, number, text
from kitproof.mechanics import powering
from kitproof.mechanics.powering import Charging
from kitproof.mechanics.ranges import hull
from kitproof.model.parts import Part
from kitproof.model.quantities import Range, is_known
from kitproof.words.dimensions import NUMBER


def _chargers(tally: Tally) -> list[tuple[Part, int]]:
    """The chargers that go out with the list, and how many of each: ordered, or at least packed."""
    parts = [part for part in tally.kitlist.parts.values() if part.kind == "charger"]
    counted = [(part, max(tally.ordered.get(part.name, 0), tally.held.get(part.name, 0))) for part in parts]
    return [(part, count) for part, count in counted if count]


def _time(tally: Tally, parts: list[Part]) -> tuple[Range, tuple[str, ...]]:
    """How long a charge takes on any of them, in s, and what is missing; a line that could not be read may order one
    that is quicker than all of them."""
    times = [part.charges_in.range for part in parts if is_known(part.charges_in)]
    lacks = tuple(part.lacks("charges_in") for part in parts if not is_known(part.charges_in))
    unread = joined(tally.unread, tally.unread_cases)
    return hull(*times, *[(0.0, math.inf)] * bool(lacks), *[(0.0, 0.0)] * bool(unread or not parts)), lacks


def _places(tally: Tally, found: list[tuple[Part, int]]) -> tuple[Range, tuple[str, ...]]:
    """How many batteries are charged at once, and what is missing; a line that could not be read may order more."""
    low = math.fsum(count * part.charges_at_once for part, count in found if part.charges_at_once is not None)
    lacks = tuple(part.lacks("charges_at_once") for part, _ in found if part.charges_at_once is None)
    missing = joined(lacks, tally.unread, tally.unread_cases)
    return (low, math.inf if missing else low), missing


def _shared(rig: RigSubject, tally: Tally) -> tuple[bool, tuple[str, ...]]:
    """Whether another rig that may stand at the same time has batteries to charge too, or may have, and what is missing
    of that."""
    others = [each for each in tally.kitlist.rigs if each.name != rig.rig.name and tally.together(rig.rig, each)]
    if any(line.slot == "battery" for each in others for line in each.lines):
        return True, ()
    missing = joined(*(each.unread for each in others))
    return bool(missing), missing


@fact(
    "batteries_charging",
    "rig",
    number(NUMBER),
    "how many batteries the day wants where those run down are charged on the chargers that go out with the list",
    "played through: each runs, is run down, waits for a free place and is charged; between none and all of the places "
    "free for it where another rig charges too",
    FROM_MEMORY,
)
def batteries_charging(rig: RigSubject) -> Amount | None:
    """Not there without a battery. As many as without charging where no charger goes out."""
    each = runtime_of_one(rig)
    if each is None:
        return None
    tally, day = Tally(rig.setting.kitlist), day_of(rig)
    found = _chargers(tally)
    time, no_time = _time(tally, [part for part, _ in found])
    (low, high), no_places = _places(tally, found)
    shared, no_others = _shared(rig, tally) if found else (False, ())
    places = (0.0 if shared else low, high)
    needed = powering.batteries_charging((day.low, day.high), (each.low, each.high), Charging(time, places))
    return Amount(*needed, joined(each.missing, day.missing, no_time, no_places, no_others))


@fact("chargers", "rig", text(), "the chargers that go out with the list, in words", certain=True)
def chargers(rig: RigSubject) -> Words:
    found = _chargers(Tally(rig.setting.kitlist))
    named = [f'{count} x "{part.name}"' for part, count in found]
    return Words(" and ".join(filter(None, (", ".join(named[:-1]), *named[-1:]))) or "no charger")
