"""`limit NAME VALUE [[from DATE] seen DATE "source"]` lines, and a house's own numbers in their place."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.fact import HouseNumber
from kitproof.rulebook import syntax
from kitproof.rulebook.errors import RuleError, did_you_mean
from kitproof.rulebook.expressions import UnreadableError, parse
from kitproof.rulebook.limits import Dated, Limit
from kitproof.rulebook.rulefile import Line, Value, quoted
from kitproof.rulebook.settings import Settings
from kitproof.words.dimensions import NUMBER, Dimension, in_words
from kitproof.words.units import UNITS

NAME = re.compile(r"[a-z][a-z0-9_]*")
DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


class LimitLine(Struct, frozen=True):
    """One line that was read, and where its name stands."""

    name: str
    dimension: Dimension
    percent: bool
    dated: Dated
    place: Value


def read_value(text: str) -> tuple[float, Dimension, bool] | str:
    """A number with its unit: in SI, its dimension, whether it is a share; or what is wrong with it."""
    try:
        found = parse(text)
    except UnreadableError as slip:
        return slip.says
    if not isinstance(found, syntax.Number):
        return f"a limit is one number with its unit, and {text} is not"
    if not found.unit:
        return found.written, NUMBER, False
    unit = UNITS[found.unit]
    return unit.to_si(found.written), unit.dimension, found.unit == "%"


def read_limits(lines: list[Line], owner: str) -> tuple[dict[str, Limit | None], dict[str, Value], list[RuleError]]:
    """The limits of a rule or group by name, where each stands, and what is wrong. One that is wrong is None."""
    errors: list[RuleError] = []
    by_name: dict[str, list[LimitLine] | None] = {}
    places: dict[str, Value] = {}
    for line in lines:
        name = line.value.text.split(" ")[0]
        read = _read_line(line.value, errors)
        if read is None:
            by_name[name] = None
            continue
        places.setdefault(name, read.place)
        held = by_name.setdefault(name, [])
        if held is not None:
            errors.extend(_disagreement(read, held))
            held.append(read)
    limits = {name: _limit(name, owner, held) for name, held in by_name.items()}
    return limits, places, errors


def _limit(name: str, owner: str, lines: list[LimitLine] | None) -> Limit | None:
    if lines is None:
        return None
    return Limit(name, owner, lines[0].dimension, tuple(line.dated for line in lines), lines[0].percent)


def _disagreement(line: LimitLine, before: list[LimitLine]) -> list[RuleError]:
    if before and line.dimension != before[0].dimension:
        says = f"{line.name} is {in_words(before[0].dimension)} above and {in_words(line.dimension)} here"
        return [line.place.error(says)]
    if any(line.dated.since == other.dated.since for other in before):
        since = line.dated.since
        return [line.place.error(f"{line.name} has a value {f'from {since}' if since else 'with no day'} already")]
    return []


def _read_line(value: Value, errors: list[RuleError]) -> LimitLine | None:
    name = NAME.match(value.text)
    rest = value.cut(name.end(), len(value.text)).stripped() if name else value
    if name is None or not rest.text or value.text[name.end() : name.end() + 1] not in (" ", "\t"):
        errors.append(value.error("a limit is a name and a number: limit longest 24 h"))
        return None
    dated = re.search(r"\s+(from|seen)\s", rest.text)
    number = rest.cut(0, dated.start()) if dated else rest
    found = read_value(number.text)
    if isinstance(found, str):
        errors.append(number.error(found))
        return None
    si, dimension, percent = found
    place = value.cut(0, name.end())
    if dated is None:
        return LimitLine(name.group(), dimension, percent, Dated(si, written=number.text), place)
    held = _read_dates(rest.cut(dated.start(), len(rest.text)).stripped(), si, number.text, errors)
    return None if held is None else LimitLine(name.group(), dimension, percent, held, place)


def _read_dates(value: Value, si: float, written: str, errors: list[RuleError]) -> Dated | None:
    """`from DATE seen DATE "source"`; without `from` where the source names no first day."""
    found = re.fullmatch(r"(from\s+(?P<since>\S+)\s+)?seen\s+(?P<seen>\S+)\s+(?P<source>.+)", value.text)
    if not found:
        errors.append(value.error('a dated limit says: from 2027-01-01 seen 2027-03-02 "where it was read"'))
        return None
    days: dict[str, date] = {}
    for which in ("since", "seen"):
        day = _day(found[which] or "")
        if day is not None:
            days[which] = day
        elif found[which] is not None:
            says = f"{found[which]} is no day: write year-month-day, 2027-01-31"
            errors.append(value.error(says, found.start(which), found.end(which)))
            return None
    source = quoted(value.cut(found.start("source"), found.end("source")))
    if isinstance(source, RuleError):
        errors.append(source)
        return None
    return Dated(si, days.get("since"), days["seen"], source.text, written)


def _day(text: str) -> date | None:
    if not DAY.fullmatch(text):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


class HouseLimits(Struct, frozen=True):
    """A house's limits matched to what they set: by a limit's full name, and the facts' own numbers by name."""

    by_full_name: Mapping[str, Dated]
    numbers: Mapping[str, float]
    errors: tuple[RuleError, ...]


def match_house(house: Settings, limits: list[Limit], numbers: Mapping[str, HouseNumber]) -> HouseLimits:
    """Finds what each limit of the house sets; a name that is not known, or fits several, is a mistake."""
    found: dict[str, Dated] = {}
    set_numbers = {name: each.value for name, each in numbers.items()}
    errors: list[RuleError] = []
    for name, written in house.limits.items():
        meant = [limit for limit in limits if name in (limit.name, limit.full_name)]
        wanted = meant[0].dimension if meant else numbers[name].dimension if name in numbers else None
        says = _wrong_name(name, meant, limits, numbers) or _wrong_value(name, written, wanted)
        if says:
            errors.append(house.error("limits", name, says))
            continue
        value = read_value(written)
        assert not isinstance(value, str), "looked at just above"
        if meant:
            found[meant[0].full_name] = Dated(value[0], source="set by the house", written=written)
        else:
            set_numbers[name] = value[0]
    return HouseLimits(found, set_numbers, tuple(errors))


def _wrong_name(name: str, meant: list[Limit], limits: list[Limit], numbers: Mapping[str, HouseNumber]) -> str:
    if len(meant) > 1:
        return f"{name} may be " + " or ".join(limit.full_name for limit in meant) + ": write which"
    if not meant and name not in numbers:
        known = {*numbers, *(limit.full_name for limit in limits), *(limit.name for limit in limits)}
        return f"there is no limit called {name}.{did_you_mean(name, known)}"
    return ""


def _wrong_value(name: str, written: str, wanted: Dimension | None) -> str:
    found = read_value(written)
    if isinstance(found, str):
        return f"{name}: {found}"
    if found[1] != wanted:
        return f"{name} is {in_words(wanted or NUMBER)}, and {written} is {in_words(found[1])}"
    return ""


def with_house(limit: Limit, house: HouseLimits) -> Limit:
    """A limit with the house's number in its place, if the house has set one."""
    dated = house.by_full_name.get(limit.full_name)
    return limit if dated is None else replace(limit, values=(dated,), set_by_house=True)
