"""Two lists compared, as Markdown for a merge request. No text of a list can become a heading, a link or a mention."""

from __future__ import annotations

import re

from kitproof.comparing.compare import Compared, Comparison
from kitproof.rulebook.messages import Units
from kitproof.showing import compared_words as say
from kitproof.showing.wording import ON_PAPER, found

ESCAPED = re.compile(r"([\\`*_{}\[\]<>|~$^]|^[-+=]|^\d+(?=[.)]))")
"""What Markdown may read as more than itself, some of it at the start of a line only."""
MENTIONS = {"@": "&#64;", "#": "&#35;", "!": "&#33;", "&": "&amp;", "%": "&#37;", ":": "&#58;"}
"""What the services read as a mention, an issue, a merge request, a milestone or a picture, even behind a backslash."""


def compared_markdown(compared: Comparison, units: Units) -> str:
    """What is not as it was: findings first, as a reviewer wants them, then thing by thing with its numbers."""
    lines = [f"**Before:** {plain(compared.was)}<br>", f"**Now:** {plain(compared.now)}", ""]
    if compared.same:
        lines += [plain(say.NOTHING), ""]
    lines += _findings(compared)
    for each in compared.things:
        lines += _thing(each, units)
    names = [f"- {plain(each)}" for each in say.renamed(compared)]
    lines += ["### Names", "", *names, ""] if names else []
    return "\n".join([*lines, f"*{plain(say.SAME_RULES)} {plain(ON_PAPER)}*"]) + "\n"


def _findings(compared: Comparison) -> list[str]:
    rows = []
    for each in compared.findings.stepped:
        rows.append(f"| {say.STEPS[each.step]} | {plain(say.finding(each))} | {plain(found(each.finding))} |")
    table = ["| | finding | found |", "| --- | --- | --- |", *rows, ""] if rows else []
    return ["### Findings", "", *table, plain(say.stayed(compared)), ""]


def _thing(thing: Compared, units: Units) -> list[str]:
    lines = [f"### {plain(say.heading(thing))}", ""]
    differences = [f"- {plain(say.difference(each))}" for each in thing.differences]
    lines += [*differences, ""] if differences else []
    numbers = [say.moved(each, units) for each in thing.numbers] if thing.now is not None else []
    rows = [f"| {plain(name)} | {plain(said)} |" for name, said in numbers]
    return [*lines, *(["| number | now and before |", "| --- | --- |", *rows, ""] if rows else [])]


def plain(text: str) -> str:
    """Text that stands for itself on one line of Markdown."""
    escaped = ESCAPED.sub(_escape, " ".join(text.split()))
    return "".join(MENTIONS.get(each, each) for each in escaped)


def _escape(match: re.Match[str]) -> str:
    """A backslash before a sign; a number that would begin a list gets it before its dot."""
    return f"{match[0]}\\" if match[0].isdecimal() else f"\\{match[0]}"
