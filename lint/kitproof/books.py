"""Which rule book holds for a list: the shipped rules, the house's own, and what its settings file sets.

The command line goes over the settings file, the file over what ships. A settings file is `kitproof.toml`, or the table
`[tool.kitproof]` of a `pyproject.toml`, in the nearest folder above the list that has one.
"""

from __future__ import annotations

import os
import pickle
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from msgspec import Struct, field
from msgspec.structs import replace

from kitproof.facts.fields import knows
from kitproof.facts.registry import FACTS, HOUSE_NUMBERS
from kitproof.kept import NOTHING, Kept
from kitproof.looks import Looks
from kitproof.rulebook.errors import BadRules, RuleError, did_you_mean
from kitproof.rulebook.house import NO_HOUSE, House, has_settings, over_settings, read_house
from kitproof.rulebook.rules import RuleBook
from kitproof.rulebook.settings import COMMAND_LINE, NO_SETTINGS, Settings, Spot
from kitproof.words.shipped import folder

SETTINGS_FILE = "kitproof.toml"
PROJECT_FILE = "pyproject.toml"


class Asked(Struct, frozen=True):
    """What the command line asks for over any file: settings, folders of own rules, a settings file by name.

    `spot` is where that was asked for, if not there.
    """

    settings: Settings = NO_SETTINGS
    rules: tuple[str, ...] = ()
    house: str = ""
    spot: Spot = COMMAND_LINE


class Gathered(Struct):
    """Rule files of all folders by group and name, where a house's own ones are, and what is wrong with them."""

    files: dict[str, str]
    places: dict[str, str] = field(default_factory=dict)
    errors: list[RuleError] = field(default_factory=list)

    def take(self, top: Path, spot: Spot, looks: Looks) -> None:
        """Takes in a house's folder of rules, named at `spot`."""
        found = rule_files(top, looks)
        if not found:
            self.errors.append(RuleError(*spot, _no_rules(top, looks)))
        for path in found:
            name, shown = path.relative_to(top).as_posix(), shown_path(path)
            try:
                text = _text(path, looks)
            except BadRules as bad:
                self.errors += bad.errors
                continue
            clash = self._clash(name)
            if clash:
                self.errors.append(RuleError(shown, 1, 1, 2, clash))
            else:
                self.files[name], self.places[name] = text, shown

    def _clash(self, name: str) -> str:
        """What stands in the way of a rule file's name; "" where nothing does."""
        alike = [each for each in self.files if each == name or (name.endswith(".rule") and _same_rule(each, name))]
        if not alike:
            return ""
        what = "a rule of this name" if name.endswith(".rule") else "a file of limits for this group"
        if alike[0] in self.places:
            return f"{what} is in {self.places[alike[0]]} already: every one has a name of its own"
        if name.endswith(".rule"):
            return (
                f"{what} ships already, in the group {alike[0].split('/')[0]}: retire that one, and call this another"
            )
        return f"{what} ships already: set its limits in {SETTINGS_FILE}, or call the group another name"


def _same_rule(one: str, other: str) -> bool:
    return one.rsplit("/", 1)[-1] == other.rsplit("/", 1)[-1]


class Books:
    """Rule books for lists, each made once for all lists that share its settings.

    `rules` are the rule files that ship, by their path in the rules folder. A book that was made before is taken from
    where it was kept.
    """

    def __init__(
        self, asked: Asked, rules: Mapping[str, str], keep: Kept = NOTHING, looks: Looks | None = None
    ) -> None:
        self.asked, self.shipped, self.keep, self.looks = asked, rules, keep, looks or Looks()
        self.settings_files: dict[Path, Path | None] = {}
        self.houses: dict[Path, House] = {}
        self.made: dict[tuple[str, str], RuleBook] = {}

    def for_list(self, real: Path) -> RuleBook:
        """The rule book for a list by its real path. Raises BadRules with every mistake of every file."""
        file = self._settings_file(real.parent)
        house = self._house(file)
        base = file.parent if file else real.parent
        inside = real.is_relative_to(base)
        settings = house.for_list(real.relative_to(base).as_posix()) if inside else house.settings
        whole = over_settings(settings, self.asked.settings)
        key = (str(file), repr(whole))
        if key not in self.made:
            self.made[key] = self._load(whole, house, base)
        return self.made[key]

    def _book(self, files: Mapping[str, str], settings: Settings, others: Sequence[Settings]) -> RuleBook:
        """The book of these files and settings, kept or made now. Raises BadRules."""
        name = self.keep.name(repr(settings), repr(others), repr(files))
        known = self.keep.get("book", name)
        if known is not None:
            book: RuleBook = pickle.loads(known)
            return book
        from kitproof.rulebook.loading import load  # loads lark

        book = replace(load(files, FACTS, knows=knows, house=settings, numbers=HOUSE_NUMBERS, others=others), name=name)
        self.keep.put("book", name, pickle.dumps(book))
        return book

    def _settings_file(self, folder: Path) -> Path | None:
        if self.asked.house:
            return Path(self.looks.real(os.path.abspath(self.asked.house)))
        if folder not in self.settings_files:
            self.settings_files[folder] = settings_file(folder, self.looks)
        return self.settings_files[folder]

    def files_for(self, real: Path) -> list[Path]:
        """The files and folders that decide a list's rule book, settings files that are not there included."""
        file = self._settings_file(real.parent)
        base = file.parent if file else real.parent
        folders = [*(base / name for name, _ in self._house(file).rules), *map(Path, self.asked.rules)]
        found = [*([file] if file else []), *(self._real(each) for each in folders)]
        return [*found, *(each / SETTINGS_FILE for each in real.parents)]

    def _house(self, file: Path | None) -> House:
        if file is None:
            return NO_HOUSE
        if file not in self.houses:
            self.houses[file] = read_house(_text(file, self.looks), shown_path(file))
        return self.houses[file]

    def _real(self, path: Path) -> Path:
        return Path(self.looks.real(os.path.abspath(path)))

    def _load(self, settings: Settings, house: House, base: Path) -> RuleBook:
        gathered = Gathered(dict(self.shipped))
        folders = {self._real(base / name): spot for name, spot in house.rules}
        for name in self.asked.rules:
            folders.setdefault(self._real(Path(name)), self.asked.spot)
        for top, spot in folders.items():
            gathered.take(top, spot, self.looks)
        errors, places = gathered.errors, gathered.places
        others = [each for _, each in house.by_list]
        try:
            book = self._book(gathered.files, settings, others)
        except BadRules as bad:
            errors += _placed(bad.errors, places)
        if errors:
            raise BadRules(errors)
        warnings = tuple(_placed(book.warnings, places))
        return replace(book, places=places, warnings=warnings, by_list=house.by_list)


