"""Times of whole processes and of calls, taken in turn so that a slow moment of the machine falls on all alike."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from pathlib import Path

Before = Callable[[int], object]
MEMORY_UNIT = 1 if sys.platform == "darwin" else 1024
"""What the system counts a process's memory in, in bytes."""


class Work:
    """One process to time: its words, where, and what is done before each run (given its number)."""

    def __init__(self, words: list[str], folder: Path, around: Mapping[str, str], before: Before | None = None) -> None:
        self.words, self.folder, self.around, self.before = words, folder, around, before
        self.most_memory = 0
        """The most that any run of it had in memory at once, in bytes."""

    def run(self, number: int) -> float:
        """Processor time of the process and its children, in s: on a busy machine it says more than the clock."""
        if self.before is not None:
            self.before(number)
        process = subprocess.Popen(
            self.words, cwd=self.folder, env=self.around, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
        )
        assert process.stderr is not None
        said = process.stderr.read()
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        process.stderr.close()
        if process.returncode not in (0, 1):
            raise SystemExit(f"{' '.join(self.words)} ended with {process.returncode}:\n{said.decode()}")
        self.most_memory = max(self.most_memory, used.ru_maxrss * MEMORY_UNIT)
        return used.ru_utime + used.ru_stime


def in_turn(works: Mapping[str, Work], times: int) -> dict[str, float]:
    """The median of each, in s; the first run of each is not counted."""
    found: dict[str, list[float]] = {name: [] for name in works}
    for number in range(times + 1):
        for name, work in works.items():
            taken = work.run(number)
            if number:
                found[name].append(taken)
    return {name: statistics.median(each) for name, each in found.items()}


def calls_in_turn(calls: Mapping[str, Callable[[], object]], times: int) -> dict[str, float]:
    """The median processor time of each call in this process, in s."""
    found: dict[str, list[float]] = {name: [] for name in calls}
    for _ in range(times):
        for name, call in calls.items():
            began = time.process_time()
            call()
            found[name].append(time.process_time() - began)
    return {name: statistics.median(each) for name, each in found.items()}


def surroundings(keep: Path) -> dict[str, str]:
    """What the processes see: a folder of their own to keep things in, and compiled modules, as users have them."""
    around = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**around, "KITPROOF_KEEPS_IN": str(keep), "PYTHONPYCACHEPREFIX": str(keep / "compiled")}


def tool(name: str) -> str:
    """A command of the environment that this runs in."""
    return str(Path(sys.executable).parent / name)
