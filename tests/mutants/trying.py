"""Runs tests on one mutant after another, each in a process of its own that is split off from one that has them loaded.

A mutant is tried only by the tests that run its line, those first that caught others in the same function, then those
of the module's own test file, then the quickest. The first test that fails ends it. One that takes far longer than it
should is stopped and counts as caught.
"""

from __future__ import annotations

import gc
import json
import os
import signal
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Sequence
from itertools import accumulate
from pathlib import Path
from types import CodeType, FrameType
from typing import Any, NamedTuple

import pytest
from _pytest.runner import runtestprotocol

from tests.mutants.changes import Mutant, is_value
from tests.mutants.live import PACKAGE, CannotPutInError, Live, names_in

ROOMS = tuple(str(PACKAGE / room) + os.sep for room in ("mechanics", "facts", "rulebook"))

CAUGHT, SURVIVED, STOPPED, NOT_RUN, UNREACHED = "caught", "survived", "stopped", "not run", "unreached"
"""A test failed; none did; one took far too long; the change cannot be made in loaded modules; no test comes by it."""


class Run(NamedTuple):
    """What one test ran: processor seconds, lines by file, and whether it held on the code as it is."""

    seconds: float
    lines: dict[str, set[int]]
    held: bool


class Outcome(NamedTuple):
    mutant: Mutant
    outcome: str
    by: str


def in_a_process_of_its_own(work: Callable[[], Any]) -> tuple[Any, int]:
    """What some work gives, as JSON has it, and the signal that ended it, 0 where it came to its end."""
    reading, writing = os.pipe()
    gc.freeze()  # what is there already is not looked through, and so not copied, by the new process
    child = os.fork()
    if child == 0:
        os.close(reading)
        _silence()
        try:
            answer = work()
        except BaseException as problem:
            answer = {"problem": f"{type(problem).__name__}: {problem}"}
        with os.fdopen(writing, "w") as out:
            json.dump(answer, out)
        os._exit(0)
    gc.unfreeze()
    os.close(writing)
    with os.fdopen(reading) as answers:
        said = answers.read()
    _, status = os.waitpid(child, 0)
    return (json.loads(said) if said else None), os.WTERMSIG(status) if os.WIFSIGNALED(status) else 0


def _silence() -> None:
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
    sys.stdout, sys.stderr = open(os.devnull, "w"), open(os.devnull, "w")  # noqa: SIM115  # ends with the process


def holds(test: pytest.Item, next_one: pytest.Item | None) -> bool:
    reports = runtestprotocol(test, log=False, nextitem=next_one)
    return not any(report.failed for report in reports)


class _Tracer:
    """Notes the lines that run in some rooms, by asking to be called at every line."""

    def __init__(self) -> None:
        self.seen: dict[CodeType, set[int]] = {}
        self._all: dict[CodeType, set[int]] = {}

    def start(self) -> None:
        sys.settrace(self._call)

    def stop(self) -> None:
        sys.settrace(None)

    def _call(self, frame: FrameType, event: str, argument: object) -> Any:
        code = frame.f_code
        if not code.co_filename.startswith(ROOMS):
            return None
        if code not in self.seen:
            self.seen[code] = {code.co_firstlineno}
            self._all[code] = {line for _, _, line in code.co_lines() if line is not None}
        return None if self.seen[code] >= self._all[code] else self._line

    def _line(self, frame: FrameType, event: str, argument: object) -> Any:
        if event == "line":
            self.seen[frame.f_code].add(frame.f_lineno)
        return self._line


class _Monitor:
    """The same from Python 3.12 on, which needs to be told of each line but once: many times as fast."""

    TOOL = 4

    def __init__(self) -> None:
        self.seen: dict[CodeType, set[int]] = defaultdict(set)
        self._monitoring: Any = sys.monitoring  # type: ignore[attr-defined, unused-ignore]  # not there before 3.12

    def start(self) -> None:
        self._monitoring.use_tool_id(self.TOOL, "mutants")
        self._monitoring.register_callback(self.TOOL, self._monitoring.events.LINE, self._line)
        self._monitoring.set_events(self.TOOL, self._monitoring.events.LINE)

    def stop(self) -> None:
        self._monitoring.free_tool_id(self.TOOL)

    def _line(self, code: CodeType, line: int) -> object:
        if code.co_filename.startswith(ROOMS):
            self.seen[code].add(line)
        return self._monitoring.DISABLE


