"""Case, move, order and waiver entries made into models."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from kitproof.model import convert
from kitproof.model.convert import Line
from kitproof.model.impossible import possible_case, possible_charge
from kitproof.model.kitlist import Case, Lifted, Move, Order, OrderLine, Packed, Waiver
from kitproof.model.lost import lost_days
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval
from kitproof.model.reports import Report
from kitproof.model.rig_maker import FindPart
from kitproof.reading.document import Document, Entry, Field, Held, Lift, Ordered, Where
from kitproof.words.dimensions import ANGLE, FREQUENCY, LENGTH, MASS, NUMBER
from kitproof.words.kinds import ENTRIES
from kitproof.words.shapes import Shape


def _lines(document: Document, entry: Entry) -> Iterator[tuple[str, Field, Line]]:
    names = {field.word: field.name for field in ENTRIES[entry.kind]}
    for field in entry.fields:
        yield names.get(field.word, field.word), field, Line(document, entry, field)


def _plain(document: Document, entry: Entry, apart: tuple[str, ...]) -> tuple[dict[str, Any], dict[str, Where]]:
    """The fields that stand for themselves, and the place of every field; those `apart` are left to the caller."""
    words = {field.name: field for field in ENTRIES[entry.kind]}
    values: dict[str, Any] = {}
    places: dict[str, Where] = {}
    for name, field, line in _lines(document, entry):
        places.setdefault(name, line.where())
        if name in apart or name not in words or name == "note":
            continue
        if field.shape is Shape.TAG:
            if field.value is not None:
                word, said = convert.tag(field.value)  # type: ignore[arg-type]  # the shape says which value it is
                values["tag"] = {**values.get("tag", {}), word: said}
        elif field.value is not None or field.shape in (Shape.QUANTITY, Shape.REACH):
            values[name] = convert.plain(words[name], field.value, line)
        elif field.shape is Shape.SIZE:
            values[name] = ()  # written and not read: what the house's case has must not stand in for it
    return values, places


def make_move(document: Document, entry: Entry) -> Move:
    values, places = _plain(document, entry, ())
    by = values.pop("by", ())
    return Move(
        name=entry.name,
        where=document.where(entry, 0, 0, entry.end),
        by=" ".join(by),
        places=places,
        **values,
    )


def make_order(document: Document, entry: Entry, find: FindPart) -> Order:
    """An order with its lines. Rows that could not be read are named, since each may have ordered anything.

    Where one of them may have been its `dates`, its days are not known, and not those of its list.
    """
    values, places = _plain(document, entry, ())
    days = lost_days(document, entry)
    places |= {"dates": days} if days is not None else {}
    lines = []
    unread = [entry.line + row for row in entry.unread]
    for field in entry.fields:
        line = Line(document, entry, field)
        if field.shape is not Shape.ORDERED:
            continue
        value = field.value
        if not isinstance(value, Ordered):
            unread.append(entry.line + field.row)
            continue
        part = find("", value.name.text, None, line.where(value.name))
        lines.append(
            OrderLine(
                part=part,
                count=value.count,
                spare=value.spare,
                for_rig=value.for_rig,
                supplier=entry.name,
                where=line.where(),
            )
        )
    return Order(
        supplier=entry.name,
        dates=values.get("dates"),
        lines=tuple(lines),
        where=document.where(entry, 0, 0, entry.end),
        unread=tuple(f"order line {number}, which could not be read" for number in sorted(set(unread))),
        places=places,
    )


def make_case(
    document: Document, entry: Entry, moves: Mapping[str, Move], within: float, find: FindPart, report: Report
) -> Case:
    """A case with what it holds; sizes, mass and limit not said are those of the house's case that it is.

    `within` widens its own mass.
    """
    values, places = _plain(document, entry, ("is", "goes", "holds", "lifted"))
    values = possible_case(values, places, report)
    house: Part | None = None
    goes: list[str] = []
    lost_moves: list[str] = []
    holds: list[Packed] = []
    lifted: Lifted | None = None
    unread = [entry.line + row for row in entry.unread]
    for name, field, line in _lines(document, entry):
        value: Any = field.value
        if name == "mass" and value is not None:
            values["mass"] = convert.interval(convert.widened(value, within), MASS)
        if value is None:
            if name == "holds":
                unread.append(entry.line + field.row)
            elif name == "goes":
                lost_moves.append(f'case "{entry.name}": a move of line {entry.line + field.row}')
        elif name == "is":
            house = find("case", value.text, None, line.where(value))
        elif name == "goes":
            known = list(_moves(value, moves, line, report))
            goes.extend(known)
            lost_moves.extend(f'move "{each.name.text}"' for each in value.names if each.name.text not in known)
        elif name == "holds":
            holds.append(_packed(value, find, line, report))
        elif name == "lifted":
            lifted = _lifted(value, line)
    if house is not None:
        lent = {"inside": house.inside, "outside": house.outside, "mass": house.mass, "limit": house.limit}
        values = {**{word: said for word, said in lent.items() if said}, **values}
    return Case(
        name=entry.name,
        where=document.where(entry, 0, 0, entry.end),
        house_case=house,
        goes=tuple(goes),
        lost_moves=tuple(lost_moves),
        holds=tuple(holds),
        lifted=lifted,
        places=places,
        unread=tuple(f'case "{entry.name}": line {number}, which could not be read' for number in sorted(set(unread))),
        **values,
    )


def _moves(value: Any, moves: Mapping[str, Move], line: Line, report: Report) -> Iterator[str]:
    for each in value.names:
        if each.name.text in moves:
            yield each.name.text
        else:
            report(
                "unknown-part", line.where(each.name), each.name.text, known=tuple(moves), wanted="a move of this list"
            )


def _packed(value: Held, find: FindPart, line: Line, report: Report) -> Packed:
    values: dict[str, Any] = {}
    states: set[str] = set()
    places: dict[str, Where] = {}
    for state in value.states:
        states.add(state.text)
        places[state.text.replace(" ", "_")] = line.where(state)
        match state.text:
            case "level":
                values["tilted"] = Interval(0.0, 0.0, ANGLE)
            case "tilted up" | "tilted down":
                angle = convert.interval(state.quantity, ANGLE)
                low, high = (angle.low, angle.high) if state.text == "tilted up" else (-angle.high, -angle.low)
                values["tilted"] = Interval(low, high, ANGLE, angle.known)
            case "counterbalance":
                values["step"] = state.step
            case "charge":
                charge = convert.interval(state.quantity, NUMBER)
                values["charge"] = possible_charge(charge, line.where(state), report)
            case "fitted in":
                values["fitted_in"] = state.name.text if state.name else ""
    part = None if value.is_case else find("", value.name.text, value.mass, line.where(value.name))
    return Packed(
        part=part,
        case_name=value.name.text if value.is_case else "",
        count=value.count,
        where=line.where(value.name),
        states=frozenset(states),
        places=places,
        **values,
    )


def _lifted(value: Lift, line: Line) -> Lifted:
    return Lifted(
        people=value.people,
        from_height=convert.maybe(value.from_height, LENGTH),
        to_height=convert.maybe(value.to_height, LENGTH),
        out=convert.maybe(value.out, LENGTH),
        rate=convert.maybe(value.rate, FREQUENCY),
        where=line.where(),
    )


def make_waiver(document: Document, entry: Entry) -> Waiver:
    values, places = _plain(document, entry, ())
    return Waiver(
        rule=entry.name,
        subject=entry.subject,
        until=values.get("until"),
        because=values.get("because", ""),
        by=values.get("by", ""),
        where=document.where(entry, 0, 0, entry.end),
        places=places,
    )
