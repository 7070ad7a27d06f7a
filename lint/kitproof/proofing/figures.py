"""The figures that a build rests on, each with its place in the text, and the same build with one of them changed.

By changing one figure and working a fact out again it is found which figures a fact rests on, and which of them widens
it most: nothing here is a table of what depends on what.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.build import Build, Standing
from kitproof.facts.outlines import centre_of
from kitproof.facts.support import HOUSE_NUMBERS
from kitproof.model.parts import Part, Point, Seat
from kitproof.model.quantities import ANYWHERE, Interval, Range, Reach, Spot
from kitproof.reading.document import Where
from kitproof.words.dimensions import LENGTH, Dimension
from kitproof.words.kinds import fields_of
from kitproof.words.shapes import Shape

AXES = ("forward", "up", "left")


class Figure(Struct, frozen=True):
    """One figure: what it is called, its ends in SI, where it stands, and the build with other ends in its place.

    `reach` for one that is all used, and so is no doubt; `said` is False for a stand-in, where nothing was written.
    `lacks` is how lists of what is missing call it, `field` the field it is of; "" for what a rig's line says.
    """

    label: str
    ends: Range
    dimension: Dimension
    where: Where
    changed: Callable[[Range], Build]
    reach: bool = False
    said: bool = True
    lacks: str = ""
    field: str = ""

    @property
    def doubtful(self) -> bool:
        return not self.reach and self.ends[0] < self.ends[1]


def figures(build: Build) -> list[Figure]:
    """Every figure of the parts and lines of a build, each part once."""
    found: list[Figure] = []
    names: set[str] = set()
    for number, standing in enumerate(build.standing):
        found += _of_line(build, number, standing)
        if standing.part.name not in names or not standing.part.name:
            names.add(standing.part.name)
            found += _of_part(build, standing.part)
    return found


def _with_part(build: Build, old: Part, new: Part) -> Build:
    standing = tuple(replace(each, part=new) if each.part is old else each for each in build.standing)
    return replace(build, standing=standing)


class _Maker(Struct, frozen=True):
    """Makes the figures of one part: `make` is called with new ends and gives the fields to change."""

    build: Build
    part: Part

    def figure(
        self,
        field: str,
        ends: Range,
        dimension: Dimension,
        make: Callable[[Range], dict[str, Any]],
        *,
        word: str = "",
        where: Where | None = None,
        reach: bool = False,
        said: bool = True,
    ) -> Figure:
        def changed(new: Range) -> Build:
            return _with_part(self.build, self.part, replace(self.part, **make(new)))

        label = f"{self.part.label}: {word or field.replace('_', ' ')}"
        spot, lacks = where or self.part.where_of(field), self.part.lacks(field)
        return Figure(label, ends, dimension, spot, changed, reach, said, lacks, field)


def _of_part(build: Build, part: Part) -> Iterator[Figure]:
    maker = _Maker(build, part)
    for field in Part.__struct_fields__:
        value = getattr(part, field)
        if isinstance(value, Interval | Reach):
            ends = (value.low, value.high)
            yield maker.figure(field, ends, value.dimension, _plain(field, value), reach=isinstance(value, Reach))
        elif isinstance(value, tuple):
            yield from _of_tuple(maker, field, value)
    yield from _of_centre(maker)
    yield from _not_written(maker)
    if part.kind == "head" and part.tilt_axis is None:
        least, most = (each.value for each in HOUSE_NUMBERS if each.name.startswith("axis"))
        yield maker.figure("tilt_axis", (least, most), LENGTH, _axis, said=False)


def _not_written(maker: _Maker) -> Iterator[Figure]:
    """Quantities that the part's kind has and that nobody wrote."""
    part = maker.part
    words = {word.name: word for word in fields_of("part", part.kind).values()}
    for field, word in words.items():
        if word.shape is not Shape.QUANTITY or word.dimension is None or getattr(part, field) is not None:
            continue
        if field == "mass" and part.weighed is not None:
            continue
        make = _plain(field, Interval(0.0, math.inf, word.dimension, known=False))
        yield maker.figure(field, (0.0, math.inf), word.dimension, make, said=False)


def _plain(field: str, value: Interval | Reach) -> Callable[[Range], dict[str, Any]]:
    return lambda new: {field: replace(value, low=new[0], high=new[1], known=True)}


def _axis(new: Range) -> dict[str, Any]:
    return {"tilt_axis": Interval(*new, LENGTH)}


