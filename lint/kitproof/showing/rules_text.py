"""Rules explained, as text and as JSON."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from msgspec import Struct, to_builtins

from kitproof.facts.registry import HOUSE_NUMBERS
from kitproof.facts.values import Amount
from kitproof.rulebook.explain import Explained, ExplainedLimit, explained
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.messages import amount_text
from kitproof.rulebook.rules import Rule, RuleBook
from kitproof.rulebook.settings import Settings
from kitproof.showing.text import MARGIN, WIDTH, Line, Piece, paragraph
from kitproof.words.dimensions import NUMBER
from kitproof.words.units import SHOWN, UNITS

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


def rules_lines(book: RuleBook, day: date) -> list[Line]:
    """All rules in force by group: name, grade, headline; the limits on a day; then what the house has set."""
    lines: list[Line] = []
    group = ""
    for rule in sorted(book.rules.values(), key=lambda each: (each.group, each.name)):
        if rule.group != group:
            group = rule.group
            lines += [*([()] if lines else []), (Piece(group, "title"),)]
        lines += _rule_line(rule, book)
    lines += [(), (Piece("limits", "title"),)]
    for limit in limits_in_force(book, day):
        lines += [(Piece(f"  {limit.name} is {limit.value}"),)]
        lines += [(Piece(f"      {each}"),) for each in textwrap.wrap(limit.source, WIDTH - 6)]
    lines += [(), (Piece(f"{len(book.rules)} rules. `kitproof why RULE` tells one in full."),)]
    return [*lines, *_set_by_house(book)]


def _rule_line(rule: Rule, book: RuleBook) -> list[Line]:
    title = textwrap.wrap(explained(rule).title, WIDTH - 38)
    first = (Piece(f"  {rule.name}".ljust(32)), Piece(rule.grade.ljust(6), rule.grade), Piece(title[0]))
    lines: list[Line] = [first, *((Piece(" " * 38), Piece(each)) for each in title[1:])]
    return [*lines, (Piece(f"      {book.places[rule.path]}", "place"),)] if rule.path in book.places else lines


class InForce(Struct, frozen=True):
    """A limit as it holds on a day: its name as a house sets it, the value, and where it comes from, in words."""

    name: str
    value: str
    source: str


def limits_in_force(book: RuleBook, day: date) -> list[InForce]:
    """Every limit that a house may set, by name: those of the rules, and those that facts rest on."""
    found = [_limit_in_force(limit, book, day) for limit in book.limits]
    for name, number in HOUSE_NUMBERS.items():
        held = book.numbers.get(name, number.value)
        value = book.house.limits.get(name) or amount_text(Amount(held, held), [UNITS[SHOWN_IN[number.dimension]]], 4)
        found.append(InForce(name, value, _origin(book, name) or f"as shipped: {number.says}"))
    return sorted(found, key=lambda each: each.name)


SHOWN_IN = {**SHOWN, NUMBER: "%"}


def _limit_in_force(limit: Limit, book: RuleBook, day: date) -> InForce:
    dated = limit.on(day)
    if dated is None:
        return InForce(limit.full_name, "not yet", "no value holds on this day")
    if limit.set_by_house:
        return InForce(limit.full_name, dated.written, _origin(book, limit.full_name, limit.name))
    since = f" from {dated.since.isoformat()}" if dated.since else ""
    source = f", {dated.source}" if dated.source else ""
    return InForce(limit.full_name, dated.written, f"as shipped{since}{source}")


def _origin(book: RuleBook, *names: str) -> str:
    """What set a limit; "" where the house has not."""
    return next((f"set by {book.house.place('limits', name)}" for name in names if name in book.house.limits), "")


def _set_by_house(book: RuleBook) -> list[Line]:
    """Grades, limits, retired rules and the rest that are not as shipped, and what set them."""
    lines = [line for words, place in _set(book.house) for line in paragraph("Set", f"{words} ({place})")]
    if book.units:
        lines += paragraph("Set", f"units are {', '.join(book.units)} where a list asks for none")
    for pattern, settings in book.by_list:
        for words, place in _set(settings):
            lines += paragraph("For", f"{pattern}: {words} ({place})")
    return lines


def _set(house: Settings) -> Iterable[tuple[str, str]]:
    """What settings say, each with the place that it is set at."""
    said = [
        *(("grades", name, f"{name} has the grade {grade}") for name, grade in house.grades.items()),
        *(("limits", name, f"{name} is {value}") for name, value in house.limits.items()),
        *(("retired", name, f"{name} is retired") for name in house.retired),
        *(("never_waived", name, f"{name} is never waived") for name in house.never_waived),
    ]
    for key, name, words in said:
        yield words, house.place(key, name)
    if house.cannot_tell_counts is not None:
        grades = house.cannot_tell_counts
        first = grades[0] if grades else ""
        counts = f"counts at {', '.join(grades)}" if grades else "never counts"
        yield f"what cannot be told {counts}", house.place("cannot_tell_counts", first)


def rule_json(rule: Rule) -> str:
    return _dumped({"rules": [to_builtins(explained(rule))]})


def rules_json(book: RuleBook, day: date) -> str:
    """The rules in force, the limits on a day, and the names of those that the house retired."""
    return _dumped(
        {
            "rules": [
                {**to_builtins(explained(each)), "file": book.places.get(each.path)} for each in book.rules.values()
            ],
            "limits": [to_builtins(each) for each in limits_in_force(book, day)],
            "retired": list(book.retired),
        }
    )


def _dumped(data: Mapping[str, Any]) -> str:
    return json.dumps({"schema": RULES, **data}, ensure_ascii=False, indent=2) + "\n"
