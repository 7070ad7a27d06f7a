"""`python -m tests.corpus.run --lists 2000 --seed 1`: plants so many faults, each rule as often, on all cores.

It prints each fault that was not found and each finding that was not declared, and ends with 1 where there is any;
then, rule by rule, what was planted, found and met beside it.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from random import Random

from tests.corpus.check import Result, check, unused
from tests.corpus.planters import PLANTERS

SHARE = 10
"""Lists that one process takes at a time."""


def one(seed: int, number: int, rules: Sequence[str]) -> Result:
    """The list of a number; the same each time. Anything raised is a problem too."""
    rule = rules[number % len(rules)]
    try:
        return check(rule, Random(f"{seed} {number}"), f"list {number}")
    except Exception as problem:
        return Result(1, problems=[f"list {number}, {rule}: {type(problem).__name__}: {problem}"])


def some(seed: int, numbers: Sequence[int], rules: Sequence[str]) -> Result:
    result = Result()
    for number in numbers:
        result.add(one(seed, number, rules))
    return result


def many(lists: int, seed: int, rules: Sequence[str], workers: int) -> Result:
    """So many lists, over several processes."""
    result = Result()
    shares = [range(first, min(first + SHARE, lists)) for first in range(0, lists, SHARE)]
    with ProcessPoolExecutor(workers) as pool:
        for got in pool.map(some, [seed] * len(shares), shares, [rules] * len(shares)):
            result.add(got)
            for each in got.problems:
                print(each, flush=True)
    return result


def table(result: Result) -> list[str]:
    """For each rule how many faults were planted and found, and what was met beside them, how often."""
    lines = []
    for rule, planted in sorted(result.planted.items()):
        beside = ", ".join(f"{kind} {count}" for (of, kind), count in result.met.most_common() if of == rule)
        lines.append(f"{rule}: {planted} planted, {result.found[rule]} found{f'; beside: {beside}' if beside else ''}")
    return lines


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--lists", type=int, default=2000, help="how many lists")
    asked.add_argument("--seed", type=int, default=1, help="which lists: each number has its own")
    asked.add_argument("--rule", action="append", choices=sorted(PLANTERS), help="only faults of this rule")
    options = asked.parse_args()
    result = many(options.lists, options.seed, options.rule or list(PLANTERS), os.cpu_count() or 1)
    for line in table(result):
        print(line)
    print(f"{result.lists} lists, {result.found.total()} faults found by their rules, of {len(result.found)} rules")
    print(f"{result.met.total()} declared consequences met, of {len(result.met)} kinds")
    print("declared and not met: " + ("; ".join(unused(result.met)) or "none"))
    print(f"{len(result.problems)} problems")
    return 1 if result.problems else 0


if __name__ == "__main__":
    sys.exit(main())
