"""What mending did to a list, in words and as a diff."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Sequence

from kitproof.mending.mend import Mended
from kitproof.reading.characters import split_lines
from kitproof.showing.text import wrapped


def mending_lines(mended: Mended, path: str, kept: str) -> list[str]:
    """What was done to a list and what is left in it. `kept` names the file that holds what it was before, if any."""
    left = [each for each in mended.ground.examined.proof.findings if each.waived is None]
    many = len(mended.done)
    lines: list[str] = []
    if many:
        lines += wrapped(f"{path}: {many} {_plural('fix', many)} made, each proved by proofing the changed list again.")
        for done in mended.done:
            what = f"{done.fix.says} ({done.finding.rule}, {done.finding.subject})"
            lines += [f"  {line}" for line in wrapped(what, "  ")]
        lines += wrapped(f"The list as it was is kept as {kept}.") if kept else []
    else:
        lines += wrapped(f"{path}: no fix can be proved, and nothing was changed.")
    elsewhere = sorted({each.where.path for each in left} - {path})
    lines += (
        wrapped(f"{len(left)} {_plural('finding', len(left))} left; kitproof proof says what to do.") if left else []
    )
    for other in elsewhere:
        lines += wrapped(f"Some of it lies in {other}, which other lists may use: mend that file by itself.")
    return lines


def _plural(word: str, many: int) -> str:
    ending = "es" if word.endswith("x") else "s"
    return word if many == 1 else f"{word}{ending}"


def unified(path: str, was: str, now: str) -> str:
    """The changes to a file as a unified diff; "" where there are none. Lines keep their ends."""
    return "".join(_ended(difflib.unified_diff(_lines(was), _lines(now), path, path)))


def _lines(text: str) -> Sequence[str]:
    """The lines with their ends. Nothing but these ends a line, whatever other characters may look like it."""
    return [line + end for line, end in zip(*split_lines(text), strict=True) if line or end]


def _ended(lines: Iterator[str]) -> Iterator[str]:
    for line in lines:
        yield line if line.endswith("\n") else f"{line}\n\\ No newline at the end of the line\n"
