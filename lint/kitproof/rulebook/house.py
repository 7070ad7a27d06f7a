"""A house's settings file: limits, grades, retired rules, folders of own rules, waivers, units, and all by list.

Text to settings; finding and opening the file is for others. TOML's own reader gives no places, so a mistake is
placed at the first line that writes its key.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fnmatch import fnmatchcase
from typing import Any

from kitproof.rulebook.errors import BadRules, RuleError, did_you_mean
from kitproof.rulebook.settings import NO_SETTINGS, Settings
from kitproof.words.units import UNITS

NAMES = ("retired", "rules", "never_waived", "units", "cannot_tell_counts")
"""Keys that hold a list of names."""

TABLES = ("limits", "grades")
"""Keys that hold a table of name to text."""

OF_A_PATTERN = ("limits", "grades", "retired", "never_waived", "cannot_tell_counts")
"""What may be set for some lists only: a folder of rules and the units are the house's own everywhere."""


@dataclass(frozen=True, slots=True)
class House:
    """What a settings file says. `rules` are folders of own rules, from the file's own folder; `by_list` what it sets
    for some lists only, by pattern, later ones over earlier ones."""

    settings: Settings = NO_SETTINGS
    rules: tuple[str, ...] = ()
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
    return replace(
        under,
        limits={**under.limits, **over.limits},
        grades={**under.grades, **over.grades},
        retired=tuple(dict.fromkeys((*under.retired, *over.retired))),
        never_waived=tuple(dict.fromkeys((*under.never_waived, *over.never_waived))),
        units=over.units or under.units,
        cannot_tell_counts=under.cannot_tell_counts if over.cannot_tell_counts is None else over.cannot_tell_counts,
        places={**under.places, **over.places},
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


def has_settings(text: str) -> bool:
    """Whether a `pyproject.toml` has a table for us; one that cannot be read has none that we could see."""
    try:
        return "kitproof" in tomllib.loads(text).get("tool", {})
    except tomllib.TOMLDecodeError:
        return False


class _Reader:
    def __init__(self, text: str, path: str) -> None:
        self.text, self.path = text, path
        self.lines = text.split("\n")
        self.errors: list[RuleError] = []

    def table(self) -> Mapping[str, Any]:
        try:
            data = tomllib.loads(self.text)
        except tomllib.TOMLDecodeError as error:
            found = re.search(r"line (\d+), column (\d+)", str(error))
            line, column = (int(found[1]), int(found[2])) if found else (len(self.lines), 1)
            self.errors.append(
                RuleError(self.path, line, column, column + 1, "this is not TOML as it should be written")
            )
            return {}
        if self.path.endswith("pyproject.toml"):
            found_table: Mapping[str, Any] = data.get("tool", {}).get("kitproof", {})
            return found_table
        return data

    def house(self, table: Mapping[str, Any]) -> House:
        self._refuse_unknown(table, (*NAMES, *TABLES, "for"), "")
        by_list = []
        sections = table.get("for", [])
        if not isinstance(sections, list) or not all(isinstance(each, dict) for each in sections):
            self._wrong("for", "write each as a table of its own, [[for]]")
            sections = []
        for section in sections:
            self._refuse_unknown(section, (*OF_A_PATTERN, "lists"), " for some lists")
            for pattern in self._names(section, "lists"):
                by_list.append((pattern, self._settings(section)))
            if "lists" not in section:
                self._wrong("for", 'say for which lists: lists = ["second-unit/*.kitlist"]')
        units = self._names(table, "units")
        for unit in units:
            if unit not in UNITS:
                self._wrong(unit, f"there is no unit {unit}.{did_you_mean(unit, UNITS)}")
        settings = replace(self._settings(table), units=units)
        return House(settings, self._names(table, "rules"), tuple(by_list))

    def _settings(self, table: Mapping[str, Any]) -> Settings:
        limits, grades = self._texts(table, "limits"), self._texts(table, "grades")
        retired, never = self._names(table, "retired"), self._names(table, "never_waived")
        counts = self._names(table, "cannot_tell_counts") if "cannot_tell_counts" in table else None
        written = (*limits, *grades, *retired, *never, *(counts or ()))
        places = {name: (self.path, *self._place(name)) for name in written}
        return Settings(limits, grades, retired, never, counts, places=places)

    def _texts(self, table: Mapping[str, Any], key: str) -> dict[str, str]:
        held = table.get(key, {})
        if not isinstance(held, dict):
            self._wrong(key, f"{key} is a table of names, each with its value: [{key}]")
            return {}
        texts: dict[str, str] = {}
        for name, value in _flat(held):
            if isinstance(value, str):
                texts[name] = value
            elif isinstance(value, int | float) and not isinstance(value, bool):
                texts[name] = str(value)
            else:
                self._wrong(name.split(".")[-1], f'{name} should be written in quotes, such as "30 h"')
        return texts

    def _names(self, table: Mapping[str, Any], key: str) -> tuple[str, ...]:
        held = table.get(key, [])
        held = [held] if isinstance(held, str) else held
        if not isinstance(held, list) or not all(isinstance(each, str) for each in held):
            self._wrong(key, f'{key} is a list of names in quotes: {key} = ["…"]')
            return ()
        return tuple(held)

    def _refuse_unknown(self, table: Mapping[str, Any], known: Iterable[str], where: str) -> None:
        for key in table:
            if key not in known:
                self._wrong(key, f"{key} is nothing that a house sets{where}.{did_you_mean(key, known)}")

    def _wrong(self, key: str, says: str) -> None:
        self.errors.append(RuleError(self.path, *self._place(key), says))

    def _place(self, key: str) -> tuple[int, int, int]:
        """Line, column and end of the first line that writes a key or name, comments left out."""
        last = key.rsplit(".", 1)[-1]
        for number, line in enumerate(self.lines, 1):
            for wanted in (key, last):
                found = re.search(rf"(?<![\w-]){re.escape(wanted)}(?![\w-])", line.split("#")[0])
                if found:
                    return number, found.start() + 1, found.end() + 1
        return 1, 1, 2


def _flat(table: Mapping[str, Any], before: str = "") -> Iterable[tuple[str, Any]]:
    """Names with dots, as `[limits] rule.name = …` makes tables of them."""
    for name, value in table.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{before}{name}.")
        else:
            yield f"{before}{name}", value
