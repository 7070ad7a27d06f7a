"""Rules explained, as text and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict

from kitproof.rulebook.explain import Explained, ExplainedLimit, explained
from kitproof.rulebook.rules import Rule, RuleBook
from kitproof.showing.text import MARGIN, Line, Piece, paragraph

RULES = "kitproof/rules/1"


def rule_lines(rule: Rule) -> list[Line]:
    """One rule in full."""
    told = explained(rule)
    lines: list[Line] = [(Piece(told.grade.upper().ljust(MARGIN), told.grade), Piece(told.title, "title"))]
    for word, text in _paragraphs(told):
        lines += paragraph(word, text)
    return lines


def _paragraphs(told: Explained) -> Iterable[tuple[str, str]]:
    yield "Rule", f"{told.name}, group {told.group}, about a {told.about}"
    if told.each:
        yield "Each", told.each
    for number, given in enumerate(told.given):
        yield "" if number else "When", given
    yield "Fails", told.fails
    yield "Says", told.says
    if told.doubt:
        yield "Doubt", told.doubt
    yield "Why", told.because
    for number, fix in enumerate(told.fixes):
        yield "Or" if number else "Do", fix
    yield from (("Care", each) for each in told.caution)
    yield from (("Limit", _limit(each)) for each in told.limits)
    yield from (("Terms", f"{name}: {says}") for name, says in told.terms)
    if told.covers:
        yield "Covers", ", ".join(told.covers)
    yield from (("Quiet", each) for each in told.quiet)
    if told.once:
        yield "Once", f"called {', '.join(told.once)}"
    yield from (("Source", each) for each in told.source)


def _limit(limit: ExplainedLimit) -> str:
    since = f" from {limit.since}" if limit.since else ""
    source = f" ({limit.source})" if limit.source else ""
    house = ", set by the house" if limit.set_by_house else ""
    return f"{limit.name} {limit.value}{since}{source}{house}"


def rules_lines(book: RuleBook) -> list[Line]:
    """All rules by group: name, grade, headline."""
    lines: list[Line] = []
    group = ""
    for rule in book.rules.values():
        if rule.group != group:
            group = rule.group
            lines += [*([()] if lines else []), (Piece(group, "title"),)]
        told = explained(rule)
        head = f"  {told.name}"
        lines.append((Piece(head.ljust(32)), Piece(told.grade.ljust(6), told.grade), Piece(_short(told.title))))
    return [*lines, (), (Piece(f"{len(book.rules)} rules. `kitproof why RULE` tells one in full."),)]


def _short(title: str) -> str:
    return title if len(title) <= 42 else f"{title[:41].rstrip()}…"


def rule_json(rule: Rule) -> str:
    return _dumped([rule])


def rules_json(book: RuleBook) -> str:
    return _dumped(book.rules.values())


def _dumped(rules: Iterable[Rule]) -> str:
    data = {"schema": RULES, "rules": [asdict(explained(each)) for each in rules]}
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"
