"""The speed of Kitproof in ratios, all of one run: `python -m tests.benchmarks.run` prints the table of README.md.

Whole processes do the full proof with every rule, and print it. The others do a smaller job on the same data: yamllint
looks at the layout of the same lines as YAML, PyYAML's C loader with pydantic models reads and types them, tomllib
reads them as TOML. Figures are ratios of medians of processor time.
"""

from __future__ import annotations

import argparse
import gc
import platform
import shutil
import tempfile
import tracemalloc
from collections.abc import Callable, Iterator
from datetime import date
from functools import partial
from pathlib import Path

from kitproof.books import shipped_book
from kitproof.facts.values import Amount, Verdict
from kitproof.mending.filetext import FileText
from kitproof.mending.ground import Given, Ground
from kitproof.mending.pairing.results import Paired
from kitproof.mending.pairing.search import paired
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.sources import Fetched, Sources, gather
from kitproof.proofing.findings import Proof
from kitproof.proofing.proof import proof
from kitproof.reading.entries import by_text, read
from kitproof.rulebook.rules import RuleBook
from kitproof.rulebook.truths import NEAR, TINY, compare
from tests.benchmarks.made import as_toml, as_yaml, edited, list_of, rig_of_many, stock_of
from tests.benchmarks.timing import Work, calls_in_turn, in_turn, surroundings, tool

DAY = date(2027, 3, 1)
TYPED = """
import sys, yaml
from pydantic import BaseModel, ConfigDict
class Entry(BaseModel):
    model_config = ConfigDict(extra="allow")
    entry: str
with open(sys.argv[1]) as file:
    print(len([Entry(**each) for each in yaml.load(file, Loader=yaml.CSafeLoader)]))
"""


MESHED = """
import numpy
chance = numpy.random.default_rng(1)
masses = [chance.uniform(0.3, 5, 10) for _ in range(7)]
heights = [chance.uniform(0, 0.3, 10) for _ in range(7)]
mass = sum(numpy.meshgrid(*masses))
moment = sum(numpy.meshgrid(*(one * other for one, other in zip(masses, heights))))
print((moment / mass > 0.15).sum())
"""

SCHEMA = """{"type": "array", "items": {"type": "object", "required": ["entry"],
 "additionalProperties": {"type": "string"}}}"""


