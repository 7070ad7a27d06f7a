"""Which rule book holds for a list: the shipped rules, the house's own, and what its settings file sets.

The command line goes over the settings file, the file over what ships. A settings file is `kitproof.toml`, or the table
`[tool.kitproof]` of a `pyproject.toml`, in the nearest folder above the list that has one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from kitproof.facts.fields import knows
from kitproof.facts.registry import FACTS, HOUSE_NUMBERS
from kitproof.rulebook import BadRules, RuleBook, RuleError, Settings, load
from kitproof.rulebook.house import NO_HOUSE, House, has_settings, over_settings, read_house
from kitproof.rulebook.settings import NO_SETTINGS
from kitproof.words.shipped import folder

SETTINGS_FILE = "kitproof.toml"
PROJECT_FILE = "pyproject.toml"


@dataclass(frozen=True, slots=True)
class Asked:
    """What the command line asks for over any file: settings, folders of own rules, a settings file by name."""

    settings: Settings = NO_SETTINGS
    rules: tuple[str, ...] = ()
    house: str = ""


class Books:
    """Rule books for lists, each made once for all lists that share its settings.

    `rules` are the rule files that ship, by their path in the rules folder.
    """

    def __init__(self, asked: Asked, rules: Mapping[str, str]) -> None:
        self.asked, self.shipped = asked, rules
        self.houses: dict[Path, House] = {}
        self.made: dict[tuple[str, str], RuleBook] = {}

    def for_list(self, real: Path) -> RuleBook:
        """The rule book for a list by its real path. Raises BadRules with every mistake of every file."""
        file = Path(self.asked.house).resolve() if self.asked.house else settings_file(real.parent)
        house = self._house(file)
        base = file.parent if file else real.parent
        inside = real.is_relative_to(base)
        settings = house.for_list(real.relative_to(base).as_posix()) if inside else house.settings
        whole = over_settings(settings, self.asked.settings)
        key = (str(file), repr(whole))
        if key not in self.made:
            folders = [base / each for each in house.rules] + [Path(each) for each in self.asked.rules]
            self.made[key] = self._load(whole, folders, file)
        return self.made[key]

    def _house(self, file: Path | None) -> House:
        if file is None:
            return NO_HOUSE
        if file not in self.houses:
            self.houses[file] = read_house(_text(file), str(file))
        return self.houses[file]

    def _load(self, settings: Settings, folders: list[Path], file: Path | None) -> RuleBook:
        files = dict(self.shipped)
        places: dict[str, str] = {}
        errors: list[RuleError] = []
        for each in folders:
            if not each.is_dir():
                errors.append(RuleError(str(file or each), 1, 1, 2, f"there is no folder of rules {each}"))
                continue
            for path, text in rules_in(each).items():
                if path in files:
                    says = "a rule of this name and group ships already: retire that one and give this another name"
                    errors.append(RuleError(str(each / path), 1, 1, 2, says))
                files[path], places[path] = text, str(each / path)
        try:
            book = load(files, FACTS, knows=knows, house=settings, numbers=HOUSE_NUMBERS)
        except BadRules as bad:
            errors += [replace(each, path=places.get(each.path, each.path)) for each in bad.errors]
        if errors:
            raise BadRules(errors)
        return replace(book, places=places)


def settings_file(start: Path) -> Path | None:
    """The settings file that holds for a folder: the nearest upward, `kitproof.toml` before `pyproject.toml`."""
    for here in (start, *start.parents):
        if (here / SETTINGS_FILE).is_file():
            return here / SETTINGS_FILE
        project = here / PROJECT_FILE
        if project.is_file() and has_settings(_text(project)):
            return project
    return None


def rules_in(top: Path) -> dict[str, str]:
    """The rule files of a folder: path within it to text."""
    files = sorted(each for each in top.rglob("*") if each.suffix == ".rule" or each.name == "limits")
    return {each.relative_to(top).as_posix(): _text(each) for each in files}


def shipped_rules() -> dict[str, str]:
    """The rule files that ship with the package."""
    return rules_in(folder("rules"))


def _text(file: Path) -> str:
    """A file of the house's as text; one that cannot be read is a mistake at its first character."""
    try:
        return file.read_bytes().decode("utf-8-sig")
    except OSError as error:
        says = f"this file cannot be read: {(error.strerror or 'no reason given').lower()}"
        raise BadRules([RuleError(str(file), 1, 1, 2, says)]) from error
    except UnicodeDecodeError as error:
        raise BadRules([RuleError(str(file), 1, 1, 2, "this file is not UTF-8 text")]) from error


def shipped_book(rules: Mapping[str, str] | None = None) -> RuleBook:
    """The rule book as it ships, with nothing set by any house; or one of other rule files, by path."""
    return load(shipped_rules() if rules is None else rules, FACTS, knows=knows, numbers=HOUSE_NUMBERS)
