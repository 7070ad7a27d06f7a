"""Work on many things shared out over the cores of the machine; what comes back is in the order of the things."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

T = TypeVar("T")
R = TypeVar("R")

ENOUGH = 24
"""From so many things on it is worth starting further processes."""


def cores() -> int:
    """How many cores this process may use; 1 where it cannot be split in two with all that it holds (`fork`)."""
    if sys.platform == "win32" or sys.platform == "darwin":
        return 1
    return len(os.sched_getaffinity(0))


def each_of(work: Callable[[T], R], things: Sequence[T], hands: int) -> Iterator[R]:
    """What some work gives for each thing, in turn, done by so many processes. What the work raises is raised here.

    What a process leaves undone that was ended from outside is done here too.
    """
    if hands < 2 or len(things) < ENOUGH:
        yield from map(work, things)
        return
    import multiprocessing

    fork = multiprocessing.get_context("fork")
    ends: list[Connection] = []
    for number in range(hands):
        here, there = fork.Pipe(duplex=False)
        fork.Process(target=_hand, args=(work, things[number::hands], there), daemon=True).start()
        there.close()
        ends.append(here)
    for number in range(len(things)):
        try:
            found, trouble = ends[number % hands].recv()
        except EOFError:
            found, trouble = work(things[number]), None
        if trouble is not None:
            raise trouble
        yield found


def _hand(work: Callable[[T], R], things: Sequence[T], end: Connection) -> None:
    for thing in things:
        try:
            end.send((work(thing), None))
        except BrokenPipeError:  # nobody waits for it any more
            return
        except Exception as trouble:
            end.send((None, trouble))
            return
