"""What differs between two lists themselves: conditions for all rigs, orders, moves and waivers."""

from __future__ import annotations

from collections.abc import Callable

from kitproof.comparing.differences import SITE, Difference, Kind, fields_of
from kitproof.model.kitlist import KitList
from kitproof.rulebook.messages import DEFAULT_UNITS, Units


def list_itself(was: KitList, now: KitList, label: Callable[[str], str], units: Units) -> list[Difference]:
    """What differs in the list itself: its issue and dates, its conditions, orders, moves and waivers.

    `label` leads from what a thing was called to what it is called now.
    """
    found = fields_of(was, now, ("title", "issue", "dates"), units) + fields_of(was.site, now.site, SITE, units)
    found += _orders(was, now, label)
    found += _moves(was, now, units)
    return found + _waivers(was, now, label)


def _orders(was: KitList, now: KitList, label: Callable[[str], str]) -> list[Difference]:
    before, after = _ordered(was, label), _ordered(now, str)
    found = []
    for order, thing in dict.fromkeys((*after, *before)):
        old, new = before.get((order, thing)), after.get((order, thing))
        if old is None or new is None:
            kind: Kind = "new" if old is None else "gone"
            texts = [f"{each[0]} x {thing}{_spare(each)}" if each else None for each in (old, new)]
            found.append(Difference(kind, order, texts[0], texts[1]))
        elif old != new:
            texts = [f"{each[0]}{_spare(each)}" for each in (old, new)]
            found.append(Difference("changed", f"{order}, {thing}", texts[0], texts[1]))
    return found


def _ordered(kitlist: KitList, label: Callable[[str], str]) -> dict[tuple[str, str], tuple[int, int]]:
    """How many are ordered of each part, from whom and for which rig, and how many of them are spares."""
    found: dict[tuple[str, str], tuple[int, int]] = {}
    for line in (line for order in kitlist.orders for line in order.lines):
        order = f'order "{line.supplier}"' if line.supplier else "order"
        thing = f'"{line.part.name}"' + (f" for {label(f'rig {line.for_rig}')}" if line.for_rig else "")
        count, spare = found.get((order, thing), (0, 0))
        found[order, thing] = (count + line.count, spare + line.spare)
    return found


def _spare(ordered: tuple[int, int]) -> str:
    return f", {ordered[1]} of them spare" if ordered[1] else ""


def _moves(was: KitList, now: KitList, units: Units) -> list[Difference]:
    found: list[Difference] = []
    for name in dict.fromkeys((*now.moves, *was.moves)):
        old, new = was.moves.get(name), now.moves.get(name)
        if old is None or new is None:
            kind: Kind = "new" if new else "gone"
            found.append(Difference(kind, "move", f'"{name}"' if old else None, f'"{name}"' if new else None))
        else:
            names = ("by", "stored", "lasts", "on", "people", "carrier_agrees", "tag")
            found += fields_of(old, new, names, units, f'move "{name}": ')
    return found


def _waivers(was: KitList, now: KitList, label: Callable[[str], str]) -> list[Difference]:
    before = {(each.rule, label(each.subject)): each for each in was.waivers}
    after = {(each.rule, each.subject): each for each in now.waivers}
    found: list[Difference] = []
    for rule, subject in dict.fromkeys((*after, *before)):
        old, new = before.get((rule, subject)), after.get((rule, subject))
        name = f"{rule} in {subject}"
        if old is None or new is None:
            kind: Kind = "new" if new else "gone"
            found.append(Difference(kind, "waiver", name if old else None, name if new else None))
        else:
            found += fields_of(old, new, ("until", "because", "by"), DEFAULT_UNITS, f"waiver {name}: ")
    return found
