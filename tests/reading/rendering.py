"""A document written out for people to check: one line for each entry, field and slip, with numbers in SI."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kitproof.reading import document as d
from kitproof.reading.document import Document, Entry, Slip
from kitproof.words.dimensions import LENGTH, Dimension
from kitproof.words.units import UNITS

_SYMBOLS = {
    UNITS[name].dimension: symbol
    for name, symbol in {
        "kg": " kg",
        "m": " m",
        "s": " s",
        "rad": " rad",
        "N": " N",
        "J": " J",
        "W": " W",
        "V": " V",
        "A": " A",
        "Ah": " C",
        "K": " K",
        "m/s": " m/s",
        "m²": " m²",
        "N·m": " N·m",
        "times an hour": " /s",
    }.items()
}


def rendered(document: Document) -> str:
    lines: list[str] = []
    for entry in document.entries:
        lines.append(f"{entry.line} {_first(entry)}")
        for field in entry.fields:
            value = "not read" if field.value is None else shown(field.value)
            lines.append(f"{entry.line + field.row}   {field.word} = {value}".rstrip(" ="))
        lines += [slip_line(entry.line, slip) for slip in entry.slips]
        if entry.unread:
            lines.append("  unread: " + " ".join(str(entry.line + row) for row in entry.unread))
    return "\n".join((*lines, *(slip_line(line, slip) for line, slip in document.slips))) + "\n"


def slip_line(line: int, slip: Slip) -> str:
    more = f" -> {slip.repair}" if slip.repair is not None else ""
    near = f" (near: {', '.join(slip.nearest)})" if slip.nearest else ""
    how = "since" if slip.kind == "figures-contradict" else "wants"
    at = f"{line + slip.row}:{slip.start + 1}-{slip.end + 1}"
    return f"  {at} {slip.kind} [{slip.said}] {how} {slip.wanted}{near}{more}"


def _first(entry: Entry) -> str:
    said = [entry.kind or "?", entry.part_kind, f'"{entry.name}"' if entry.name else ""]
    said += [f"like {entry.like}" if entry.like else "", f"in {entry.subject}" if entry.subject else ""]
    said += [f"within {shown(entry.within)}" if entry.within else ""]
    return " ".join(each for each in said if each)


def shown(value: Any) -> str:
    return _SHOWN[type(value)](value)


def _ends(low: float, high: float, dimension: Dimension | None) -> str:
    symbol = _SYMBOLS.get(dimension, "") if dimension is not None else ""
    return f"{low:.8g}{symbol}" if low == high else f"{low:.8g}..{high:.8g}{symbol}"


def _quantity(value: d.Quantity) -> str:
    if not value.known:
        return "?"
    return _ends(value.low, value.high, value.dimension) + ("" if value.how == "exact" else f" ({value.how})")


def _reach(value: d.Reach) -> str:
    return "reach " + (_ends(value.low, value.high, value.dimension) if value.known else "?")


def _place(value: d.Place) -> str:
    if not value.known:
        return "place ?"
    return "place " + " ".join(
        f"{axis} {_along(value, axis)}" for axis in ("forward", "up", "left") if axis in value.said
    )


def _along(value: d.Place, axis: str) -> str:
    low, high = {"forward": value.forward, "up": value.up, "left": value.left}[axis]
    return _ends(low, high, LENGTH)


def _points(value: d.Points) -> str:
    if not value.known:
        return "?"
    return ", ".join(_quantity(p.value) + (f" at {_quantity(p.at)}" if p.at else "") for p in value.points)


def _interface(value: d.Interface) -> str:
    at = f" at {_place(value.at)}" if value.at else ""
    return (f"{value.family}|{value.size}" if value.known else "?") + at


def _steps(value: d.Steps) -> str:
    at = f" at {_quantity(value.at)}" if value.at else ""
    return _reach(value.reach) + at + (" stepless" if value.stepless else f" steps {value.steps}")


def _draw(value: d.Draw) -> str:
    return _quantity(value.usual) + (f", most {_quantity(value.most)}" if value.most else "")


def _weighed(value: d.Weighed) -> str:
    return (
        f"front {_quantity(value.front)} at {_place(value.front_at)}, "
        f"rear {_quantity(value.rear)} at {_place(value.rear_at)}"
    )


def _name(value: d.Name) -> str:
    return f'"{value.text}"'


def _counted(value: d.Counted) -> str:
    return ", ".join(f"{each.count} x {_name(each.name)}" for each in value.names)


def _tag(value: d.Tag) -> str:
    return f"{value.word}: {shown(value.value)}"


def _choices(value: d.Choices) -> str:
    said = [" or ".join("none" if each is None else _name(each) for each in value.options)]
    said += [f"mass {_quantity(value.mass)}"] if value.mass else []
    said += [f"at {_place(value.at)}"] if value.at else []
    said += [f"on {'name ' if value.on_is_name else ''}{value.on}"] if value.on else []
    said += [f"legs {_reach(value.legs)}"] if value.legs else []
    said += [f"hung {_quantity(value.hung)}"] if value.hung else []
    said += [f"spare {value.spare}"] if value.spare else []
    said += ["only with " + " or ".join(_name(each) for each in value.only_with)] if value.only_with else []
    return "; ".join(each for each in said if each)


def _also(value: d.Also) -> str:
    return f"{value.slot}: {_choices(value.choices)}"


def _without(value: d.Without) -> str:
    return value.slot + (f" {_name(value.name)}" if value.name else "")


def _ordered(value: d.Ordered) -> str:
    return (
        f"{value.count} x {_name(value.name)}"
        + (f"; for {value.for_rig}" if value.for_rig else "")
        + (f"; spare {value.spare}" if value.spare else "")
    )


def _state(value: d.State) -> str:
    more = [_quantity(value.quantity)] if value.quantity else []
    more += [f"step {value.step}"] if value.step is not None else []
    more += [_name(value.name)] if value.name else []
    return " ".join((value.text, *more))


def _held(value: d.Held) -> str:
    said = f"{value.count} x {'case ' if value.is_case else ''}{_name(value.name)}"
    mass = [f"mass {_quantity(value.mass)}"] if value.mass else []
    return "; ".join((said, *mass, *(_state(each) for each in value.states)))


def _lift(value: d.Lift) -> str:
    parts = {"from": value.from_height, "to": value.to_height, "out": value.out, "rate": value.rate}
    return f"by {value.people}" + "".join(f"; {word} {_quantity(each)}" for word, each in parts.items() if each)


_SHOWN: dict[type, Callable[[Any], str]] = {
    d.Quantity: _quantity,
    d.Reach: _reach,
    d.Place: _place,
    d.Size: lambda value: " x ".join(_quantity(each) for each in value.sides) if value.known else "?",
    d.Points: _points,
    d.Interface: _interface,
    d.Axis: lambda value: f"depth {_quantity(value.depth)}",
    d.Steps: _steps,
    d.Draw: _draw,
    d.Weighed: _weighed,
    d.Phrases: lambda value: ", ".join(each.text for each in value.phrases),
    d.Flag: lambda value: "yes",
    d.Name: _name,
    d.Counted: _counted,
    d.Count: lambda value: str(value.number),
    d.Day: lambda value: str(value.day),
    d.Dates: lambda value: f"{value.first.day} to {value.last.day}",
    d.Tag: _tag,
    d.Choices: _choices,
    d.Also: _also,
    d.Without: _without,
    d.Ordered: _ordered,
    d.Held: _held,
    d.Lift: _lift,
}
