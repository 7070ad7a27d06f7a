"""`python -m tests.mutants.run MODULE…`: are there mistakes in a module that no test would find?

Makes one small change at a time in the named modules ("mechanics/ranges"; "mechanics" is all of that room) and runs
the tests that come by the changed line. A change that no test notices is a survivor; those that make no difference, or
none that matters, are listed in `survivors.toml` with the reason. Ends with 1 where a survivor is not listed there, or
where one is listed that is no change of the code any more.

Runs on systems that can split a process in two (`fork`), one process at a time.
"""

from __future__ import annotations

import argparse
import hashlib
import math
import random
import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from importlib import import_module
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings

from tests.mutants.changes import Mutant, mutants_of, only
from tests.mutants.known import entry, known, stale
from tests.mutants.live import PACKAGE, Live, path_of, warm
from tests.mutants.trying import NOT_RUN, SURVIVED, UNREACHED, Outcome, Run, Trial, keep_runs, kept_runs, recorded

TESTS = ("tests/mechanics", "tests/facts", "tests/rulebook", "tests/outside")
WIDER = ("tests/rules", "tests/laws", "tests/samples", "tests/proofing", "tests/second", "tests/golden")
HARMED = (SURVIVED, UNREACHED)


def modules_named(names: Iterable[str]) -> list[str]:
    """Modules by their room and name; a room stands for all in it."""
    found: list[str] = []
    for name in names:
        inside = sorted((PACKAGE / name).glob("*.py")) if (PACKAGE / name).is_dir() else [path_of(name)]
        for path in inside:
            if not path.exists():
                raise SystemExit(f"there is no module {name}; write it as mechanics/ranges")
            found.append(path.relative_to(PACKAGE).with_suffix("").as_posix())
    return list(dict.fromkeys(found))


class Course:
    """The whole of it, run by pytest in the place of its own loop once the tests are collected."""

    def __init__(self, options: argparse.Namespace) -> None:
        self._options = options
        self.outcomes: list[Outcome] = []
        self.stale: list[str] = []

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        modules = modules_named(self._options.modules)
        for module in modules:
            import_module("kitproof." + module.removesuffix("/__init__").replace("/", "."))
        warm()
        live = Live()
        mutants = [each for module in modules for each in mutants_of(module, live.source(module))]
        listed = known()
        gone = stale(listed, {each.name for each in mutants}, set(modules))
        self.stale = [entry(each.name) for each in gone]
        mutants = self._chosen(mutants)
        wider = tuple(str(Path(folder)) for folder in WIDER)
        first = [test for test in session.items if not test.nodeid.startswith(wider)]
        then = [test for test in session.items if test.nodeid.startswith(wider)]
        self.outcomes = self._tried(live, mutants, first)
        left = [each.mutant for each in self.outcomes if each.outcome in HARMED]
        if then and left:
            again = {each.mutant.name: each for each in self._tried(live, left, then)}
            self.outcomes = [_later(each, again.get(each.mutant.name)) for each in self.outcomes]
        return True

    def _chosen(self, mutants: list[Mutant]) -> list[Mutant]:
        if self._options.only:
            return only(mutants, self._options.only)
        if self._options.share < 1:
            # In the order drawn, so that a run that is broken off is a fair share too.
            return random.Random(self._options.seed).sample(mutants, round(self._options.share * len(mutants)))
        return mutants

    def _tried(self, live: Live, mutants: Sequence[Mutant], tests: Sequence[pytest.Item]) -> list[Outcome]:
        trial = Trial(live, self._runs(tests, live), self._options.patience)
        outcomes = []
        for number, mutant in enumerate(mutants, start=1):
            outcome = trial.of(mutant)
            outcomes.append(outcome)
            self._say(f"{number}/{len(mutants)}", outcome)
        return outcomes

    def _say(self, number: str, outcome: Outcome) -> None:
        mutant = outcome.mutant
        place = f"{mutant.module} {mutant.function} line {mutant.lines.start}"
        print(f"{number} {outcome.outcome}: {place}: {mutant.was} → {mutant.now} [{outcome.by}]", file=sys.stderr)
        if self._options.survivors and outcome.outcome in HARMED:
            with self._options.survivors.open("a", encoding="utf-8") as out:
                out.write(f"{mutant.name!r}\n")

    def _runs(self, tests: Sequence[pytest.Item], live: Live) -> dict[pytest.Item, Run]:
        """What each test runs. Kept from one run to the next where a file for it is named and the code is the same."""
        digest = _digest(PACKAGE.rglob("*.py"))
        kept = kept_runs(self._options.runs, digest) if self._options.runs else {}
        of_file = {path: _digest([path]) for path in {test.path for test in tests}}
        runs, by_name = {}, dict(kept)
        for number, test in enumerate(tests, start=1):
            name = f"{test.nodeid} {of_file[test.path]}"
            run = kept.get(name) or recorded(test, live)
            runs[test] = by_name[name] = run
            if number % 100 == 0:
                print(f"{number}/{len(tests)} tests looked at", file=sys.stderr)
            if not run.held:
                print(f"left out, as it fails on the code as it is: {test.nodeid}", file=sys.stderr)
        if self._options.runs:
            keep_runs(self._options.runs, digest, by_name.items())
        print(f"{len(tests)} tests run {sum(run.seconds for run in runs.values()):.0f} s", file=sys.stderr)
        return runs