def _placed(errors: Iterable[RuleError], places: Mapping[str, str]) -> list[RuleError]:
    return [replace(each, path=places.get(each.path, each.path)) for each in errors]


def settings_file(start: Path, looks: Looks | None = None) -> Path | None:
    """The settings file that holds for a folder: the nearest upward, `kitproof.toml` before `pyproject.toml`."""
    looks = looks or Looks()
    for here in (start, *start.parents):
        if looks.is_file(str(here / SETTINGS_FILE)):
            return here / SETTINGS_FILE
        project = here / PROJECT_FILE
        if looks.is_file(str(project)) and has_settings(_bytes(project, looks).decode("utf-8", "replace")):
            return project
    return None


def shown_path(path: Path) -> str:
    """A path as people say it: from the current folder where it lies inside it."""
    here = Path.cwd()
    return path.relative_to(here).as_posix() if path.is_relative_to(here) else str(path)


def rule_files(top: Path, looks: Looks | None = None) -> list[Path]:
    """The rule files of a folder; what is hidden is left out."""
    return sorted(_rule_files(top, looks or Looks()))


def _rule_files(here: Path, looks: Looks) -> Iterator[Path]:
    if not looks.is_folder(str(here)):
        return
    for name in looks.names(str(here)):
        if name.startswith(".") or name.endswith("//"):
            continue
        if name.endswith("/"):
            yield from _rule_files(here / name, looks)
        elif name.endswith(".rule") or name == "limits":
            yield here / name


def _no_rules(top: Path, looks: Looks) -> str:
    shown = shown_path(top)
    if looks.is_folder(str(top)):
        return f"there is no rule in the folder {shown}: a rule is a file GROUP/NAME.rule in it"
    beside = looks.names(str(top.parent)) if looks.is_folder(str(top.parent)) else ()
    visible = [each.rstrip("/") for each in beside if each.endswith("/") and not each.startswith(".")]
    return f"there is no folder of rules {shown}.{did_you_mean(top.name, visible)}"


def shipped_rules() -> dict[str, str]:
    """The rule files that ship with the package, by their path in the rules folder."""
    top = folder("rules")
    looks = Looks()
    return {each.relative_to(top).as_posix(): _text(each, looks) for each in rule_files(top, looks)}


def _text(file: Path, looks: Looks) -> str:
    """A file of the house's as text; one that cannot be read is a mistake at its first character."""
    try:
        return _bytes(file, looks).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object.count(b"\n", 0, error.start) + 1
        raise BadRules([RuleError(shown_path(file), line, 1, 2, "this file is not UTF-8 text")]) from error


def _bytes(file: Path, looks: Looks) -> bytes:
    try:
        return looks.bytes(str(file))
    except OSError as error:
        says = f"this file cannot be read: {(error.strerror or 'no reason given').lower()}"
        raise BadRules([RuleError(shown_path(file), 1, 1, 2, says)]) from error


def shipped_book(rules: Mapping[str, str] | None = None) -> RuleBook:
    """The rule book as it ships, with nothing set by any house; or one of other rule files, by path."""
    from kitproof.rulebook.loading import load

    return load(shipped_rules() if rules is None else rules, FACTS, knows=knows, numbers=HOUSE_NUMBERS)
