"""Pairings for people, and as JSON: what carries a rig, the best first, and why the rest does not."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from kitproof.mending.pairing.results import (
    Carries,
    Margin,
    Paired,
    Pairing,
    TurnedDown,
    Undecided,
)
from kitproof.mending.stock import IN_STOCK, OUT_OF_STOCK, STOCK_NOT_KNOWN
from kitproof.model.parts import Part
from kitproof.rulebook.messages import Units
from kitproof.showing.amounts import value_text
from kitproof.showing.json_output import amount_json
from kitproof.showing.questions_text import asked
from kitproof.showing.text import Line, Piece, paragraph, wrapped

PAIRINGS = "kitproof/pairings/1"
MOST_ASKED = 3
MOST_NAMED = 12
"""So many are named that are turned down for one reason; of more it is said how many. The JSON names all."""

NO_ONE_ANSWER = (
    "No one answer settles it: weigh and measure what is known only roughly, or try the build on the bench"
    " and write that down as tried."
)

STOCK = {
    IN_STOCK: "All are in stock on the dates.",
    STOCK_NOT_KNOWN: "Whether all are in stock is not known.",
    OUT_OF_STOCK: "Not all are in stock on the dates.",
}
STOCK_WORDS = {IN_STOCK: "in stock", STOCK_NOT_KNOWN: "not known", OUT_OF_STOCK: "out of stock"}

MARGINS = {
    "load_share": "the head bears {} of what it holds",
    "legs_share": "the sticks bear {} of their rating",
    "stack_share": "what stands between them bears {} of its rating",
    "counterbalance_share": "it needs {} of the counterbalance",
    "overturn_share": "wind and slope come to {} of what overturns it",
    "slide_spare": "{} of the slide's travel to spare",
    "tip_angle_tilted": "tilted, it tips over at {}",
}
"""A margin in words, as it is at the worst of all combinations."""


def pairing_lines(found: Sequence[Paired], units: Units, heading: str) -> list[Line]:
    """What was found for the rigs of a list."""
    lines: list[Line] = [(Piece(each),) for each in wrapped(heading)]
    for each in found:
        lines += [(), *_rig(each, units)]
    return [*lines, (), (Piece("Worked out on paper; nothing was load-tested."),)]


def _rig(found: Paired, units: Units) -> Iterator[Line]:
    many = f", in {found.combinations} combinations" if found.combinations > 1 else ""
    for each in wrapped(f"rig {found.rig}{many}{_chosen_from(found)}"):
        yield (Piece(each, "title"),)
    if not found.carries:
        yield from paragraph("", _nothing(found))
    for number, carries in enumerate(found.carries, start=1):
        yield from _carries(number, carries, units)
    if not found.whole:
        says = "What ranks after these was not looked at; --every looks at all."
        yield ()
        yield from paragraph("", says if found.carries else "Not all was looked at: first ask for what is not known.")
    yield from _undecided(found)
    yield from _turned_down(found.turned_down)


def _chosen_from(found: Paired) -> str:
    kinds = [f"{many} {_plural(slot, many)}" for slot, many in found.stock.items()]
    return f": chosen from {', '.join(kinds[:-1])} and {kinds[-1]}" if kinds else ""


def _nothing(found: Paired) -> str:
    """Why there is nothing to show: nothing to choose from, nothing to carry, or nothing that does."""
    if not found.carries_a_camera:
        return "It has no camera: there is nothing to carry. Give it a camera line."
    none = [slot for slot, many in found.stock.items() if not many]
    if none:
        kinds = ", ".join(none)
        return (
            f'There is nothing to choose from for {kinds}. Name a parts book in the list, such as: use "stock.kitlist"'
        )
    return "Nothing in the parts books in use carries it for certain."


def _plural(slot: str, many: int) -> str:
    return slot if many == 1 or slot.endswith("s") else f"{slot}s"


def _carries(number: int, carries: Carries, units: Units) -> Iterator[Line]:
    yield ()
    yield from paragraph(f"{number}.", _names(carries.pairing.all_parts))
    yield from paragraph("", STOCK[carries.stock], "place")
    yield from paragraph("", _margins(carries.margins, units), "place")
    for each in carries.watch:
        yield from paragraph("Watch", f"{each}.")


def _names(parts: Iterable[Part]) -> str:
    return ", ".join(part.label for part in parts)


def _margins(margins: Sequence[Margin], units: Units) -> str:
    """The margins in a sentence, with the combination that each is the worst in, said once where it is one for all."""
    worst = list(dict.fromkeys(_choice(each) for each in margins))
    alike = f" with {worst[0]}" if len(worst) == 1 and worst[0] else ""
    said = (f"{_margin(each, units)}{f' ({_choice(each)})' if len(worst) > 1 else ''}" for each in margins)
    return f"At worst{alike}: {'; '.join(said)}."


def _choice(margin: Margin) -> str:
    return ", ".join(f'{slot} "{name}"' for slot, name in margin.choice.items())


def _margin(margin: Margin, units: Units) -> str:
    return MARGINS[margin.name].format(value_text(margin.name, margin.amount, margin.dimension, units))


def _undecided(found: Paired) -> Iterator[Line]:
    if not found.undecided:
        return
    yield ()
    yield (Piece("Undecided, and not counted as carrying it:", "title"),)
    for says, names in _by_reason(found.undecided).items():
        yield from paragraph("", f"Whether {says}: {names}.")
    for each in _asks(found)[:MOST_ASKED]:
        yield from paragraph("Ask", each)


def _asks(found: Paired) -> list[str]:
    """What to ask for where nothing carries the rig for certain, what would settle most first."""
    if found.carries or not found.undecided:
        return []
    missing = (name for each in found.undecided for name in each.missing)
    asks = [asked(each) for each in found.questions] or [f"Please say: {each}." for each in dict.fromkeys(missing)]
    return asks or [NO_ONE_ANSWER]


def _turned_down(turned: Sequence[TurnedDown]) -> Iterator[Line]:
    if not turned:
        return
    yield ()
    yield (Piece("Turned down:", "title"),)
    for says, each in _by_reason(turned).items():
        yield from paragraph("", f"{says[:1].upper()}{says[1:]}: {each}.")


def _by_reason(found: Sequence[TurnedDown | Undecided]) -> dict[str, str]:
    """The parts by the one reason, in the order met."""
    groups: dict[str, list[str]] = {}
    for each in found:
        names = [f'"{part.name}"' for part in each.parts]
        with_what = f" with {' and '.join(names[1:])}" if names[1:] else ""
        groups.setdefault(each.says, []).append(f"{names[0]}{with_what}")
    return {says: _listed(names) for says, names in groups.items()}


def _listed(names: Sequence[str]) -> str:
    more = f"; and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED + 1 else ""
    return f"{'; '.join(names[:MOST_NAMED] if more else names)}{more}"


def pairings_json(lists: Sequence[tuple[str, Sequence[Paired]]]) -> str:
    """The pairings of lists as JSON text; its schema ships as `showing/schemas/pairings-1.json`."""
    rigs = [_rig_json(path, each) for path, found in lists for each in found]
    return json.dumps({"schema": PAIRINGS, "rigs": rigs}, ensure_ascii=False, allow_nan=False, indent=2) + "\n"


def _rig_json(path: str, found: Paired) -> dict[str, Any]:
    return {
        "list": path,
        "rig": found.rig,
        "combinations": found.combinations,
        "chosen_from": dict(found.stock),
        "carries": [_carries_json(each) for each in found.carries],
        "whole": found.whole,
        "undecided": [{**_reason_json(each), "missing": list(each.missing)} for each in found.undecided],
        "asks": _asks(found),
        "turned_down": [_reason_json(each) for each in found.turned_down],
    }


def _carries_json(carries: Carries) -> dict[str, Any]:
    return {
        "parts": _parts_json(carries.pairing),
        "adapters": carries.pairing.adapters,
        "stock": STOCK_WORDS[carries.stock],
        "margins": {
            each.name: {**amount_json(each.amount, each.dimension), "combination": dict(each.choice)}
            for each in carries.margins
        },
        "watch": list(carries.watch),
    }


def _parts_json(pairing: Pairing) -> list[dict[str, str]]:
    return [{"kind": each.kind, "name": each.name} for each in pairing.all_parts]


def _reason_json(each: TurnedDown | Undecided) -> dict[str, Any]:
    parts = [{"kind": part.kind, "name": part.name} for part in each.parts]
    return {"parts": parts, "rule": each.rule or None, "says": each.says}
