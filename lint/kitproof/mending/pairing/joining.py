"""Adapters that join what is chosen to what stands on it: every run of as few as will do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kitproof.facts.mating import JOINERS, shortest_bridge
from kitproof.model.parts import Part, Seat

Runs = tuple[tuple[Part, ...], ...]
DIRECT: Runs = ((),)
_Faces = frozenset[tuple[str, str]]


class Joining:
    """The runs between parts, worked out once for each pair of interfaces."""

    def __init__(self, books: Sequence[Part]) -> None:
        self.books = tuple(part for part in books if part.kind in JOINERS and part.sits_on and part.takes)
        self.known: dict[tuple[_Faces, tuple[_Faces, ...]], Runs] = {}

    def runs(self, lower: Part, uppers: Sequence[Part]) -> Runs:
        """The runs from a part up to all that may stand there; none where they do not mate.

        Where it is not known by what one is mounted, no adapter is put in: the joint is then for the rules to judge.
        """
        known = lower.takes and "takes" not in lower.unread
        uppers = [each for each in uppers if each.sits_on and "sits_on" not in each.unread]
        if not uppers or not known:
            return DIRECT
        key = (_faces(lower.takes), tuple(_faces(each.sits_on) for each in uppers))
        if key not in self.known:
            self.known[key] = self._runs(lower.takes, uppers)
        return self.known[key]

    def _runs(self, ports: Sequence[Seat], uppers: Sequence[Part]) -> Runs:
        apart = [each for each in uppers if not mates(ports, each.sits_on)]
        if not apart:
            return DIRECT
        least = max(len(shortest_bridge(ports, each.sits_on, self.books)) for each in apart)
        runs = self._of_length(ports, least, ()) if least else ()
        return tuple(run for run in runs if all(mates(run[-1].takes, each.sits_on) for each in uppers))

    def _of_length(self, ports: Sequence[Seat], length: int, run: tuple[Part, ...]) -> Iterator[tuple[Part, ...]]:
        if len(run) == length:
            yield run
            return
        for part in self.books:
            if part not in run and mates(ports, part.sits_on):
                yield from self._of_length(part.takes, length, (*run, part))


def mates(ports: Sequence[Seat], seats: Sequence[Seat]) -> bool:
    """Whether a seat and a port agree in family and size."""
    return not _faces(ports).isdisjoint(_faces(seats))


def _faces(seats: Sequence[Seat]) -> _Faces:
    return frozenset((each.family, each.size) for each in seats)
