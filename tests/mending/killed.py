"""Mends a list again and again and kills itself on the way, each time at another step of putting the mended list in
place; says how often the file was the old one and how often the new one after that. It stands alone, because a process
with threads must not be forked.

    python -m tests.mending.killed FOLDER TIMES SEED
"""

from __future__ import annotations

import os
import random
import signal
import sys
from collections import Counter
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path
from types import FrameType
from typing import Any

from kitproof import replacing
from kitproof.changing import put_in_place
from kitproof.files import Source
from kitproof.mending.mend import mended
from tests.mending.grounds import ground, rule, rules

OLD = 'move "M"\n  lasts     3 days\n' + "# as long as this\n" * 5_000
DONE = mended(ground(OLD, rules({"long": rule("move", "lasts > 24 h", "set lasts to 24 h")})))
NEW = DONE.ground.file.text


def alone(path: Path) -> None:
    """Only the old file is left in its folder."""
    for each in path.parent.iterdir():
        each.unlink()
    path.write_text(OLD, "utf-8", newline="")


def steps(path: Path, last: int | None) -> tuple[int, int]:
    """Puts the mended list in place, and kills this process at a step if one is given.

    Else it says how many steps there are, and which is the last one of replacing the file.
    """
    source = Source(str(path), path.resolve(), path.parent.resolve(), OLD.encode())
    done = written = 0

    def count(frame: FrameType, event: str, argument: Any) -> Any:
        nonlocal done, written
        done += 1
        if frame.f_code.co_filename == replacing.__file__:
            written = done
        if done == last:
            os.kill(os.getpid(), signal.SIGKILL)
        return count

    sys.settrace(count)
    try:
        with redirect_stdout(StringIO()):
            put_in_place(source, DONE)
    finally:
        sys.settrace(None)
    return done, written


def after_a_kill(path: Path, step: int) -> str:
    """What the file is after a process was killed at a step of replacing it."""
    child = os.fork()
    if child == 0:
        steps(path, step)
        os._exit(0)
    os.waitpid(child, 0)
    return {OLD: "old", NEW: "new"}.get(path.read_bytes().decode(), "neither")


def main(folder: str, times: str, seed: str) -> None:
    path = Path(folder) / "order.kitlist"
    alone(path)
    steps(path, None)  # what is done only once in a process is done
    alone(path)
    last, written = steps(path, None)
    chance = random.Random(int(seed))
    found: Counter[str] = Counter()
    for number in range(int(times)):
        alone(path)
        # Most kills are while files are written, the others anywhere up to the last word that is printed.
        found[after_a_kill(path, chance.randint(1, written if number % 4 else last))] += 1
        kept = [each for each in Path(folder).glob("*.before-mending*") if each.read_bytes().decode() != OLD]
        found["kept copy spoilt"] += len(kept)
    print(", ".join(f"{name} {many}" for name, many in sorted(found.items()) if many))


if __name__ == "__main__":
    main(*sys.argv[1:])
