"""All rule files to a rule book, or every mistake of every file. Nothing is ever judged by half a rule book."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from kitproof.facts.fact import HouseNumber
from kitproof.rulebook.advice import warnings_for
from kitproof.rulebook.errors import BadRules, RuleError, did_you_mean
from kitproof.rulebook.limit_lines import match_house, read_limits, with_house
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.reader import Reader
from kitproof.rulebook.rulefile import Line, Value, lines_of
from kitproof.rulebook.rules import Rule, RuleBook
from kitproof.rulebook.scope import Knows, Vocabulary, knows_all
from kitproof.rulebook.settings import GRADES, NO_SETTINGS, Settings

PATH = re.compile(r"(?P<group>[a-z][a-z0-9-]*)/(?P<name>[a-z][a-z0-9-]*)\.rule")
SHARED = re.compile(r"(?P<group>[a-z][a-z0-9-]*)/limits")

Limits = dict[str, dict[str, Limit | None]]


def load(
    files: Mapping[str, str],
    vocabulary: Vocabulary,
    *,
    knows: Knows = knows_all,
    house: Settings = NO_SETTINGS,
    numbers: Mapping[str, HouseNumber] | None = None,
    others: Sequence[Settings] = (),
) -> RuleBook:
    """Reads and checks rule files.

    `files` holds the text of each `GROUP/NAME.rule` and `GROUP/limits` by its path in the rules folder. `vocabulary`
    has the facts by subject and name; "part KIND" may hold facts that only parts of that kind have, or have otherwise.
    `knows` tells whether a kind of part has a field. `numbers` are the facts' own house numbers.
    `others` are what the house sets for other lists: nothing is taken from them, but what they name must be known too.

    Raises BadRules with every mistake of every file, and of the house's settings.
    """
    loader = _Loader(vocabulary, knows, house, numbers or {}, others)
    return loader.load(files)


class _Loader:
    def __init__(
        self,
        vocabulary: Vocabulary,
        knows: Knows,
        house: Settings,
        numbers: Mapping[str, HouseNumber],
        others: Sequence[Settings],
    ) -> None:
        self.vocabulary, self.knows, self.house, self.numbers, self.others = vocabulary, knows, house, numbers, others
        self.errors: list[RuleError] = []
        self.limits: Limits = {}  # by rule or group
        self.limit_places: dict[str, Value] = {}  # by full name
        self.readers: list[Reader] = []
        self.paths: dict[str, str] = {}  # by rule name: a rule that is mistaken is still a known one
        self.rules: dict[str, Rule] = {}

    def load(self, files: Mapping[str, str]) -> RuleBook:
        lines = {path: self._lines(path, text) for path, text in sorted(files.items())}
        self._read_limits(lines)
        house = match_house(self.house, self._all_limits(), self.numbers)
        self.errors.extend(house.errors)
        for other in self.others:
            self.errors.extend(match_house(other, self._all_limits(), self.numbers).errors)
        for name, limits in self.limits.items():
            self.limits[name] = {
                key: None if limit is None else with_house(limit, house) for key, limit in limits.items()
            }
        for path, found in lines.items():
            self._read_rule(path, found)
        once = self._once()
        self._check_covers(once)
        for other in (self.house, *self.others):
            self._check_settings(other, once)
        if self.errors:
            raise BadRules(self.errors)
        self._grade(once)
        retired = dict.fromkeys(once.get(name, name) for name in self.house.retired)
        rules = {name: rule for name, rule in self.rules.items() if name not in retired}
        return RuleBook(
            rules=rules,
            once=once,
            retired={name: self.rules[name] for name in retired},
            limits=tuple(self._all_limits()),
            numbers=house.numbers,
            warnings=tuple(warnings_for(self.readers, self.rules, self.limit_places)),
            never_waived=frozenset(once.get(name, name) for name in self.house.never_waived),
            cannot_tell_counts=("stop",) if self.house.cannot_tell_counts is None else self.house.cannot_tell_counts,
            units=self.house.units,
            house=self.house,
        )

    def _lines(self, path: str, text: str) -> list[Line]:
        lines, errors = lines_of(path, text)
        self.errors.extend(errors)
        if not PATH.fullmatch(path) and not SHARED.fullmatch(path):
            says = "name a rule file GROUP/NAME.rule, in small letters, digits and dashes, or GROUP/limits"
            self.errors.append(RuleError(path, 1, 1, 2, says))
        elif not lines and not errors:
            self.errors.append(RuleError(path, 1, 1, 2, "there is nothing in this file"))
        return lines

    def _all_limits(self) -> list[Limit]:
        return [limit for limits in self.limits.values() for limit in limits.values() if limit is not None]

    def _read_limits(self, lines: Mapping[str, list[Line]]) -> None:
        for path, found in lines.items():
            shared, rule = SHARED.fullmatch(path), PATH.fullmatch(path)
            owner = shared["group"] if shared else rule["name"] if rule else ""
            for line in found if shared else []:
                if line.word.text != "limit":
                    self.errors.append(line.word.error("a group's limits file has lines of one kind: limit NAME VALUE"))
            limits, places, errors = read_limits([line for line in found if line.word.text == "limit"], owner)
            self.errors.extend(errors)
            self.limits.setdefault(owner, {}).update(limits)
            self.limit_places.update({f"{owner}.{name}": place for name, place in places.items()})

    def _read_rule(self, path: str, lines: list[Line]) -> None:
        found = PATH.fullmatch(path)
        if not found or not lines:
            return
        name, group = found["name"], found["group"]
        if name in self.paths:
            says = f"there is a rule {name} already, in {self.paths[name]}: every rule has a name of its own"
            self.errors.append(RuleError(path, 1, 1, 2, says))
            return
        self.paths[name] = path
        shared, own = self.limits.get(group, {}), self.limits.get(name, {})
        reader = Reader(path, name, group, lines, self.vocabulary, self.knows, {**shared, **own})
        rule = reader.read()
        self.errors.extend(reader.errors)
        self.readers.append(reader)
        if rule is not None:
            self.rules[name] = rule

    def _once(self) -> dict[str, str]:
        """Old names of rules, each leading to the one rule that has it now."""
        once: dict[str, str] = {}
        for reader in self.readers:
            for name, place in reader.names("once"):
                if name in self.paths:
                    self.errors.append(place.error(f"{name} is the name of a rule that there is"))
                elif name in once:
                    self.errors.append(place.error(f"{name} is an old name of {once[name]} already"))
                else:
                    once[name] = reader.name
        return once

    def _check_covers(self, once: Mapping[str, str]) -> None:
        """Rules that are covered must be there, and no rule may cover itself by way of others."""
        covers: dict[str, list[str]] = {}
        places: dict[tuple[str, str], Value] = {}
        for reader in self.readers:
            for name, place in reader.names("covers"):
                meant = once.get(name, name)
                if meant not in self.paths:
                    self.errors.append(place.error(f"there is no rule {name}.{did_you_mean(name, self.paths)}"))
                    continue
                covers.setdefault(reader.name, []).append(meant)
                places[reader.name, meant] = place
        for start, name in sorted(places):
            if start in _covered_by(name, covers):
                says = f"{start} covers {name}, which covers it in turn" if name != start else f"{start} covers itself"
                self.errors.append(places[start, name].error(says))

    def _check_settings(self, settings: Settings, once: Mapping[str, str]) -> None:
        """Every rule and grade that settings name is known."""
        named = (
            *(("grades", name) for name in settings.grades),
            *(("retired", name) for name in settings.retired),
            *(("never_waived", name) for name in settings.never_waived),
        )
        for key, name in named:
            if once.get(name, name) not in self.paths:
                near = did_you_mean(name, {*self.paths, *once})
                self.errors.append(settings.error(key, name, f"there is no rule {name}.{near}"))
        graded = [("grades", name, grade, f"{name}: ") for name, grade in settings.grades.items()]
        graded += [("cannot_tell_counts", grade, grade, "") for grade in settings.cannot_tell_counts or ()]
        for key, name, grade, before in graded:
            if grade not in GRADES:
                says = f"{before}a grade is one of {', '.join(GRADES)}, and {grade} is not"
                self.errors.append(settings.error(key, name, says))

    def _grade(self, once: Mapping[str, str]) -> None:
        """Takes over the house's grades."""
        for name, grade in self.house.grades.items():
            rule = once.get(name, name)
            self.rules[rule] = replace(self.rules[rule], grade=grade)


def _covered_by(name: str, covers: Mapping[str, list[str]]) -> set[str]:
    """A rule and all that it covers, directly or by way of others."""
    met: set[str] = set()
    waiting = [name]
    while waiting:
        each = waiting.pop()
        if each not in met:
            met.add(each)
            waiting.extend(covers.get(each, []))
    return met
