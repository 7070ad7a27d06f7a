"""The nearest known names to one that is not known: for messages, never to be taken by itself."""

from __future__ import annotations

from collections.abc import Iterable

_MOST = 3
_LONGEST = 200


def nearest(word: str, known: Iterable[str]) -> tuple[str, ...]:
    """At most three known names, the nearest first; none where nothing is near.

    Near is within a third of the word's letters (slips of one letter, or two neighbours swapped, count one), or one
    of the two standing whole at the start of the other. Capitals do not matter. Ties keep the order given.
    """
    wanted = " ".join(word.split()).casefold()[:_LONGEST]
    if not wanted:
        return ()
    limit = max(1, len(wanted) // 3)
    ranked: list[tuple[int, int, str]] = []
    for order, name in enumerate(dict.fromkeys(known)):
        steps = _steps(wanted, name.casefold()[:_LONGEST], limit)
        if steps is not None:
            ranked.append((steps, order, name))
    return tuple(name for _, _, name in sorted(ranked)[:_MOST])


def _steps(wanted: str, name: str, limit: int) -> int | None:
    """How far apart the two are, None where further than `limit`."""
    if abs(len(wanted) - len(name)) <= limit:
        steps = distance(wanted, name, limit)
        if steps <= limit:
            return steps
    if name.startswith(wanted + " ") or wanted.startswith(name + " "):
        return limit + 1
    return None


def distance(one: str, other: str, limit: int) -> int:
    """The number of letters put in, left out, changed, or swapped with a neighbour; more than `limit` is cut short."""
    before: list[int] = []
    last = list(range(len(other) + 1))
    for i, letter in enumerate(one, start=1):
        row = [i]
        for j, against in enumerate(other, start=1):
            cost = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (letter != against))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == against:
                cost = min(cost, before[j - 2] + 1)
            row.append(cost)
        if min(row) > limit and min(last) > limit:
            return limit + 1
        before, last = last, row
    return last[-1]
