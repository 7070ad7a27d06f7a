"""Work shared out over several processes: the same as done one after the other, and what goes wrong comes back."""

from __future__ import annotations

import os
import signal

import pytest

from kitproof.cores import ENOUGH, cores, each_of


@pytest.mark.parametrize("hands", [1, 2, 3, 7])
@pytest.mark.parametrize("count", [0, 1, ENOUGH - 1, ENOUGH, 50])
def test_what_comes_back_is_in_the_order_of_the_things(hands: int, count: int) -> None:
    factor = 3  # held by the work itself, not sent with each thing
    assert list(each_of(lambda thing: thing * factor, range(count), hands)) == [3 * n for n in range(count)]


def test_the_work_is_done_by_so_many_processes() -> None:
    done = list(each_of(lambda _: os.getpid(), range(ENOUGH), 3))
    assert len(set(done)) == 3
    assert os.getpid() not in done


def test_few_things_are_not_worth_a_process() -> None:
    assert set(each_of(lambda _: os.getpid(), range(ENOUGH - 1), 3)) == {os.getpid()}


def _fails_at_thirty(thing: int) -> int:
    if thing == 30:
        raise ValueError("thirty")
    return thing


@pytest.mark.parametrize("hands", [1, 2])
def test_what_the_work_raises_is_raised_here(hands: int) -> None:
    with pytest.raises(ValueError, match="thirty"):
        list(each_of(_fails_at_thirty, range(50), hands))


def test_what_a_process_leaves_undone_is_done_here() -> None:
    here = os.getpid()

    def ends(thing: int) -> int:
        if thing == 30 and os.getpid() != here:
            os.kill(os.getpid(), signal.SIGKILL)
        return thing

    assert list(each_of(ends, range(50), 2)) == list(range(50))


def test_a_machine_has_one_core_at_least() -> None:
    assert cores() >= 1