class Bench:
    """A folder to work in, how often each thing is timed, and the rows of the table."""

    def __init__(self, folder: Path, times: int) -> None:
        self.folder, self.times = folder, times
        self.around = surroundings(folder / "kept")
        self.rows: list[tuple[str, str, str]] = []

    def row(self, work: str, target: str, *measured: tuple[float, str]) -> None:
        said = ", ".join(f"{_short(ratio)} × {what}" for ratio, what in measured)
        self.rows.append((work, target, said))
        print(f"| {work} | {target} | {said} |", flush=True)

    def work(self, words: list[str], before: Callable[[int], object] | None = None) -> Work:
        return Work(words, self.folder, self.around, before)

    def kitproof(self, *words: str, before: Callable[[int], object] | None = None) -> Work:
        return self.work([tool("kitproof"), "proof", *words], before)

    def forget(self, _: int = 0) -> None:
        """Throws away what is kept, but not the compiled modules."""
        for each in (self.folder / "kept").glob("*-*"):
            each.unlink()

    def forget_answers(self, _: int = 0) -> None:
        """Throws away what was printed and said, so that it is judged again."""
        for kind in ("answer", "rigs"):
            for each in (self.folder / "kept").glob(f"{kind}-*"):
                each.unlink()

    def write(self, name: str, lines: int, seed: int = 1) -> str:
        text = list_of(lines, seed)
        (self.folder / f"{name}.kitlist").write_text(text, encoding="utf-8")
        (self.folder / f"{name}.yaml").write_text(as_yaml(text), encoding="utf-8")
        return text

    def short_list(self) -> None:
        text = self.write("short", 200)
        path = self.folder / "short.kitlist"
        (self.folder / "schema.json").write_text(SCHEMA, encoding="utf-8")

        def edit(number: int) -> None:
            path.write_text(edited(text, number), encoding="utf-8")

        found = in_turn(
            {
                "bare": self.work([tool("python"), "-c", "pass"]),
                "yamllint": self.work([tool("yamllint"), "short.yaml"]),
                "schema": self.work([tool("check-jsonschema"), "--schemafile", "schema.json", "short.yaml"]),
                "changed": self.kitproof(path.name, before=edit),
                "unchanged": self.kitproof(path.name),
            },
            self.times,
        )
        changed, unchanged = found["changed"], found["unchanged"]
        self.row(
            "200 lines, a changed list",
            "1.5 × yamllint",
            (changed / found["yamllint"], "yamllint"),
            (changed / found["schema"], "check-jsonschema"),
        )
        self.row(
            "200 lines, unchanged since last time",
            "0.3 × yamllint, 4 × `python -c pass`",
            (unchanged / found["yamllint"], "yamllint"),
            (unchanged / found["bare"], "`python -c pass`"),
        )

    def long_list(self) -> None:
        text = self.write("long", 10_000)
        path = self.folder / "long.kitlist"
        (self.folder / "typed.py").write_text(TYPED, encoding="utf-8")
        found = in_turn(
            {
                "yamllint": self.work([tool("yamllint"), "long.yaml"]),
                "typed": self.work([tool("python"), "typed.py", "long.yaml"]),
                "cold": self.kitproof(path.name, before=self.forget),
                "edited": self.kitproof(path.name, before=lambda n: path.write_text(edited(text, n), encoding="utf-8")),
            },
            self.times,
        )
        self.row(
            "10,000 lines, full proof",
            "1/8 × yamllint, 1 × PyYAML (C) with pydantic",
            (found["cold"] / found["yamllint"], "yamllint"),
            (found["cold"] / found["typed"], "PyYAML (C) with pydantic"),
        )
        self.row("one line edited in 10,000", "1/40 × a cold proof", (found["edited"] / found["cold"], "a cold proof"))

    def many_files(self) -> None:
        folder = self.folder / "many"
        folder.mkdir()
        for number in range(1000):
            text = list_of(100, number)
            (folder / f"{number}.kitlist").write_text(text, encoding="utf-8")
            (folder / f"{number}.yaml").write_text(as_yaml(text), encoding="utf-8")
        found = in_turn(
            {
                "yamllint": self.work([tool("yamllint"), "many"]),
                "cold": self.kitproof("many", before=self.forget),
                "unchanged": self.kitproof("many"),
            },
            min(self.times, 3),
        )
        self.row("1,000 files of 100 lines", "1/20 × yamllint", (found["cold"] / found["yamllint"], "yamllint"))
        self.row("the same, unchanged", "1/300 × yamllint", (found["unchanged"] / found["yamllint"], "yamllint"))

    def reading(self) -> None:
        text = list_of(10_000)
        toml = as_toml(text)
        import tomllib

        read(list_of(100), "first")
        numbers = iter(range(1_000_000))
        found = calls_in_turn(
            {
                "tomllib": lambda: tomllib.loads(toml),
                "read": lambda: read(list_of(10_000, next(numbers)), "a"),
                "made": lambda: list_of(10_000, next(numbers)),
                "again": lambda: read(edited(text, next(numbers)), "a", known),
            }
            if (known := by_text(read(text, "a")))
            else {},
            self.times,
        )
        self.row(
            "reading alone, 10,000 lines",
            "1 × tomllib",
            ((found["read"] - found["made"]) / found["tomllib"], "tomllib"),
            (found["again"] / found["tomllib"], "tomllib where one line has changed"),
        )

    def growth(self) -> None:
        book = shipped_book()
        taken: dict[int, float] = {}
        for lines in (1_000, 100_000):
            calls = {"proof": partial(_proof_of_next, iter([list_of(lines, seed) for seed in range(2, 5)]), book)}
            taken[lines] = calls_in_turn(calls, 3)["proof"] / len(list_of(lines, 2).splitlines())
        self.row(
            "growth from 1,000 to 100,000 lines",
            "1.15 × per line",
            (taken[100_000] / taken[1_000], "the time per line"),
        )

    def comparison(self) -> None:
        one, other, many = Amount(1.0, 2.0), Amount(3.0, 4.0), 20_000

        def ours() -> Verdict | None:
            return [compare(">", one, other) for _ in range(many)][-1]

        def plain() -> bool | None:
            return [_greater(1.0, 2.0, 3.0, 4.0) for _ in range(many)][-1]

        found = calls_in_turn({"ours": ours, "plain": plain}, max(self.times, 7))
        self.row("one comparison on intervals", "2.5 × plain Python", (found["ours"] / found["plain"], "plain Python"))

    def memory(self) -> None:
        from lark import Lark

        from kitproof.words.shipped import folder

        text = list_of(100_000)
        grammar = (folder("grammar") / "kitlist.lark").read_text(encoding="utf-8")
        parser = Lark(grammar, start="quantity", parser="lalr", lexer="contextual")
        ours = _held(lambda: _list(text))
        tree = _held(lambda: [parser.parse("12.5 kg") for _ in range(text.count("\n"))])
        self.row("memory at 100,000 lines", "half of a lark tree", (ours / tree, "lark trees of one quantity a line"))

    def combinations(self) -> None:
        """Every rule over ten million combinations of one rig, against all of two sums in one array each: the masses,
        and their moments."""
        for options in (1, 10):
            (self.folder / f"many-{options}.kitlist").write_text(rig_of_many(options), encoding="utf-8")
        (self.folder / "meshed.py").write_text(MESHED, encoding="utf-8")
        words = ["many-1.kitlist", "many-10.kitlist"]
        one, many = (self.kitproof(each, before=self.forget_answers) for each in words)
        meshed = self.work([tool("python"), "meshed.py"])
        found = in_turn({"one": one, "many": many, "meshed": meshed}, min(self.times, 3))
        extra = (many.most_memory - one.most_memory) / 1e6
        self.row(
            "10 million combinations of one rig, every rule",
            "1/5 × numpy's meshgrid of two sums; 20 MB more than for one",
            (found["many"] / found["meshed"], f"numpy's meshgrid of two sums; {extra:.1f} MB more than for one"),
        )

    def pairing(self) -> None:
        book = shipped_book()
        grounds = iter([_ground(stock_of(300, seed), book) for seed in range(2 * (self.times + 1))])
        found = calls_in_turn(
            {
                "proof": lambda: next(grounds).examined,
                "pair": lambda: _pair(next(grounds)),
            },
            self.times,
        )
        self.row(
            "pairing from 300 heads and sticks",
            "3 × the proof of that list",
            (found["pair"] / found["proof"], "the proof of that list, both with their reading"),
        )


