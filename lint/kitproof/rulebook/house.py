"""A house's settings file: limits, grades, retired rules, folders of own rules, waivers, units, and all by list.

Text to settings; finding and opening the file is for others.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fnmatch import fnmatchcase
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from kitproof.rulebook.errors import BadRules, RuleError, did_you_mean
from kitproof.rulebook.settings import NO_SETTINGS, Settings, Spot
from kitproof.words.units import UNITS

NAMES = ("retired", "rules", "never_waived", "units", "cannot_tell_counts")
"""Keys that hold a list of names."""

TABLES = ("limits", "grades")
"""Keys that hold a table of name to text."""

OF_A_PATTERN = ("limits", "grades", "retired", "never_waived", "cannot_tell_counts")
"""What may be set for some lists only: a folder of rules and the units are the house's own everywhere."""


class House(Struct, frozen=True):
    """What a settings file says. `rules` are folders of own rules, from the file's own folder, each with its place;
    `by_list` what it sets for some lists only, by pattern, later ones over earlier ones."""

    settings: Settings = NO_SETTINGS
    rules: tuple[tuple[str, Spot], ...] = ()
    by_list: tuple[tuple[str, Settings], ...] = ()

    def for_list(self, path: str) -> Settings:
        """The settings for a list, by its path from the settings file's folder, with forward slashes."""
        found = self.settings
        for pattern, over in self.by_list:
            if fnmatchcase(path, pattern):
                found = over_settings(found, over)
        return found


NO_HOUSE = House()


def over_settings(under: Settings, over: Settings) -> Settings:
    """Two sets of settings as one: a name that both set is as `over` has it; lists of names add up."""
    set_again = {*(("limits", name) for name in over.limits), *(("grades", name) for name in over.grades)}
    kept = {which: spot for which, spot in under.places.items() if which not in set_again}
    return replace(
        under,
        limits={**under.limits, **over.limits},
        grades={**under.grades, **over.grades},
        retired=tuple(dict.fromkeys((*under.retired, *over.retired))),
        never_waived=tuple(dict.fromkeys((*under.never_waived, *over.never_waived))),
        units=over.units or under.units,
        cannot_tell_counts=under.cannot_tell_counts if over.cannot_tell_counts is None else over.cannot_tell_counts,
        places={**kept, **over.places},
    )


def read_house(text: str, path: str) -> House:
    """The settings of a `kitproof.toml`, or of the table `[tool.kitproof]` of a `pyproject.toml`.

    Raises BadRules with every mistake: unknown keys with the nearest, values of the wrong kind, TOML that cannot be
    read. Whether the rules and limits that it names exist is checked when the rules are loaded.
    """
    reader = _Reader(text, path)
    house = reader.house(reader.table())
    if reader.errors:
        raise BadRules(reader.errors)
    return house


OURS = r"^\s*\[+\s*tool\s*\.\s*([\"']?)kitproof\1\s*[\].]"


def has_settings(text: str) -> bool:
    """Whether a `pyproject.toml` has a table for us. One that cannot be read has one where a line opens it: what is
    wrong with it is then said, and no setting of ours is passed over in silence."""
    import tomllib  # only where there is a settings file

    try:
        tool = tomllib.loads(text).get("tool", {})
    except (ValueError, RecursionError):
        return re.search(OURS, text, re.MULTILINE) is not None
    return isinstance(tool, dict) and "kitproof" in tool


