"""The parts of README.md that are made from the files they speak of.

    python -m tests.house.readme_parts            says which are out of date
    python -m tests.house.readme_parts --write    writes them anew, all or those named after it

Each stands between two marks: `<!-- rules -->` and `<!-- end of rules -->`.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterable

from tests.house.repository import ROOT
from tests.house.rule_text import rules

README = ROOT / "README.md"
MENDED = "samples/nine-bells-mended.kitlist"
PROGRAM = "samples/from_a_program.py"
FLIGHT = "samples/islands-flight-faults.kitlist"
PICKED = ("list ", "use ", 'order "Power', "rig A", 'move "Van', 'case "Head A"')


def sample() -> str:
    """The sample that README.md tells a newcomer to proof, from the top of the repository."""
    match = re.search(r"kitproof proof (samples/\S+)", README.read_text("utf-8"))
    if match is None:
        raise LookupError("README.md proofs no sample")
    return match[1]


def rules_table() -> str:
    """Every rule that ships: its name, its grade, and the headline of its finding."""
    rows = [f"| {rule.group} | `{rule.name}` | {rule.grade} | {rule.title} |" for rule in rules()]
    return "\n".join(["| group | rule | grade | what is found |", "| --- | --- | --- | --- |", *rows])


def first_finding() -> str:
    """The first finding about the sample, and the last line, just as the command prints them."""
    lines = _printed(1, "proof", sample())
    end = next(number for number, line in enumerate(lines) if line.startswith("Rule "))
    return "\n".join(["```", *lines[: end + 1], "…", lines[-1], "```"])


def first_change() -> str:
    """The first change that mending shows of the air shipment, just as the command prints it."""
    lines = _printed(0, "mend", "--show", "--on", "2027-06-01", FLIGHT)
    end = next(number for number, line in enumerate(lines) if number > 2 and line.startswith("@@"))
    return "\n".join(["```diff", *lines[:end], "…", "```"])


def first_pairing() -> str:
    """What carries a rig of the mended sample, just as the command prints it."""
    return "\n".join(["```", *_printed(0, "pair", MENDED, "--rig", "B", "--most", "1", "--on", "2027-06-01"), "```"])


def program() -> str:
    """The sample of a program that uses Kitproof, and what it prints."""
    code = (ROOT / PROGRAM).read_text("utf-8").rstrip("\n")
    return "\n".join(["```python", code, "```", "", "It prints:", "", "```", *_ended(0, PROGRAM), "```"])


def _printed(status: int, *words: str) -> list[str]:
    """What the command prints with these words, line by line, where it ends with this status."""
    return _ended(status, "-m", "kitproof", *words)


def _ended(status: int, *words: str) -> list[str]:
    """What Python prints for these words, from the top of the repository."""
    surroundings = {**os.environ, "NO_COLOR": "1", "COLUMNS": "80", "PYTHONUTF8": "1"}
    command = [sys.executable, *words]
    result = subprocess.run(
        command, cwd=ROOT, env=surroundings, capture_output=True, text=True, encoding="utf-8", check=False
    )
    if result.returncode != status:
        raise RuntimeError(f"the status was to be {status}, but: {result.stdout}{result.stderr}")
    return result.stdout.rstrip("\n").splitlines()


def entries_of_sample() -> str:
    """A few entries of the mended sample, one of each kind that a list has, as they stand there."""
    entries = re.split(r"\n(?=\S)", (ROOT / MENDED).read_text("utf-8"))
    picked = [entry.strip() for start in PICKED for entry in entries if entry.startswith(start)]
    if len(picked) != len(PICKED):
        raise LookupError(f"{MENDED} has not one of each: {', '.join(PICKED)}")
    return "\n".join(["```", "\n\n".join(picked), "```"])


PARTS: dict[str, Callable[[], str]] = {
    "finding": first_finding,
    "list": entries_of_sample,
    "mending": first_change,
    "pairing": first_pairing,
    "program": program,
    "rules": rules_table,
}


def written(name: str, text: str) -> str:
    """What stands in README.md between the marks of a part."""
    match = re.search(rf"<!-- {name} -->\n(.*?)<!-- end of {name} -->", text, re.DOTALL)
    if match is None:
        raise LookupError(f"README.md has no marks for {name!r}")
    return match[1].strip("\n")


def made_anew(text: str, names: Iterable[str]) -> str:
    """README.md with these parts made again."""
    for name in names:
        before, rest = text.split(f"<!-- {name} -->\n", 1)
        _, after = rest.split(f"<!-- end of {name} -->", 1)
        text = f"{before}<!-- {name} -->\n\n{PARTS[name]()}\n\n<!-- end of {name} -->{after}"
    return text


def main(words: list[str]) -> int:
    text = README.read_text("utf-8")
    names = [word for word in words if word != "--write"] or list(PARTS)
    fresh = made_anew(text, names)
    if "--write" in words:
        README.write_text(fresh, "utf-8")
        return 0
    stale = [name for name in names if written(name, text) != written(name, fresh)]
    for name in stale:
        print(f"README.md: the part {name!r} is out of date; write it with python -m tests.house.readme_parts --write")
    return int(bool(stale))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
