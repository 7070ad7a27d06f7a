"""Where the time of a proof went, in a table for people."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kitproof.proofing.hits import RULE

MOST_RULES = 12


def time_lines(spent: Mapping[str, float]) -> Iterator[str]:
    """Stages in the order they came, then the rules that took most, each with its share of the whole."""
    whole = sum(spent.values())
    rules = {name.removeprefix(f"{RULE} "): taken for name, taken in spent.items() if name.startswith(f"{RULE} ")}
    stages = {name: taken for name, taken in spent.items() if not name.startswith(f"{RULE} ")}
    last = {name: stages.pop(name) for name in ("findings", "showing") if name in stages}
    yield f"Time: {whole:.3f} s\n"
    judging = ("rules, with the facts they ask for", sum(rules.values()))
    for name, taken in (*stages.items(), judging, *last.items()):
        yield f"  {name:<40} {taken:9.3f} s {taken / (whole or 1.0):5.0%}\n"
    most = sorted(rules.items(), key=lambda each: -each[1])[:MOST_RULES]
    if most:
        yield f"The rules that took most, of {len(rules)}; who asks first for a fact bears it:\n"
    for name, taken in most:
        yield f"  {name:<40} {taken:9.3f} s {taken / (whole or 1.0):5.0%}\n"
