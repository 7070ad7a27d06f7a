"""Several parts looked at as one: what any of a line's alternatives may be, as the interval that takes in all of them.

A `Blend` stands in a build where a part would, for some options of a slot line. A field that is the same for all is
that field. Numbers that differ are given as their hull, and it is noted that the line was `blurred`. What differs and
is no number, such as an interface or a chart, cannot be given at once: looking at it raises `DiffersError`, which says
into which groups of options the line must be taken apart first.

A result worked out on hulls contains the result for each combination, since an interval result contains the result for
every point inside its inputs. Reaches (`legs`, `travel` …) are never taken together: all of a reach is used, so that
the hull of two reaches is another claim and not a wider one.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Hashable, Sequence
from typing import Any, TypeVar, cast

from msgspec.structs import replace

from kitproof.model.parts import Draw, Part, Seat
from kitproof.model.quantities import Interval, Spot
from kitproof.reading.document import Where

T = TypeVar("T")

HAIR = 1e-12
"""By how much of itself a hull is widened outwards, so that no rounding puts a combination outside of it."""

PINNED = -1
"""Stands among the lines that are blurred for a number that was pinned."""

FAR = 1e6
"""How far a number that has no upper end is pinned above its lower one at most."""

Pin = Callable[[float, float], float]
"""Takes one number of an interval."""

PINS: tuple[Pin, ...] = (
    lambda low, high: high if math.isfinite(high) else low + FAR,
    lambda low, high: low,
    lambda low, high: 0.0 if low <= 0 <= high else (low + high) / 2 if math.isfinite(high) else low + 1.0,
)
"""The highest and the lowest of what a number may be, and one between them, 0 where it may be that."""

OPEN = "\0"
"""The path of a place that depends on the option, and the mark around a word that does."""


class DiffersError(Exception):
    """What was looked at differs in kind between the options of a line: into which groups they must be taken apart."""

    def __init__(self, line: int, groups: Sequence[Sequence[int]]) -> None:
        super().__init__(line)
        self.line = line
        self.groups = tuple(tuple(group) for group in groups)


class BlurredError(Exception):
    """What was looked at is picked by its size, so that no hull can be given: the lines that are blurred."""

    def __init__(self, lines: frozenset[int]) -> None:
        super().__init__(lines)
        self.lines = lines


class Watch:
    """What has been looked at since it was last asked: the lines of which a hull was given that is wider than one
    option's. It lives as long as one rig is being judged.

    `texts` are words that differ between the options of a line, by the number that stands for them.
    """

    def __init__(self) -> None:
        self.blurred: set[int] = set()
        self.texts: list[tuple[int, dict[int, str]]] = []
        self._numbers: dict[Hashable, int] = {}

    def noted(self, known: dict[str, tuple[Any, frozenset[int]]], name: str, make: Callable[[], T]) -> T:
        """A value that is worked out once and kept in `known`, with the lines that are blurred in it: each time it is
        asked for they count as looked at."""
        if name not in known:
            before, self.blurred = self.blurred, set()
            try:
                made = make()
                known[name] = (made, frozenset(self.blurred))
            finally:
                self.blurred = before
        value, lines = known[name]
        self.blurred |= lines
        return cast(T, value)

    def sharply(self, make: Callable[[], T]) -> T:
        """A value in which nothing may be blurred."""
        before, self.blurred = self.blurred, set()
        try:
            value = make()
            if self.blurred:
                raise BlurredError(frozenset(self.blurred))
        finally:
            self.blurred = before
        return value

    def text(self, line: int, words: dict[int, str]) -> str:
        """A word that stands for those of the options of a line."""
        key = (line, tuple(words.items()))
        if key not in self._numbers:
            self._numbers[key] = len(self.texts)
            self.texts.append((line, words))
        return f"{OPEN}{self._numbers[key]}{OPEN}"

    def lines_in(self, text: str) -> list[int]:
        """The lines on whose options a text depends."""
        return [self.texts[int(number)][0] for number in _MARK.findall(text)]

    def spelled(self, text: str, picks: Sequence[int]) -> str:
        """A text as it is with these options chosen."""

        def word(found: re.Match[str]) -> str:
            line, words = self.texts[int(found[1])]
            return words[picks[line]]

        return _MARK.sub(word, text)


_MARK = re.compile(f"{OPEN}(\\d+){OPEN}")


def open_place(line: int) -> Where:
    """The place of whatever option of a line is chosen."""
    return Where(OPEN, line, 0, 0, 0)


class Blend:
    """Some options of a line, none of them `none`, as one part."""

    def __init__(
        self, line: int, options: Sequence[int], parts: Sequence[Part], watch: Watch, pin: Pin | None = None
    ) -> None:
        self._line, self._options, self._parts, self._watch, self._pin = line, options, parts, watch, pin
        self._known: dict[Hashable, tuple[Any, frozenset[int]]] = {}

    def __getattr__(self, name: str) -> Any:
        if name not in Part.__struct_fields__:
            raise AttributeError(name)
        return self._one(name, lambda part: getattr(part, name), words=False)

    @property
    def label(self) -> str:
        return self.of(_label)

    def lacks(self, field: str) -> str:
        return self._one(("lacks", field), lambda part: part.lacks(field), words=True)

    def blank(self, field: str) -> bool:
        return self._one(("blank", field), lambda part: part.blank(field), words=False)

    def of(self, function: Callable[[Part], T]) -> T:
        """What a function gives, worked out for each option: alike, or the hull."""
        return self._one(function, function, words=True)

    def _one(self, key: Hashable, function: Callable[[Part], T], *, words: bool) -> T:
        if key not in self._known:
            values = [function(part) for part in self._parts]
            lines = set()
            if self._pin is not None:
                pinned = [_pinned(value, self._pin) for value in values]
                lines |= {PINNED} if pinned != values else set()
                values = pinned
            if any(value != values[0] for value in values):
                merged = self._merged(values, words)
                lines |= {self._line} if _in_number(values) else set()
                self._known[key] = (merged, frozenset(lines))
            else:
                self._known[key] = (values[0], frozenset(lines))
        value, blurs = self._known[key]
        self._watch.blurred |= blurs
        return cast(T, value)

    def _merged(self, values: Sequence[Any], words: bool) -> Any:
        groups: dict[Hashable, list[int]] = {}
        for option, value in zip(self._options, values, strict=True):
            groups.setdefault(_form(value, words), []).append(option)
        if len(groups) > 1:
            raise DiffersError(self._line, list(groups.values()))
        return self._hull(values)

    def _hull(self, values: Sequence[Any]) -> Any:
        """The hull of values of one form."""
        first = values[0]
        if all(value == first for value in values):
            return first
        if isinstance(first, str):
            return self._watch.text(self._line, dict(zip(self._options, values, strict=True)))
        if isinstance(first, Interval):
            low, high = _widened(min(each.low for each in values), max(each.high for each in values))
            return replace(first, low=low, high=high)
        if _is_range(first):
            return _widened(min(each[0] for each in values), max(each[1] for each in values))
        if isinstance(first, tuple):
            return tuple(self._hull(each) for each in zip(*values, strict=True))
        fields = {name: self._hull([getattr(each, name) for each in values]) for name in first.__struct_fields__}
        return type(first)(**fields)


def _pinned(value: Any, pin: Pin) -> Any:
    """A value with one number in place of each interval. What may be anywhere stays so."""
    if isinstance(value, Interval):
        at = pin(value.low, value.high)
        return replace(value, low=at, high=at) if value.known and math.isfinite(at) else value
    if _is_range(value):
        at = pin(*value)
        return (at, at) if math.isfinite(at) else value
    if isinstance(value, tuple):
        return tuple(_pinned(each, pin) for each in value)
    if isinstance(value, Spot | Draw | Seat):
        return type(value)(**{name: _pinned(getattr(value, name), pin) for name in value.__struct_fields__})
    return value


def _widened(low: float, high: float) -> tuple[float, float]:
    """An end that is not there stays so: only ranges that differ come here, so that none has both on one side."""
    return low - HAIR * abs(low), high + HAIR * abs(high)


def _is_range(value: Any) -> bool:
    return isinstance(value, tuple) and len(value) == 2 and all(isinstance(each, float) for each in value)


def _in_number(values: Sequence[Any]) -> bool:
    """Whether values of one form differ in more than words, which are kept apart by their mark."""
    first = values[0]
    if isinstance(first, str):
        return False
    if isinstance(first, tuple):
        return any(_in_number(each) for each in zip(*values, strict=True))
    return any(value != first for value in values)


def _form(value: Any, words: bool) -> Hashable:
    """What values must have in common for their hull to be given: all but their numbers.

    With `words`, a word is what is missing of a part, and only its being there counts.
    """
    if isinstance(value, str) and words:
        return "word"
    if isinstance(value, Interval) and value.known:
        return ("interval", value.dimension, math.isfinite(value.low), math.isfinite(value.high))
    if _is_range(value):
        return ("range", math.isfinite(value[0]), math.isfinite(value[1]))
    if isinstance(value, tuple):
        return ("tuple", *(_form(each, words) for each in value))
    if isinstance(value, Spot | Draw | Seat):
        return (type(value).__name__, *(_form(getattr(value, name), words) for name in value.__struct_fields__))
    try:
        hash(value)
    except TypeError:
        return repr(value)  # tags, for one
    return cast(Hashable, value)


def _label(part: Part) -> str:
    return part.label


def of_each(function: Callable[[Part], T]) -> Callable[[Part], T]:
    """A function of one part that, of several looked at as one, is worked out for each: tighter than from their hull,
    and what it looks at need not be alike."""

    def found(part: Part) -> T:
        return part.of(function) if isinstance(part, Blend) else function(part)

    found.__doc__, found.__name__ = function.__doc__, function.__name__
    return found
