"""Values that are alike but for their figures: the first of them is read by the grammar, the others after its pattern.

`2.94 kg` and `5.51 kg` make the same draft with other figures in it. There is no second reader: what is not yet known
is read by lark, and what is known was. The patterns are kept on disk, so that a changed list seldom loads lark at all.
"""

from __future__ import annotations

import pickle
import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any

from msgspec import Struct
from msgspec.structs import astuple

from kitproof import kept
from kitproof.reading.drafts import UnreadableError, Word
from kitproof.words.shapes import Shape

Filler = Callable[[str, int], Any]
"""Takes a value and the column where it begins."""

_FIGURES = str.maketrans("023456789", "111111111")
"""Every figure as 1 and none as 0: what is no fraction with ones in it is none with other figures, be one of them 0."""

_FIGURE_IN_A_WORD = re.compile(r"[^\W\d_][0-9]|[°^][0-9]")
"""A figure that is part of a unit or a word, such as m3: it is not one that another may stand for."""

_FREE_TEXT = Shape.TEXT.value
_LONGEST = 200
_MOST = 4000


def figures_blotted(text: str) -> str | None:
    """The text with every figure made alike, its columns kept; None where a figure is part of a word, or it is long."""
    if len(text) > _LONGEST or _FIGURE_IN_A_WORD.search(text):
        return None
    return text.translate(_FIGURES)


class Patterns:
    """The drafts of values with their figures blotted out, as they were first read, by the grammar's start and that."""

    def __init__(self, known: dict[tuple[str, str], Any]) -> None:
        self.known = known
        self.fillers: dict[tuple[str, str], Filler] = {}
        self.more = False

    def of(self, start: str, blotted: str) -> Filler:
        """What makes the draft of a value that is like this one. Raises UnreadableError."""
        key = start, blotted
        if key not in self.fillers:
            if key not in self.known:
                made = _anew(start, blotted, 0, len(blotted))
                if len(self.known) >= _MOST:
                    return _filler(made)
                self.known[key] = made
                self.more = True
            self.fillers[key] = _filler(self.known[key])
        return self.fillers[key]


@lru_cache(maxsize=1)
def _patterns() -> Patterns:
    keep = kept.here()
    known = keep.get("patterns", keep.stamp)
    return Patterns({} if known is None else pickle.loads(known))


def keep_patterns() -> None:
    """Keeps on disk what has been read since, for the next run."""
    patterns, keep = _patterns(), kept.here()
    if patterns.more:
        patterns.more = False
        keep.put("patterns", keep.stamp, pickle.dumps(patterns.known.copy()))


def draft(start: str, text: str, begin: int, end: int) -> Any:
    """The draft of the value in columns `begin` to `end` of a plain line, read as the grammar's `start`.

    Raises UnreadableError with the first column that cannot be read.
    """
    value = text[begin:end]
    free = start == _FREE_TEXT and '"' not in value
    blotted = "1" * min(len(value), _LONGEST) if free else figures_blotted(value)
    if blotted is None or len(blotted) < len(value):
        return _anew(start, text, begin, end)
    try:
        fill = _patterns().of(start, blotted)
    except UnreadableError as trouble:
        raise UnreadableError(None if trouble.at is None else trouble.at + begin) from None
    return fill(value, begin)


def _anew(start: str, text: str, begin: int, end: int) -> Any:
    from kitproof.reading.drafting import draft_anew  # loads lark

    return in_tuples(draft_anew(start, text, begin, end))


def in_tuples(node: Any) -> Any:
    """A draft of tuples: the lists of the grammar's own would bring lark with them."""
    if isinstance(node, list | tuple):
        return tuple(in_tuples(each) for each in node)
    if not isinstance(node, Struct) or isinstance(node, Word):
        return node
    return type(node)(*(in_tuples(each) for each in astuple(node)))


def _filler(node: Any) -> Filler:
    """What puts the words of a value into a pattern, in the columns where they stand."""
    if isinstance(node, Word):
        start, end = node.start, node.end
        return lambda value, begin: Word(value[start:end], start + begin, end + begin)
    if isinstance(node, tuple):
        each = [_filler(one) for one in node]
        return lambda value, begin: tuple([fill(value, begin) for fill in each])
    if not isinstance(node, Struct):  # None or, in a draft's place of a value, a word of our own
        return lambda value, begin: node
    return _struct_filler(node)


def _struct_filler(node: Struct) -> Filler:
    kind, told = type(node), astuple(node)
    columns = [number for number, one in enumerate(told) if type(one) is int]
    inner = [(number, _filler(one)) for number, one in enumerate(told) if isinstance(one, Struct | tuple)]

    def fill(value: str, begin: int) -> Struct:
        made = list(told)
        for number in columns:
            made[number] += begin
        for number, filled in inner:
            made[number] = filled(value, begin)
        return kind(*made)

    return fill
