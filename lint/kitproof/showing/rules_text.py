"""Rules explained, as text and as JSON."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterable
from dataclasses import asdict

from kitproof.rulebook.explain import Explained, ExplainedLimit, explained
from kitproof.rulebook.rules import Rule, RuleBook
from kitproof.showing.text import MARGIN, WIDTH, Line, Piece, paragraph

RULES = "kitproof/rules/1"


def rule_lines(rule: Rule, book: RuleBook) -> list[Line]:
    """One rule in full, with where it is from where that is a house's own folder."""
    told = explained(rule)
    lines: list[Line] = [(Piece(told.grade.upper().ljust(MARGIN), told.grade), Piece(told.title, "title"))]
    for word, text in _paragraphs(told):
        lines += paragraph(word, text)
    if rule.path in book.places:
        lines += paragraph("File", book.places[rule.path])
    if rule.name in book.retired:
        lines += paragraph("Out", "The house has retired this rule.")
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
    """All rules in force by group: name, grade, headline; then what the house has set."""
    lines: list[Line] = []
    group = ""
    for rule in sorted(book.rules.values(), key=lambda each: (each.group, each.name)):
        if rule.group != group:
            group = rule.group
            lines += [*([()] if lines else []), (Piece(group, "title"),)]
        lines += _rule_line(rule, book)
    lines += [(), (Piece(f"{len(book.rules)} rules. `kitproof why RULE` tells one in full."),)]
    return [*lines, *_set_by_house(book)]


def _rule_line(rule: Rule, book: RuleBook) -> list[Line]:
    own = f" [{book.places[rule.path]}]" if rule.path in book.places else ""
    title = textwrap.wrap(f"{explained(rule).title}{own}", WIDTH - 38)
    first = (Piece(f"  {rule.name}".ljust(32)), Piece(rule.grade.ljust(6), rule.grade), Piece(title[0]))
    return [first, *((Piece(" " * 38), Piece(each)) for each in title[1:])]


def _set_by_house(book: RuleBook) -> list[Line]:
    """Grades, limits and retired rules that are not as shipped, and what set them."""
    house = book.house
    said = [
        *((name, f"{name} has the grade {grade}") for name, grade in house.grades.items()),
        *((name, f"{name} is {value}") for name, value in house.limits.items()),
        *((name, f"{name} is retired") for name in house.retired),
        *((name, f"{name} is never waived") for name in house.never_waived),
    ]
    return [line for name, words in said for line in paragraph("Set", f"{words} ({house.place(name)})")]


def rule_json(rule: Rule) -> str:
    return _dumped([rule])


def rules_json(book: RuleBook) -> str:
    return _dumped(book.rules.values())


def _dumped(rules: Iterable[Rule]) -> str:
    data = {"schema": RULES, "rules": [asdict(explained(each)) for each in rules]}
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"
