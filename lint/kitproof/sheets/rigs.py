"""Rigs proposed where a sheet groups its lines by rig, and only as far as the sheet is certain.

It does not say the order of building up, nor where things sit, and nothing of that is made up.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

from kitproof.mending.edits import quoted
from kitproof.sheets.days import Days
from kitproof.sheets.told import Line, Told
from kitproof.words.kinds import KINDS

ON = {"pan bar": "head", "tie-down": "sticks"}
"""What is on something else than the camera wherever it is used: common practice, no source."""
APART = ("ballast",)
"""What stands in a rig only with word of where, which no sheet gives."""
_ANCHORS = ("sticks", "head", "camera")


class Slot(Struct, frozen=True):
    """One line of a proposed rig, and the rows that it is from."""

    word: str
    value: str
    rows: tuple[str, ...]


class Proposed(Struct, frozen=True):
    """A rig as far as it is certain, the rows that name it, and what of them was left out, each with why.

    `days` are those that all of its rows have, None where they differ or say none.
    """

    name: str
    slots: tuple[Slot, ...]
    rows: tuple[str, ...]
    left_out: tuple[str, ...]
    days: Days | None


def proposed(rows: Iterable[Told]) -> dict[str, Proposed]:
    """A rig for each name by which lines are grouped, by that name in small letters.

    One that would have fewer than two slots, or neither sticks, head nor camera, is not proposed.
    """
    grouped: dict[str, list[Told]] = {}
    for told in rows:
        if told.line is not None and told.line.rig:
            grouped.setdefault(told.line.rig.casefold(), []).append(told)
    found = {key: _rig(mine) for key, mine in grouped.items()}
    return {
        key: rig
        for key, rig in found.items()
        if len(rig.slots) > 1 and any(slot.word in _ANCHORS for slot in rig.slots)
    }


def _rig(rows: Sequence[Told]) -> Proposed:
    by_kind: dict[str, list[tuple[Told, Line]]] = {}
    for told in rows:
        if told.line is not None:
            by_kind.setdefault(told.line.kind, []).append((told, told.line))
    slots: list[Slot] = []
    left_out: list[str] = []
    for kind in sorted(by_kind, key=_place):
        mine = by_kind[kind]
        made, why = _slots(kind, mine)
        slots += made
        if why:
            which = ", ".join(f"{told.label}" for told, _ in mine if not any(told.label in slot.rows for slot in made))
            left_out.append(f"{which}: {why}")
    first = rows[0].line
    days = {told.group.days for told in rows}
    return Proposed(
        first.rig if first else "",
        tuple(slots),
        tuple(told.label for told in rows),
        tuple(left_out),
        days.pop() if len(days) == 1 else None,
    )


def _place(kind: str) -> int:
    """Support slots from the ground up, then the rest as the sheet has it."""
    support = KINDS[kind].support
    return len(KINDS) if support is None else support


def _slots(kind: str, mine: Sequence[tuple[Told, Line]]) -> tuple[list[Slot], str]:
    """The slots that lines of one kind make, and why others make none ("" where all do)."""
    if not KINDS[kind].in_rigs:
        return [], f"no {kind} stands in a rig"
    if kind in APART:
        return [], f"where the {kind} lies or hangs is not said"
    names = list(dict.fromkeys(line.part for _, line in mine))
    labels = tuple(told.label for told, _ in mine)
    if kind == "lens":
        return [Slot(kind, " or ".join(map(quoted, names)), labels)], ""
    if kind == "battery":
        if len(names) > 1:
            return [], f"which {kind} is mounted is not said"
        spare = sum(line.count for _, line in mine) - 1
        return [Slot(kind, quoted(names[0]) + (f", spare {spare}" if spare else ""), labels)], ""
    if KINDS[kind].support is not None and len(names) > 1:
        return [], f"which {kind} stands in the rig, or in what order, is not said"
    on = f", on {ON[kind]}" if kind in ON else ""
    single = [name for name in names if sum(line.count for _, line in mine if line.part == name) == 1]
    made = [Slot(kind, quoted(name) + on, tuple(t.label for t, line in mine if line.part == name)) for name in single]
    return made, "" if len(single) == len(names) else "how many of them are on the rig is not said"