def _later(first: Outcome, then: Outcome | None) -> Outcome:
    """What came of a mutant in the end. That no wider test comes by it does not undo that one before did."""
    return first if then is None or then.outcome == UNREACHED else then


def _digest(paths: Iterable[Path]) -> str:
    return hashlib.sha256(b"".join(path.read_bytes() for path in sorted(paths))).hexdigest()


def table(outcomes: Sequence[Outcome], listed: set[tuple[str, str, str, str, int]]) -> list[str]:
    """How many of each module's mutants came to what, and the share of them that is caught or listed with a reason."""
    lines = [f"{'module':32} {'made':>6} {'caught':>6} {'stopped':>7} {'listed':>6} {'open':>5} {'not run':>7}"]
    modules = sorted({each.mutant.module for each in outcomes})
    for module in [*modules, ""]:
        count: Counter[str] = Counter()
        for each in outcomes:
            if each.mutant.module == module or not module:
                harmed = each.outcome in HARMED
                count[("listed" if each.mutant.name in listed else "open") if harmed else each.outcome] += 1
        cells = (count["caught"], count["stopped"], count["listed"], count["open"], count[NOT_RUN])
        made = "{:6} {:6} {:7} {:6} {:5} {:7}".format(count.total(), *cells)
        lines.append(f"{module or 'together':32} {made}")
    return lines


def main() -> int:
    options = _asked()
    # As the tests run everywhere, but that a failure is not made smaller: that it fails is enough.
    phases = (Phase.explicit, Phase.generate)
    settings.register_profile(
        "mutants",
        derandomize=True,
        deadline=None,
        database=None,
        max_examples=100,
        phases=phases,
        suppress_health_check=[HealthCheck.too_slow],
    )
    course = Course(options)
    paths = [*options.tests, *(() if options.narrow else WIDER)]
    plain = ["-q", "-s", "-p", "no:cacheprovider", "--hypothesis-profile", "mutants"]
    plain += ["-W", "ignore::pytest.PytestAssertRewriteWarning"]  # hypothesis is here already, and no test of ours
    pytest.main([*plain, *(path for path in paths if Path(path.partition("::")[0]).exists())], plugins=[course])
    listed = {each.name for each in known()}
    print("\n".join(table(course.outcomes, listed)))
    opened = [each for each in course.outcomes if each.outcome in HARMED and each.mutant.name not in listed]
    for each in opened:
        print(f"\n# {each.outcome}, line {each.mutant.lines.start}\n{entry(each.mutant.name)}")
    for gone in course.stale:
        print(f"\n# in survivors.toml, and no change of the code any more\n{gone}")
    return 1 if opened or course.stale or not course.outcomes else 0


def _asked() -> argparse.Namespace:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("modules", nargs="+", metavar="MODULE")
    asked.add_argument("--tests", nargs="+", default=TESTS, help="those tried first")
    asked.add_argument("--narrow", action="store_true", help="only those, and not the wider ones on what they miss")
    asked.add_argument("--patience", type=float, default=math.inf, help="seconds of tests for one mutant, at most")
    asked.add_argument("--share", type=float, default=1.0, help="how much of the mutants to try, drawn by lot")
    asked.add_argument("--seed", type=int, default=1, help="which lot")
    asked.add_argument("--only", type=Path, help="try those of a file that --survivors wrote")
    asked.add_argument("--survivors", type=Path, help="add the survivors to this file")
    asked.add_argument("--runs", type=Path, help="keep what each test runs in this file, for the next time")
    return asked.parse_args()


if __name__ == "__main__":
    sys.exit(main())