class _Reader:
    def __init__(self, text: str, path: str) -> None:
        from kitproof.rulebook.toml_places import TomlPlaces

        self.text, self.path = text, path
        self.root = ("tool", "kitproof") if path.endswith("pyproject.toml") else ()
        self.places = TomlPlaces(text, self.root, "for")
        self.errors: list[RuleError] = []

    def table(self) -> Mapping[str, Any]:
        import tomllib

        try:
            found: Any = tomllib.loads(self.text)
        except (ValueError, RecursionError) as error:
            self._not_toml(str(error))
            return {}
        for step in self.root:
            found = found.get(step, {}) if isinstance(found, dict) else found
        if not isinstance(found, dict):
            self._wrong("write it as a table: [tool.kitproof]")
            return {}
        return found

    def _not_toml(self, told: str) -> None:
        found = re.search(r"line (\d+), column (\d+)", told)
        line, column = (int(found[1]), int(found[2])) if found else (self.text.count("\n") + 1, 1)
        twice = re.search(r"overwrite|mutable|twice|duplicate", told)
        says = "this is set already, further up" if twice else "this is not TOML as it should be written"
        self.errors.append(RuleError(self.path, line, column, column + 1, says))

    def house(self, table: Mapping[str, Any]) -> House:
        self._refuse_unknown(table, (*NAMES, *TABLES, "for"), "")
        by_list: list[tuple[str, Settings]] = []
        sections = table.get("for", [])
        if not isinstance(sections, list) or not all(isinstance(each, dict) for each in sections):
            self._wrong("write each as a table of its own: [[for]]", "for")
            sections = []
        for number, section in enumerate(sections):
            by_list += self._section(section, number)
        units = self._names(table, "units")
        for unit in units:
            if unit not in UNITS:
                self._wrong(f"there is no unit {unit}.{did_you_mean(unit, UNITS)}", "units", unit)
        rules = tuple((name, (self.path, *self.places.place("rules", name))) for name in self._names(table, "rules"))
        return House(replace(self._settings(table), units=units), rules, tuple(by_list))

    def _section(self, section: Mapping[str, Any], number: int) -> list[tuple[str, Settings]]:
        """What is set for some lists only, once for each pattern."""
        self._refuse_unknown(section, (*OF_A_PATTERN, "lists"), " for some lists only", "for", number=number)
        patterns = self._names(section, "lists", "for", number=number)
        if not section.get("lists"):
            self._wrong('say for which lists: lists = ["second-unit/*.kitlist"]', "for", number=number)
        for pattern in patterns:
            if "\\" in pattern or pattern.startswith("/") or ".." in pattern.split("/"):
                says = "write a list's path from this file's folder, with forward slashes"
                self._wrong(says, "for", "lists", pattern, number=number)
        settings = self._settings(section, "for", number=number)
        return [(pattern.removeprefix("./"), settings) for pattern in patterns]

    def _settings(self, table: Mapping[str, Any], *within: str, number: int = -1) -> Settings:
        limits = self._texts(table, "limits", *within, number=number)
        grades = self._texts(table, "grades", *within, number=number)
        retired = self._names(table, "retired", *within, number=number)
        never = self._names(table, "never_waived", *within, number=number)
        counts = (
            self._names(table, "cannot_tell_counts", *within, number=number) if "cannot_tell_counts" in table else None
        )
        written = {
            "limits": limits,
            "grades": grades,
            "retired": retired,
            "never_waived": never,
            "cannot_tell_counts": counts or (),
        }
        places = {
            (key, name): (self.path, *self.places.place(*within, key, name, number=number))
            for key, names in written.items()
            for name in names
        }
        return Settings(limits, grades, retired, never, counts, places=places)

    def _texts(self, table: Mapping[str, Any], key: str, *within: str, number: int = -1) -> dict[str, str]:
        held = table.get(key, {})
        if not isinstance(held, dict):
            self._wrong(f"{key} is a table of names, each with its value: [{key}]", *within, key, number=number)
            return {}
        texts: dict[str, str] = {}
        for name, value in _flat(held):
            if isinstance(value, str):
                texts[name] = value
            elif isinstance(value, int | float) and not isinstance(value, bool):
                from decimal import Decimal

                texts[name] = format(Decimal(str(value)), "f")
            else:
                self._wrong(f'{name} should be written in quotes, such as "30 h"', *within, key, name, number=number)
        return texts

    def _names(self, table: Mapping[str, Any], key: str, *within: str, number: int = -1) -> tuple[str, ...]:
        held = table.get(key, [])
        held = [held] if isinstance(held, str) else held
        if not isinstance(held, list) or not all(isinstance(each, str) for each in held):
            self._wrong(f'{key} is a list of names in quotes: {key} = ["…"]', *within, key, number=number)
            return ()
        return tuple(held)

    def _refuse_unknown(
        self, table: Mapping[str, Any], known: Iterable[str], where: str, *within: str, number: int = -1
    ) -> None:
        for key in table:
            if key not in known:
                says = f"{key} is nothing that a house sets{where}.{did_you_mean(key, known)}"
                if key in (*NAMES, *TABLES):
                    says = f"{key} cannot be set{where}: set it for all, above every [[for]]"
                self._wrong(says, *within, key, number=number)

    def _wrong(self, says: str, *path: str, number: int = -1) -> None:
        self.errors.append(RuleError(self.path, *self.places.place(*path, number=number), says))


def _flat(table: Mapping[str, Any], before: str = "") -> Iterable[tuple[str, Any]]:
    """Names with dots, as `[limits] rule.name = …` makes tables of them."""
    for name, value in table.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{before}{name}.")
        else:
            yield f"{before}{name}", value