def _ground(text: str, book: RuleBook) -> Ground:
    return Ground(Given("a.kitlist", "a", "a", _nothing_used, book, DAY), FileText(text))


def _pair(ground: Ground) -> Paired:
    """The first three pairings for the one rig, as the command looks for them unless asked for others."""
    return paired(ground, ground.kitlist.rigs[0], 3)


def _greater(low: float, high: float, least: float, most: float) -> bool | None:
    """Whether one interval is above another, by more than rounding: the same as the rules', in plain Python."""
    if low - most > max(TINY, NEAR * abs(most)):
        return True
    return None if high - least > max(TINY, NEAR * abs(least)) else False


def _short(ratio: float) -> str:
    return f"{ratio:.0f}" if ratio >= 10 else f"{ratio:.2f}" if ratio >= 0.1 else f"{ratio:.2g}"


def _nothing_used(using: str, wanted: str) -> Fetched:
    return Fetched(wanted, wanted, problem="missing")


def _list(text: str) -> KitList:
    sources: Sources = gather("a.kitlist", "a", text.encode(), _nothing_used)
    return make_list(sources, "a")


def _proof_of_next(texts: Iterator[str], book: RuleBook) -> Proof:
    return proof(_list(next(texts)), book, DAY)


def _held(make: Callable[[], object]) -> int:
    """How many bytes what is made takes."""
    gc.collect()
    tracemalloc.start()
    made = make()
    taken, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    del made
    return taken


PARTS = (
    "short_list",
    "long_list",
    "many_files",
    "reading",
    "growth",
    "comparison",
    "memory",
    "combinations",
    "pairing",
)


def main() -> None:
    asked = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    asked.add_argument("parts", nargs="*", choices=[[], *PARTS], default=[], help="which parts of it; all unless said")
    asked.add_argument("--times", type=int, default=7, help="how often each thing is timed")
    options = asked.parse_args()
    folder = Path(tempfile.mkdtemp(prefix="kitproof-bench-"))
    print(f"Python {platform.python_version()}, {platform.machine()}, {platform.system()}; times {options.times}\n")
    print("| work | target | measured |\n| --- | --- | --- |")
    try:
        bench = Bench(folder, options.times)
        for part in options.parts or PARTS:
            getattr(bench, part)()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
