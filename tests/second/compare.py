"""`python -m tests.second.compare --rigs 10000 --seed 1`: random lists by both implementations, on all cores.

It prints what was compared and each place where the two differ, and ends with 1 where there is any.
"""

from __future__ import annotations

import argparse
import os
import random
import sys
from concurrent.futures import ProcessPoolExecutor
from itertools import count

from tests.second.agreeing import Tally, compare
from tests.second.lists_made import kit

SHARE = 40
"""Lists that one process takes at a time."""


def one(number: int) -> Tally:
    """The comparison of the list of a number; anything raised is a difference too."""
    try:
        return compare(kit(random.Random(number)), f"list {number}")
    except Exception as problem:
        return Tally(differ=[f"list {number}: {type(problem).__name__}: {problem}"])


def some(numbers: range) -> Tally:
    """The comparison of several lists."""
    tally = Tally()
    for number in numbers:
        tally.add(one(number))
    return tally


def many(rigs: int, seed: int, cores: int) -> Tally:
    """Lists from `seed` on until so many rigs have been compared; the same lists each time, on however many cores.

    Only how far beyond that many rigs it goes depends on the cores.
    """
    tally = Tally()
    firsts = (seed * 1_000_000 + SHARE * n for n in count())
    with ProcessPoolExecutor(cores) as pool:
        while tally.rigs < rigs:
            shares = [range(first, first + SHARE) for first, _ in zip(firsts, range(2 * cores), strict=False)]
            for found in pool.map(some, shares):
                tally.add(found)
                for each in found.differ:
                    print(each, flush=True)
            print(f"{tally.rigs} rigs, {len(tally.differ)} differences", file=sys.stderr, flush=True)
    return tally


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--rigs", type=int, default=10_000, help="how many rigs at least")
    asked.add_argument("--seed", type=int, default=1, help="which lists: each number has its own")
    asked.add_argument("--cores", type=int, default=os.cpu_count() or 1, help="on how many cores")
    options = asked.parse_args()
    tally = many(options.rigs, options.seed, options.cores)
    print(f"{tally.rigs} rigs in {tally.combinations} combinations")
    for name, number in tally.compared.items():
        print(f"  {name:18} compared {number} times")
    print(f"{len(tally.differ)} differences")
    return 1 if tally.differ else 0


if __name__ == "__main__":
    sys.exit(main())
