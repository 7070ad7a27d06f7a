"""What differs between two packed cases: what lies in them, in what state, and where they go."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable

from kitproof.comparing.differences import Difference, Kind, fields_of
from kitproof.comparing.said import bare, words
from kitproof.model.kitlist import Case, Packed
from kitproof.model.quantities import Interval
from kitproof.rulebook.messages import Units


def held_says(packed: Packed) -> Hashable:
    """All that a `holds` line says."""
    name = packed.part.name if packed.part is not None else packed.case_name
    return (name, packed.part is None, packed.count, _states(packed))


def _states(packed: Packed) -> Hashable:
    return (packed.states, bare(packed.tilted), packed.step, bare(packed.charge), packed.fitted_in)


def case(was: Case, now: Case, units: Units) -> list[Difference]:
    """What differs between two cases that are the same one."""
    house = [each.house_case.name if each.house_case else None for each in (was, now)]
    found = [] if house[0] == house[1] else [Difference("swapped", "house case", *(_quoted(each) for each in house))]
    if was.goes != now.goes:
        said = [", ".join(map(_quoted, each.goes)) or "nowhere" for each in (was, now)]
        found.append(Difference("changed", "goes", said[0], said[1]))
    found += fields_of(was, now, ("inside", "outside", "mass", "limit", "lifted", "tag"), units)
    return found + _held(was, now, units)


def _quoted(name: str | None) -> str:
    return f'"{name}"' if name else "none"


def _held(was: Case, now: Case, units: Units) -> list[Difference]:
    """What lies in it: things by their names, how many, and in what state."""
    before, after = _by_name(was), _by_name(now)
    found = []
    for name in dict.fromkeys((*after, *before)):
        olds, news = before.get(name, []), after.get(name, [])
        counts = [sum(each.count for each in some) for some in (olds, news)]
        if not olds or not news:
            kind: Kind = "new" if news else "gone"
            texts = [f"{count} x {name}" if some else None for count, some in zip(counts, (olds, news), strict=True)]
            found.append(Difference(kind, "holds", texts[0], texts[1]))
            continue
        if counts[0] != counts[1]:
            found.append(Difference("changed", f"holds {name}", str(counts[0]), str(counts[1])))
        states = [Counter(map(_states, some)) for some in (olds, news)]
        if set(states[0]) != set(states[1]):
            said = [" and ".join(_state_words(each, units) for each in some) for some in (olds, news)]
            found.append(Difference("changed", f"{name} packed", said[0], said[1]))
    return found


def name_of(packed: Packed) -> str:
    """What lies in a case, by its name."""
    return f'"{packed.part.name}"' if packed.part is not None else f'case "{packed.case_name}"'


def _by_name(case: Case) -> dict[str, list[Packed]]:
    found: dict[str, list[Packed]] = {}
    for each in case.holds:
        found.setdefault(name_of(each), []).append(each)
    return found


def _angle(tilted: Interval | None, units: Units) -> str:
    """By how much a head is tilted; up and down are said already."""
    if tilted is None:
        return ""
    low, high = sorted((abs(tilted.low), abs(tilted.high)))
    return f" {words(Interval(low, high, tilted.dimension, tilted.known), units)}"


def _state_words(packed: Packed, units: Units) -> str:
    tilted = packed.states & {"tilted down", "tilted up"}
    said = sorted(packed.states - tilted)
    said += [f"{each}{_angle(packed.tilted, units)}" for each in sorted(tilted)]
    said += [f"counterbalance {packed.step or 'off'}"] if packed.step is not None else []
    said += [f"charge {words(packed.charge, units)}"] if packed.charge else []
    said += [f'fitted in "{packed.fitted_in}"'] if packed.fitted_in else []
    return ", ".join(said) or "in no state that is said"