def _of_tuple(maker: _Maker, field: str, value: tuple[Any, ...]) -> Iterator[Figure]:
    """Points of charts and sides of sizes, one by one."""
    words = field.replace("_", " ")
    for index, each in enumerate(value):
        if isinstance(each, Interval):
            make = _side(field, value, index)
            yield maker.figure(field, each.range, each.dimension, make, word=f"{words}, side {index + 1}")
        if isinstance(each, Seat) and each.at is not None:
            for axis in AXES:
                make = _port(field, value, index, axis)
                yield maker.figure(field, getattr(each.at, axis), LENGTH, make, word=f"{each.words} {axis}")
        if not isinstance(each, Point):
            continue
        for name, word in (("value", f"{words}, point {index + 1}"), ("at", f"{words}, height of point {index + 1}")):
            inner: Interval | None = getattr(each, name)
            if inner is not None:
                make = _point(field, value, index, name)
                yield maker.figure(field, inner.range, inner.dimension, make, word=word, where=each.where)


def _port(field: str, value: tuple[Any, ...], index: int, axis: str) -> Callable[[Range], dict[str, Any]]:
    def make(new: Range) -> dict[str, Any]:
        port = replace(value[index], at=replace(value[index].at, **{axis: new}))
        return {field: (*value[:index], port, *value[index + 1 :])}

    return make


def _point(field: str, value: tuple[Any, ...], index: int, name: str) -> Callable[[Range], dict[str, Any]]:
    def make(new: Range) -> dict[str, Any]:
        inner = replace(getattr(value[index], name), low=new[0], high=new[1], known=True)
        point = replace(value[index], **{name: inner})
        return {field: (*value[:index], point, *value[index + 1 :])}

    return make


def _side(field: str, value: tuple[Any, ...], index: int) -> Callable[[Range], dict[str, Any]]:
    def make(new: Range) -> dict[str, Any]:
        side = replace(value[index], low=new[0], high=new[1], known=True)
        return {field: (*value[:index], side, *value[index + 1 :])}

    return make


def _of_centre(maker: _Maker) -> Iterator[Figure]:
    """The centre of gravity, axis by axis; where none is written, what its outline stands in for."""
    part = maker.part
    if part.kind == "sticks":
        return
    spot, _ = centre_of(part)
    for axis in AXES:
        ends = getattr(spot, axis)
        yield maker.figure("cog", ends, LENGTH, _centre(spot, axis), word=f"cog {axis}", said=part.cog is not None)


def _centre(spot: Spot, axis: str) -> Callable[[Range], dict[str, Any]]:
    return lambda new: {"cog": replace(spot, **{axis: new}), "cog_known": True}


def _of_line(build: Build, number: int, standing: Standing) -> Iterator[Figure]:
    """What a slot line says itself: where the part is, and how high the legs stand."""
    line = standing.line

    def with_line(**values: Any) -> Build:
        new = replace(standing, line=replace(line, **values))
        return replace(build, standing=(*build.standing[:number], new, *build.standing[number + 1 :]))

    if line.at is not None:
        for axis in AXES:
            ends: Range = getattr(line.at, axis)
            if ends == (0.0, 0.0):
                continue

            def moved(new: Range, axis: str = axis, spot: Spot = line.at) -> Build:
                return with_line(at=replace(spot, **{axis: new}), at_known=True)

            yield Figure(f"{standing.part.label}: at, {axis}", ends, LENGTH, line.where, moved)
    if line.legs is not None:
        legs = line.legs
        yield Figure(
            f"{standing.part.label}: legs at",
            (legs.low, legs.high),
            LENGTH,
            line.where,
            lambda new: with_line(legs=replace(legs, low=new[0], high=new[1])),
            reach=True,
        )


def nudged(ends: Range) -> Range:
    """Slightly other ends, to see whether anything rests on them; of what is not known, a plain 1."""
    if ends == ANYWHERE or ends[1] == float("inf"):
        return (1.0, 1.0)
    step = 1e-5 * max(abs(ends[0]), abs(ends[1]), 1e-2)
    return (ends[0] + step, ends[1] + step)


def middle(ends: Range) -> Range:
    """One value inside: the middle, or for what is without end the end that it has, or 0."""
    low, high = ends
    if high == float("inf"):
        value = low if low > -float("inf") else 0.0
    else:
        value = (low + high) / 2 if low > -float("inf") else high
    return (value, value)
