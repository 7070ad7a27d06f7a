"""Random lists: parts, one to three rigs with alternatives and changes, orders, moves and packed cases."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from tests.second.described import (
    NOTHING,
    ZERO,
    Case,
    Held,
    Kit,
    Line,
    Move,
    Ordered,
    Part,
    Quantity,
    Rig,
    Spot,
    Without,
)
from tests.second.mechanics_made import pushed, slope, tilts, wind
from tests.second.parts_made import part
from tests.second.quantities import DEGREES, HOURS, length, mass, minus, quantity, spot

SHELF: tuple[tuple[str, int], ...] = (
    ("sticks", 2),
    ("spreader", 1),
    ("riser", 1),
    ("adapter", 3),
    ("head", 2),
    ("plate", 1),
    ("slide", 2),
    ("base", 1),
    ("camera", 2),
    ("lens", 3),
    ("pan bar", 1),
    ("arm", 1),
    ("tie-down", 1),
    ("rods", 2),
    ("lens support", 1),
    ("matte box", 1),
    ("battery", 2),
    ("monitor", 2),
    ("accessory", 2),
    ("ballast", 1),
)
HEAD_STATES = (("tilt locked", "tilt free"), ("pan bar off", "pan bar loose", "pan bar down", "pan bar along legs"))
OTHER_STATES = (("slide on", "slide off"), ("camera on",), ("on sticks", "in own case"))
HUNG = ("battery", "matte box", "monitor", "accessory", "arm")


def kit(chance: random.Random) -> Kit:
    """One random list."""
    doubt = chance.choice((0.0, 0.05, 0.2, 0.4))
    whole = doubt < 0.1 and chance.random() < 0.8
    book_within, list_within = (_within(chance) if chance.random() < 0.15 else None for _ in range(2))
    parts, in_book = [], set()
    for kind, count in SHELF:
        for number in range(1, count + 1):
            name = f"{kind.title()} {number}"
            own = chance.random() < 0.2
            said = list_within if own else book_within
            parts.append(part(chance, kind, name, Fraction(said.high) if said else ZERO, doubt, whole=whole))
            in_book |= set() if own else {name}
    parts.append(_kit_part(chance))
    rigs = _rigs(chance, doubt, whole)
    dates = _dates(chance) if chance.random() < 0.5 else None
    moves = tuple(_move(chance, n) for n in range(chance.randrange(0, 3)))
    return Kit(
        parts=tuple(parts),
        in_book=frozenset({*in_book, "Kit 1"}),
        rigs=rigs,
        book_within=book_within,
        list_within=list_within,
        dates=dates,
        slope=slope(chance, doubt) if chance.random() < 0.3 else None,
        wind=wind(chance, doubt) if chance.random() < 0.3 else None,
        orders=tuple(_order(chance, parts) for _ in range(chance.randrange(0, 3))),
        moves=moves,
        cases=_cases(chance, parts, moves),
    )


def _within(chance: random.Random) -> Quantity:
    share = chance.choice((1, 2, 5))
    return Quantity(f"{share} %", Fraction(share, 100), Fraction(share, 100))


def _kit_part(chance: random.Random) -> Part:
    held = (("Lens 1", "Battery 1", "Monitor 1")[n] for n in sorted(chance.sample(range(3), 2)))
    return Part("kit", "Kit 1", includes=tuple((chance.randrange(1, 3), name) for name in held))


def _dates(chance: random.Random) -> tuple[date, date]:
    first = date(2027, 3, 1) + timedelta(days=chance.randrange(0, 20))
    return (first, first + timedelta(days=chance.randrange(0, 10)))


def _rigs(chance: random.Random, doubt: float, whole: bool) -> tuple[Rig, ...]:
    rigs = [_rig(chance, "A", doubt, whole)]
    for name in ("B", "C")[: chance.choice((0, 0, 1, 2))]:
        instead = tuple(each.name for each in rigs if chance.random() < 0.3)
        dates = _dates(chance) if chance.random() < 0.4 else None
        if chance.random() < 0.5:
            like = chance.choice(rigs)
            lines = _changes(chance, doubt)
            rigs.append(
                replace(like, name=name, lines=lines, like=like.name, dates=dates or like.dates, instead_of=instead)
            )
        else:
            rigs.append(replace(_rig(chance, name, doubt, whole), dates=dates, instead_of=instead))
    return tuple(rigs)


def _rig(chance: random.Random, name: str, doubt: float, whole: bool) -> Rig:
    """A rig from the ground up, then what hangs on its camera."""
    lines = [replace(_sticks(chance), at=_aside(chance, doubt, 0.1))]
    for slot, often in (("spreader", 0.3), ("riser", 0.3), ("adapter", 0.3)):
        if chance.random() < often:
            lines.append(Line(slot, _options(chance, slot, 1, 0.1), at=_aside(chance, doubt, 0.3)))
    lines.append(Line("head", _options(chance, "head", 2), at=_aside(chance, doubt, 0.3)))
    if chance.random() < 0.6:
        place = spot(chance, (-0.4, -0.05), (-0.1, 0.1)) if chance.random() < 0.6 else None
        lines.append(Line("pan bar", ("Pan Bar 1",), at=place, on="head"))
    for slot, often in (("plate", 0.3), ("slide", 0.8), ("base", 0.6)):
        if chance.random() < often:
            at = spot(chance, (-0.05, 0.05), None) if slot == "slide" and chance.random() < 0.4 else None
            lines.append(Line(slot, _options(chance, slot, 2, 0.08), at=at))
    lines.append(Line("camera", _options(chance, "camera", 2)))
    lines += _lenses(chance)
    for _ in range(chance.randrange(0, 6)):
        lines.append(_hung(chance, lines, doubt, whole))
    lines += _rods(chance, doubt)
    lines += _low(chance, doubt)
    dates = _dates(chance) if chance.random() < 0.3 else None
    return Rig(
        name,
        tuple(lines),
        underslung=chance.random() < 0.08,
        dates=dates,
        tilts=tilts(chance, doubt) if chance.random() < 0.8 else None,
        left_standing=chance.random() < 0.3,
        push=pushed(chance, doubt) if chance.random() < 0.3 else None,
        slope=slope(chance, doubt) if chance.random() < 0.4 else None,
        wind=wind(chance, doubt) if chance.random() < 0.4 else None,
    )


def _aside(chance: random.Random, doubt: float, often: float) -> Spot | None:
    """A place off the middle of what it stands on."""
    if chance.random() > often:
        return None
    return spot(chance, (-0.08, 0.08), None, (-0.08, 0.08), sharp=1 - doubt, unsaid=doubt / 8)


def _rods(chance: random.Random, doubt: float) -> list[Line]:
    """Rods, and what sits on them."""
    if chance.random() < 0.5:
        return []
    lines = [Line("rods", _options(chance, "rods", 1), at=_near(chance, (-0.05, 0.1), doubt))]
    for slot, name, reach in (
        ("matte box", "Matte Box 1", (0.05, 0.4)),
        ("lens support", "Lens Support 1", (0.05, 0.3)),
    ):
        if chance.random() < 0.5:
            on = "rods" if chance.random() < 0.7 else ""
            lines.append(Line(slot, (name,), on=on, at=_near(chance, reach, doubt)))
    return lines


def _near(chance: random.Random, reach: tuple[float, float], doubt: float) -> Spot | None:
    return spot(chance, reach, (-0.1, 0.1), sharp=1 - doubt) if chance.random() < 0.85 else None


def _sticks(chance: random.Random) -> Line:
    legs = None
    if chance.random() < 0.6:
        height = chance.randrange(500, 1500)
        legs = Quantity(f"{height} mm", Fraction(height, 1000), Fraction(height, 1000))
        if chance.random() < 0.3:
            legs = Quantity(f"{height}..{height + 200} mm", Fraction(height, 1000), Fraction(height + 200, 1000))
    return Line("sticks", _options(chance, "sticks", 2), legs=legs)


def _options(chance: random.Random, slot: str, most: int, none: float = 0.0) -> tuple[str | None, ...]:
    """One alternative, or now and then several; `none` is how often the last one is to leave the slot empty."""
    count = dict(SHELF)[slot]
    wanted = 1 if chance.random() < 0.75 else most
    names: list[str | None] = [f"{slot.title()} {n}" for n in chance.sample(range(1, count + 1), min(wanted, count))]
    return tuple([*names, None] if chance.random() < none else names)


def _lenses(chance: random.Random) -> list[Line]:
    if chance.random() < 0.1:
        return []
    lines = [Line("lens", _options(chance, "lens", 3, 0.05))]
    left = [n for n in ("Lens 1", "Lens 2", "Lens 3", None) if n not in lines[0].options]
    if left and chance.random() < 0.15:
        lines.append(Line("lens", (left[0],), word="or"))
    return lines


def _hung(chance: random.Random, lines: list[Line], doubt: float, whole: bool) -> Line:
    """Something on the camera, or on something else that is certainly there."""
    slot = chance.choice(HUNG)
    only = tuple(
        name for each in lines if each.slot == "lens" and len(each.options) > 1 for name in each.options[:1] if name
    )
    if chance.random() > 0.25:
        only = ()
    on, is_name = _on(chance, lines) if chance.random() < 0.35 else ("", False)
    at = None
    if whole or chance.random() < 0.6:
        at = spot(chance, (-0.2, 0.3), (-0.1, 0.3), (-0.1, 0.1), sharp=1 - doubt, unsaid=doubt / 8)
    if slot == "accessory" and not whole and chance.random() < 0.5:
        own = mass(chance, 0.1, 2, sharp=1 - doubt)
        return Line(slot, (f"thing {len(lines)}",), mass=own, at=at, on=on, on_is_name=is_name, only_with=only)
    spare = chance.randrange(1, 5) if slot == "battery" and chance.random() < 0.4 else 0
    options = _options(chance, slot, 2, 0.1)
    return Line(slot, options, at=at, on=on, on_is_name=is_name, spare=spare, only_with=only)


def _on(chance: random.Random, lines: list[Line]) -> tuple[str, bool]:
    sure = [each for each in lines if len(each.options) == 1 and not each.only_with and not each.word]
    wanted = [each for each in sure if each.slot in ("base", "slide", "plate", "riser", "arm", "lens", "monitor")]
    choice = chance.random()
    if choice < 0.25 or not wanted:
        return (chance.choice(("head", "sticks", "ground")), False)
    target = chance.choice(wanted)
    name = target.options[0]
    by_slot = choice < 0.6 and sum(each.slot == target.slot for each in lines) == 1
    alone = sum(name in each.options for each in lines) == 1
    return (target.slot, False) if by_slot else (name or "", True) if alone else ("head", False)


def _low(chance: random.Random, doubt: float) -> list[Line]:
    """What holds the sticks down."""
    lines = []
    if chance.random() < 0.25:
        lines.append(
            Line("tie-down", ("Tie-Down 1",), on="sticks", at=spot(chance, (-0.1, 0.1), (0.2, 0.9), (-0.1, 0.1)))
        )
    form = chance.random()
    if form < 0.12:
        lines.append(Line("ballast", ("",), mass=mass(chance, 5, 25, sharp=1 - doubt), hung=length(chance, 0.1, 0.6)))
    elif form < 0.2:
        lines.append(Line("ballast", ("Ballast 1",), hung=length(chance, 0.1, 0.6), at=_aside(chance, doubt, 0.4)))
    elif form < 0.3:
        lines.append(Line("ballast", ("Ballast 1",), on="ground"))
    return lines


def _changes(chance: random.Random, doubt: float) -> tuple[Line | Without, ...]:
    """What a rig that is `like` another says: a slot replaced, one more part, a slot or a part taken out."""
    changes: list[Line | Without] = []
    for slot in chance.sample(("lens", "camera", "head", "slide", "riser", "plate", "monitor"), chance.randrange(1, 4)):
        changes.append(Line(slot, _options(chance, slot, 2, 0.0 if slot == "head" else 0.05)))
    if chance.random() < 0.5:
        at = spot(chance, (-0.2, 0.3), (-0.1, 0.3), sharp=1 - doubt)
        changes.append(Line("monitor", ("Monitor 2",), word="also", at=at))
    if chance.random() < 0.2:
        changes.append(Line("spreader", ("Spreader 1",), word="also"))
    if len(changes) > 1 and chance.random() < 0.3:
        first = next(each for each in changes if isinstance(each, Line) and each.slot != "head")
        named = len(first.options) > 1 and chance.random() < 0.7
        changes.append(Without(first.slot, (first.options[0] or "") if named else ""))
    return tuple(changes)


def _order(chance: random.Random, parts: list[Part]) -> tuple[Ordered, ...]:
    found = []
    for each in chance.sample(parts, chance.randrange(1, 8)):
        count = chance.randrange(1, 5)
        found.append(Ordered(count, each.name, chance.randrange(1, count + 1) if chance.random() < 0.3 else 0))
    return tuple(found)


def _move(chance: random.Random, number: int) -> Move:
    lasts = quantity(chance, 7200, 2.0e6, HOURS, ("h", "days"), unsaid=0.1) if chance.random() < 0.85 else None
    return Move(f"Leg {number}", chance.random() < 0.4, lasts)


def _cases(chance: random.Random, parts: list[Part], moves: tuple[Move, ...]) -> tuple[Case, ...]:
    cases = []
    for number in range(chance.randrange(0, 3)):
        goes = tuple(each.name for each in moves if chance.random() < 0.6)
        held = tuple(_held(chance, each) for each in chance.sample(parts[:-1], chance.randrange(1, 4)))
        cases.append(Case(f"Tube {number}", goes, held))
    return tuple(cases)


def _held(chance: random.Random, thing: Part) -> Held:
    words = []
    tilted, step = None, None
    if thing.kind == "head" or chance.random() < 0.1:
        form = chance.random()
        if form < 0.3:
            tilted = Quantity("level", *NOTHING)
        elif form < 0.8:
            angle = quantity(chance, 0.1, 1.2, DEGREES, ("°",))
            down = chance.random() < 0.6
            ends = minus(angle.range) if down else angle.range
            tilted = Quantity(f"tilted {'down' if down else 'up'} {angle.text}", *ends)
        step = chance.choice((None, 0, 3, 8))
        words += [chance.choice(group) for group in HEAD_STATES if chance.random() < 0.6]
    words += [chance.choice(group) for group in OTHER_STATES if chance.random() < 0.25]
    return Held(thing.name, 1 if chance.random() < 0.7 else 2, tilted, step, tuple(words))
