"""Replaces a file again and again and kills itself on the way, each time at another step; says how often the file was
the old one and how often the new one after that. It stands alone, because a process with threads must not be forked.

    python -m tests.mending.killed FOLDER TIMES SEED
"""

from __future__ import annotations

import os
import random
import signal
import sys
from collections import Counter
from pathlib import Path
from types import FrameType
from typing import Any

from kitproof.replacing import replace_file

OLD, NEW = b"rig A\n" * 20_000, b"rig B\n" * 30_000


def alone(path: Path) -> None:
    """Only the old file is left in its folder."""
    for each in path.parent.iterdir():
        each.unlink()
    path.write_bytes(OLD)


def steps(path: Path, last: int | None) -> int:
    """Replaces the file, and kills this process at a step if one is given; else says how many steps there are."""
    done = 0

    def count(frame: FrameType, event: str, argument: Any) -> Any:
        nonlocal done
        done += 1
        if done == last:
            os.kill(os.getpid(), signal.SIGKILL)
        return count

    sys.settrace(count)
    try:
        replace_file(path, OLD, NEW, keep=True)
    finally:
        sys.settrace(None)
    return done


def after_a_kill(path: Path, step: int) -> str:
    """What the file is after a process was killed at a step of replacing it."""
    child = os.fork()
    if child == 0:
        steps(path, step)
        os._exit(0)
    os.waitpid(child, 0)
    return {OLD: "old", NEW: "new"}.get(path.read_bytes(), "neither")


def main(folder: str, times: str, seed: str) -> None:
    path = Path(folder) / "order.kitlist"
    alone(path)
    steps(path, None)  # what is done only once in a process is done
    alone(path)
    last = steps(path, None)
    chance = random.Random(int(seed))
    found: Counter[str] = Counter()
    for number in range(int(times)):
        alone(path)
        # Every fourth kill is near the end, where the old file becomes the new one.
        found[after_a_kill(path, chance.randint(last - 60 if number % 4 == 0 else 1, last))] += 1
        kept = [each for each in Path(folder).glob("*.before-mending*") if each.read_bytes() != OLD]
        found["kept copy spoilt"] += len(kept)
    print(", ".join(f"{name} {many}" for name, many in sorted(found.items()) if many))


if __name__ == "__main__":
    main(*sys.argv[1:])
