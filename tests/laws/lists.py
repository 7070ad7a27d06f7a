"""Random gear lists, as data that a test can change and as the text that a person would type.

A list is a few parts and one rig. Numbers are whole grams and millimetres, so that text holds them exactly and plain
fractions can be reckoned with them.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction

from hypothesis import settings
from hypothesis import strategies as st

from kitproof.model.kitlist import KitList
from tests.model.texts import made

FEW = settings(max_examples=max(1, settings().max_examples // 5))
"""For laws that proof whole lists: a fifth of what the profile asks for."""

Ends = tuple[int, int] | None
"""Whole grams or millimetres from low to high; None is `?`."""

LB = Fraction(45359237, 100000000)
INCH = Fraction(254, 10000)


@dataclass(frozen=True)
class Thing:
    """One part: its mass, its height if it is a support part, and its centre of gravity from its own seat."""

    name: str
    kind: str
    mass: Ends
    forward: Ends = (0, 0)
    up: Ends = (0, 0)
    left: Ends = (0, 0)
    height: Ends = (0, 0)
    at: tuple[Ends, Ends, Ends] | None = None  # forward, up, left of the camera's seat; None for a part of the support


@dataclass(frozen=True)
class Gear:
    """A head with its figures, a slide, a base, a camera, alternatives of a lens, and what hangs on the camera.

    `mount` is the lens mount, forward and up of the camera's seat. `figures` are lines of the head's entry.
    """

    figures: tuple[str, ...]
    axis: int | None
    travel: tuple[int, int]
    slide: Thing
    base: Thing
    camera: Thing
    mount: tuple[int, int]
    lenses: tuple[Thing, ...]
    hung: tuple[Thing, ...]
    itself: bool = False
    tilts: str = ""
    extra: tuple[str, ...] = field(default=())  # further lines of the rig

    @property
    def things(self) -> tuple[Thing, ...]:
        return (self.slide, self.base, self.camera, *self.lenses, *self.hung)


@dataclass(frozen=True)
class Writing:
    """How a list is typed: in which units, in which order, under which names."""

    mass: str = "kg"
    length: str = "mm"
    backwards: bool = False
    split: bool = False
    prefix: str = ""
    mirrored: bool = False


def number(value: Fraction) -> str:
    """Digits enough that nothing is lost: exact where the decimals end, else to seventeen places."""
    text = f"{value.numerator}" if value.denominator == 1 else f"{float(value):.17g}"
    return text if "e" not in text else f"{float(value):.20f}"


def _mass(ends: Ends, how: Writing) -> str:
    if ends is None:
        return "?"
    unit = LB if how.mass == "lb" else Fraction(1)
    return _between([number(Fraction(end, 1000) / unit) for end in ends], how.mass)


def _length(ends: Ends, how: Writing) -> str:
    if ends is None:
        return "?"
    unit = INCH * 1000 if how.length == "in" else Fraction(1)
    return _between([number(Fraction(end) / unit) for end in ends], how.length)


def _between(ends: list[str], unit: str) -> str:
    return f"{ends[0]} {unit}" if ends[0] == ends[1] else f"{ends[0]}..{ends[1]} {unit}"


def _along(ends: Ends, words: tuple[str, str], how: Writing) -> str:
    """A length in a direction; one that is negative throughout is said the other way."""
    if ends is not None and ends[1] < 0:
        return f"{_length((-ends[1], -ends[0]), how)} {words[1]}"
    return f"{_length(ends, how)} {words[0]}"


def _place(forward: Ends, up: Ends, left: Ends, how: Writing) -> str:
    if forward is None and up is None and left is None:
        return "?"
    sideways = ("right", "left") if how.mirrored else ("left", "right")
    parts = [
        _along(forward, ("forward", "back"), how),
        _along(up, ("up", "down"), how),
        _along(left, sideways, how),
    ]
    return ", ".join(parts)


def _entry(thing: Thing, how: Writing, *more: str) -> str:
    lines = [
        f'part {thing.kind} "{how.prefix}{thing.name}"',
        f"mass {_mass(thing.mass, how)}",
        f"cog {_place(thing.forward, thing.up, thing.left, how)}",
        f"height {_length(thing.height, how)}",
        *more,
    ]
    return "\n  ".join(lines) + "\n"


def parts_text(gear: Gear, how: Writing) -> list[str]:
    """The entries of the parts, each a text of its own."""
    axis = () if gear.axis is None else (f"tilt axis {_length((gear.axis, gear.axis), how)} below plate",)
    head = [
        f'part head "{how.prefix}head"',
        "mass 3 kg",
        "takes screw 3/8-16",
        "sits on bowl 100 mm",
        *gear.figures,
        *axis,
    ]
    back, forward = gear.travel
    travel = f"travel {_length((back, back), how)} back to {_length((forward, forward), how)} forward"
    itself = ("slides itself",) if gear.itself else ()
    mount = f"takes lens PL at {_length((gear.mount[0],) * 2, how)} forward, {_length((gear.mount[1],) * 2, how)} up"
    return [
        "\n  ".join(head) + "\n",
        f'part sticks "{how.prefix}sticks"\n  mass 5 kg\n  rated 80 kg\n  takes bowl 100 mm\n',
        _entry(gear.slide, how, "sits on screw 3/8-16", "takes slide wide", travel, *itself),
        _entry(gear.base, how, "sits on slide wide", "takes screw 3/8-16"),
        _entry(gear.camera, how, "sits on screw 3/8-16", mount),
        *(_entry(lens, how, "sits on lens PL") for lens in gear.lenses),
        *(_entry(each, how) for each in gear.hung),
    ]


def rig_text(gear: Gear, how: Writing) -> str:
    named = [f'"{how.prefix}{lens.name}"' for lens in gear.lenses]
    slots = [("sticks", "sticks"), ("head", "head"), ("slide", gear.slide.name), ("base", gear.base.name)]
    lines = [f'{slot} "{how.prefix}{name}"' for slot, name in (*slots, ("camera", gear.camera.name))]
    lines += [f"lens {' or '.join(named)}"] if named else []
    for each in gear.hung:
        where = "?" if each.at is None else _place(*each.at, how)
        lines.append(f'{each.kind} "{how.prefix}{each.name}", at {where}')
    lines += [*gear.extra, *([f"tilts {gear.tilts}"] if gear.tilts else [])]
    return "\n  ".join(["rig A", *lines]) + "\n"


def texts(gear: Gear, how: Writing = Writing()) -> tuple[str, str]:
    """The list, and the book that it uses: empty where the list has its parts itself."""
    entries = [*parts_text(gear, how), rig_text(gear, how)]
    book = ""
    if how.split:
        half = len(entries) // 2
        book, entries = "\n".join(entries[:half]), ['use "book"\n', *entries[half:]]
    return "\n".join(entries[::-1] if how.backwards else entries), book


def kitlist(gear: Gear, how: Writing = Writing()) -> KitList:
    text, book = texts(gear, how)
    return made(text, parts="", book=book)


def ends(low: int, high: int) -> st.SearchStrategy[tuple[int, int]]:
    """An interval; half of them are sharp."""
    one = st.integers(low, high)
    return st.one_of(one.map(lambda n: (n, n)), st.tuples(one, one).map(lambda two: (min(two), max(two))))


@st.composite
def things(
    draw: st.DrawFn, name: str, kind: str, most: int = 6000, *, height: bool = False, hung: bool = False
) -> Thing:
    spot = ends(-150, 150)
    return Thing(
        name,
        kind,
        draw(ends(100, most)),
        draw(spot),
        draw(ends(0, 150)),
        draw(ends(-40, 40)),
        draw(ends(0, 120)) if height else (0, 0),
        (draw(spot), draw(ends(0, 250)), draw(ends(-80, 80))) if hung else None,
    )


FIGURES = (
    ("chart 25 kg at 100 mm, 14 kg at 200 mm, 6 kg at 400 mm",),
    ("chart 12 kg at 60 mm, 8 kg at 150 mm", "rated 12 kg"),
    ("rated 18 kg at 150 mm",),
    ("rated 16 kg",),
    (),
)


@st.composite
def gears(draw: st.DrawFn, figures: tuple[tuple[str, ...], ...] = FIGURES) -> Gear:
    lenses = [draw(things(f"lens {n}", "lens", 4000)) for n in range(draw(st.integers(0, 2)))]
    kinds = [draw(st.sampled_from(["monitor", "accessory", "handle", "light"])) for _ in range(draw(st.integers(0, 2)))]
    return Gear(
        draw(st.sampled_from(figures)),
        draw(st.one_of(st.none(), st.integers(0, 90))),
        (draw(st.integers(0, 120)), draw(st.integers(0, 120))),
        draw(things("slide", "slide", 1500, height=True)),
        draw(things("base", "base", 2000, height=True)),
        draw(things("camera", "camera", height=True)),
        (draw(st.integers(0, 100)), draw(st.integers(0, 150))),
        tuple(lenses),
        tuple(draw(things(f"{kind} {n}", kind, 1500, hung=True)) for n, kind in enumerate(kinds)),
        draw(st.booleans()),
    )


def with_thing(gear: Gear, old: Thing, new: Thing) -> Gear:
    """The same gear with one thing changed."""
    if old is gear.slide:
        return replace(gear, slide=new)
    if old is gear.base:
        return replace(gear, base=new)
    if old is gear.camera:
        return replace(gear, camera=new)
    return replace(
        gear,
        lenses=tuple(new if each is old else each for each in gear.lenses),
        hung=tuple(new if each is old else each for each in gear.hung),
    )