def recorded(test: pytest.Item, live: Live) -> Run:
    """What a test runs, with the code as it is."""

    def work() -> Any:
        live.forget("rulebook/expressions")
        tracer = _Monitor() if sys.version_info >= (3, 12) else _Tracer()
        begun = time.process_time()
        tracer.start()
        held = holds(test, None)
        tracer.stop()
        seconds = time.process_time() - begun
        lines: dict[str, set[int]] = defaultdict(set)
        for code, seen in tracer.seen.items():
            lines[code.co_filename] |= seen
        return {"seconds": seconds, "held": held, "lines": {path: sorted(found) for path, found in lines.items()}}

    answer, _ = in_a_process_of_its_own(work)
    if not answer or "problem" in answer:
        return Run(0.0, {}, False)
    return Run(answer["seconds"], {path: set(found) for path, found in answer["lines"].items()}, answer["held"])


class Trial:
    """Tries mutants on tests, and learns which tests catch what."""

    def __init__(self, live: Live, runs: dict[pytest.Item, Run], patience: float) -> None:
        self._live = live
        self._runs = runs
        self._patience = patience
        self._caught: dict[tuple[str, str], Counter[str]] = defaultdict(Counter)

    def of(self, mutant: Mutant) -> Outcome:
        wanted = self._live.lines_that_use(mutant)
        asked = mutant.function if is_value(mutant) else ""
        tests = [
            test for test, run in self._runs.items() if run.held and (_meets(run.lines, wanted) or _asks(test, asked))
        ]
        if not tests:
            return Outcome(mutant, UNREACHED, "")
        known = self._caught[mutant.module, mutant.function]
        own = f"test_{mutant.module.rpartition('/')[2]}.py"
        tests.sort(key=lambda test: (-known[test.nodeid], test.path.name != own, self._runs[test].seconds))
        tests = self._within_patience(tests)
        answer, ended = in_a_process_of_its_own(lambda: self._first_failure(mutant, tests))
        if ended == signal.SIGVTALRM:
            return Outcome(mutant, STOPPED, "")
        if answer is None:
            return Outcome(mutant, CAUGHT, f"ended by signal {ended}")
        if "cannot" in answer:
            return Outcome(mutant, NOT_RUN, answer["cannot"])
        if "problem" in answer:
            return Outcome(mutant, CAUGHT, answer["problem"])
        if answer["by"] is None:
            return Outcome(mutant, SURVIVED, f"{len(tests)} tests")
        known[answer["by"]] += 1
        return Outcome(mutant, CAUGHT, answer["by"])

    def _within_patience(self, tests: list[pytest.Item]) -> list[pytest.Item]:
        """The first so many that take no longer together than is waited for, and always one."""
        ends = accumulate(self._runs[test].seconds for test in tests)
        return [test for test, end in zip(tests, ends, strict=True) if test is tests[0] or end <= self._patience]

    def _first_failure(self, mutant: Mutant, tests: Sequence[pytest.Item]) -> Any:
        try:
            self._live.put_in(mutant)
        except CannotPutInError as why:
            return {"cannot": str(why)}
        for test, next_one in zip(tests, [*tests[1:], None], strict=True):
            signal.setitimer(signal.ITIMER_VIRTUAL, 3 + 3 * self._runs[test].seconds)
            if not holds(test, next_one):
                return {"by": test.nodeid}
        return {"by": None}


def _asks(test: pytest.Item, name: str) -> bool:
    """Whether a test itself uses a name."""
    function = getattr(test, "obj", None)
    function = getattr(getattr(function, "hypothesis", None), "inner_test", function)
    code = getattr(function, "__code__", None)
    return bool(name) and code is not None and name in names_in(code)


def _meets(lines: dict[str, set[int]], wanted: dict[str, set[int]]) -> bool:
    return any(not found.isdisjoint(lines.get(path, ())) for path, found in wanted.items())


def kept_runs(path: Path, digest: str) -> dict[str, Run]:
    """Runs that were kept of the same code, by test; none where the code was another."""
    if not path.exists():
        return {}
    kept = json.loads(path.read_text(encoding="utf-8"))
    if kept["digest"] != digest:
        return {}
    return {
        name: Run(seconds, {file: set(found) for file, found in lines.items()}, held)
        for name, (seconds, lines, held) in kept["runs"].items()
    }


def keep_runs(path: Path, digest: str, runs: Iterable[tuple[str, Run]]) -> None:
    lines = {
        name: (run.seconds, {file: sorted(found) for file, found in run.lines.items()}, run.held) for name, run in runs
    }
    path.write_text(json.dumps({"digest": digest, "runs": lines}), encoding="utf-8")
