"""Drafts to values: one function for each shape but those of rigs, orders and cases, which `slots` has.

Each takes the draft, the field's word and the notes of its line, and gives the value, or None with a slip noted.
"""

from __future__ import annotations

import math
from datetime import date
from itertools import pairwise

from msgspec.structs import replace

from kitproof.reading import wanted
from kitproof.reading.characters import fold
from kitproof.reading.document import (
    Axis,
    Count,
    Counted,
    CountedName,
    Dates,
    Day,
    Draw,
    Flag,
    Interface,
    Name,
    Phrase,
    Phrases,
    Place,
    Point,
    Points,
    Quantity,
    Reach,
    Size,
    Steps,
    Tag,
    Weighed,
)
from kitproof.reading.drafts import (
    Amount,
    AxisDraft,
    Doubt,
    DrawDraft,
    InterfaceDraft,
    Part,
    PlaceDraft,
    PointDraft,
    StepsDraft,
    TagDraft,
    Travel,
    TravelEnd,
    WeighedDraft,
    Word,
)
from kitproof.reading.drafts import Counted as CountedDraft
from kitproof.reading.notes import Notes
from kitproof.reading.quantities import amount, count_of, quantity, reach, unit_of
from kitproof.words.dimensions import LENGTH, MASS, NUMBER, POWER, TORQUE, Dimension
from kitproof.words.kinds import FAMILIES, FieldWord
from kitproof.words.nearest import nearest
from kitproof.words.units import UNITS

ANYWHERE = (-math.inf, math.inf)
_AXES = {
    "forward": ("forward", 1),
    "back": ("forward", -1),
    "up": ("up", 1),
    "down": ("up", -1),
    "left": ("left", 1),
    "right": ("left", -1),
}
_WITH_HEIGHT = ("chart", "tried")
_SIZED_BY_LENGTH = ("bowl", "wedge")
_WITHOUT_SIZE = ("flat", "shoe")
_SIZES = {
    "bowl": "bowl 100 mm",
    "screw": "screw 3/8-16",
    "wedge": "wedge 38 mm",
    "slide": "slide wide",
    "lens": "lens PL",
    "battery": "battery V",
    "rods": "rods 15/60",
}
_FIXED_SIZES = ("wide", "narrow", "foot")


def _dimension(field: FieldWord) -> Dimension:
    return field.dimension or NUMBER


def read_quantity_field(draft: Doubt, field: FieldWord, notes: Notes) -> Quantity | None:
    dimensions = (_dimension(field), *([field.or_dimension] if field.or_dimension else []))
    return quantity(draft, dimensions, notes, positive=field.positive)


def read_reach(draft: Doubt, field: FieldWord, notes: Notes) -> Reach | None:
    return reach(draft, _dimension(field), notes, positive=field.positive)


def read_travel(draft: Travel | Doubt, field: FieldWord, notes: Notes) -> Reach | None:
    """How far back and forward, as a reach with forward positive."""
    if isinstance(draft, Doubt):
        return reach(draft, LENGTH, notes, positive=False)
    shared = draft.front.amount.unit
    back = _travel_end(draft.back, shared, notes) if draft.back else 0.0
    front = _travel_end(draft.front, None, notes)
    if back is None or front is None:
        return None
    start = draft.back.amount.start if draft.back else draft.front.amount.start
    end = draft.front.direction.end if draft.front.direction else draft.front.amount.end
    if back > front:
        says = "the end further back comes first, such as 60 mm back to 80 mm forward"
        notes.add("figures-contradict", start, end, says)
        return None
    return Reach(back, front, LENGTH, start, end, True, shared.text if shared else "")


def _travel_end(draft: TravelEnd, shared: Word | None, notes: Notes) -> float | None:
    far = amount(draft.amount, LENGTH, notes, shared)
    if far is None:
        return None
    if draft.direction is None:
        if far == 0:
            return far
        says = "a direction after the length: back or forward"
        notes.add("unreadable-line", draft.amount.start, draft.amount.end, says)
        return None
    axis, sign = _AXES[draft.direction.text.casefold()]
    if axis != "forward":
        says = "back or forward: a slide has no other way"
        notes.add("unreadable-line", draft.direction.start, draft.direction.end, says)
        return None
    return sign * far


def read_place(draft: PlaceDraft, field: FieldWord, notes: Notes) -> Place | None:
    return place(draft, notes)


def place(draft: PlaceDraft, notes: Notes) -> Place | None:
    """A place from its parts; a direction not said is 0, and none may be said twice."""
    if not draft.parts:
        return Place(ANYWHERE, ANYWHERE, ANYWHERE, draft.start, draft.end, known=False)
    found: dict[str, tuple[float, float]] = {}
    for part in draft.parts:
        axis, offset = _place_part(part, notes)
        if offset is None:
            return None
        if axis in found:
            says = f"there is one figure only along {axis}"
            notes.add("figures-contradict", part.far.start, part.direction.end, says)
            return None
        found[axis] = offset
    nothing = (0.0, 0.0)
    return Place(
        found.get("forward", nothing),
        found.get("up", nothing),
        found.get("left", nothing),
        draft.start,
        draft.end,
        True,
        tuple(found),
    )


def _place_part(part: Part, notes: Notes) -> tuple[str, tuple[float, float] | None]:
    axis, sign = _AXES[part.direction.text.casefold()]
    far = quantity(part.far, (LENGTH,), notes, positive=False)
    if far is None:
        return axis, None
    return axis, (far.low, far.high) if sign > 0 else (-far.high, -far.low)


def read_size(draft: list[Doubt], field: FieldWord, notes: Notes) -> Size | None:
    """Lengths joined by x; those without a unit have that of the next one."""
    start, end = draft[0].start, draft[-1].end
    if len(draft) == 1 and draft[0].how == "unknown":
        return Size((), start, end, known=False)
    if len(draft) != (2 if field.word == "sensor" else 3):
        notes.add("unreadable-line", start, end, wanted.of_field(field))
        return None
    sides: list[Quantity] = []
    shared: Word | None = None
    for side in reversed(draft):
        whole = _with_unit(side, shared)
        read = quantity(whole, (LENGTH,), notes)
        if read is None:
            return None
        sides.append(read if whole is side else _ending(read, side.end))
        shared = (whole.second or whole.first or Amount(Word("", 0, 0), shared)).unit
    return Size(tuple(reversed(sides)), start, end)


def _with_unit(side: Doubt, unit: Word | None) -> Doubt:
    """A side that has no unit of its own, given that of its neighbour."""
    last = side.second or side.first
    if last is None or last.unit is not None or unit is None:
        return side
    given = replace(last, unit=unit)
    return replace(side, second=given) if side.second else replace(side, first=given)


def _ending(side: Quantity, end: int) -> Quantity:
    return Quantity(side.low, side.high, side.dimension, side.start, end, side.how, side.unit)


def read_points(draft: list[PointDraft], field: FieldWord, notes: Notes) -> Points | None:
    """A value at each height. One that cannot be read makes the whole not known: a chart with a hole is no chart."""
    start, end = draft[0].value.start, (draft[-1].at or draft[-1].value).end
    if len(draft) == 1 and draft[0].at is None and draft[0].value.how == "unknown":
        return Points((), start, end, known=False)
    before = len(notes.slips)
    points = [point for each in draft if (point := _point(each, field, notes)) is not None]
    if len(notes.slips) > before:
        return None
    heights = sorted((each for each in points if each.at and each.at.known), key=lambda each: (_at(each), each.start))
    for one, other in pairwise(heights):
        if _at(one) == _at(other):
            notes.add("figures-contradict", other.start, other.end, "each height stands once")
            return None
    return Points(tuple(points), start, end)


def _at(point: Point) -> tuple[float, float]:
    return (point.at.low, point.at.high) if point.at else (0.0, 0.0)


def _point(draft: PointDraft, field: FieldWord, notes: Notes) -> Point | None:
    value = quantity(draft.value, (_dimension(field),), notes, positive=field.positive)
    at = quantity(draft.at, (field.at or LENGTH,), notes, positive=False) if draft.at else None
    end = draft.at.end if draft.at else draft.value.end
    if draft.at is None and field.word in _WITH_HEIGHT:
        notes.add("unreadable-line", draft.value.start, end, "the height at which it holds, such as 18 kg at 150 mm")
        return None
    if value is None or (draft.at and at is None):
        return None
    return Point(value, at, draft.value.start, end)


def read_axis(draft: AxisDraft, field: FieldWord, notes: Notes) -> Axis | None:
    depth = quantity(draft.depth, (LENGTH,), notes, positive=False)
    if depth is None:
        return None
    if draft.side is not None and draft.side.text.casefold() == "above" and depth.known:
        depth = Quantity(-depth.high, -depth.low, depth.dimension, depth.start, depth.end, depth.how, depth.unit)
    return Axis(depth, notes.value_start, notes.line.end)


def read_steps(draft: StepsDraft, field: FieldWord, notes: Notes) -> Steps | None:
    """Counterbalance as torque, or as masses at a height."""
    by_mass = draft.span.at is not None
    span = reach(draft.span.value, MASS if by_mass else TORQUE, notes)
    at = quantity(draft.span.at, (LENGTH,), notes, positive=False) if draft.span.at else None
    steps = count_of(draft.number, notes) if draft.number else None
    if span is None or (draft.span.at and at is None) or (draft.number and steps is None):
        return None
    if draft.number and steps == 0:
        notes.add("figures-contradict", draft.number.start, draft.number.end, "it has one step or more, or is stepless")
        return None
    return Steps(span, at, steps, draft.stepless, notes.value_start, notes.line.end)


def read_draw(draft: DrawDraft, field: FieldWord, notes: Notes) -> Draw | None:
    """Usual power and the most. Only the most: the usual one is anywhere up to it."""
    most = quantity(draft.most, (POWER,), notes) if draft.most else None
    if draft.most and most is None:
        return None
    if draft.usual is None:
        if most is None:
            return None
        high = most.high
        usual = Quantity(0.0, high, POWER, most.start, most.end, "between" if most.known else "unknown", most.unit)
        return Draw(usual, most, notes.value_start, notes.line.end)
    first = quantity(draft.usual, (POWER,), notes)
    if first is None:
        return None
    if most is not None and most.known and first.known and most.high < first.low:
        notes.add("figures-contradict", first.start, notes.line.end, "the usual power comes first, then the most")
        return None
    return Draw(first, most, notes.value_start, notes.line.end)


def read_weighed(draft: WeighedDraft, field: FieldWord, notes: Notes) -> Weighed | None:
    front, rear = (quantity(each, (MASS,), notes) for each in (draft.front, draft.rear))
    front_at, rear_at = place(draft.front_at, notes), place(draft.rear_at, notes)
    if front is None or rear is None or front_at is None or rear_at is None:
        return None
    return Weighed(front, front_at, rear, rear_at, notes.value_start, notes.line.end)


def read_interface(draft: InterfaceDraft, field: FieldWord, notes: Notes) -> Interface | None:
    """A family and a size. The family is one that is known, else the words before the first figure."""
    start, end = notes.value_start, notes.line.end
    at = place(draft.at, notes) if draft.at else None
    if draft.at and at is None:
        return None
    if not draft.words:
        return Interface("", "", at, start, end, known=False)
    texts = [word.text for word in draft.words]
    if not texts[0][0].isalpha():
        notes.add("unreadable-line", start, end, wanted.of_field(field))
        return None
    length = _family_length(texts)
    family = fold(" ".join(texts[:length]))
    if family in FAMILIES and family not in _WITHOUT_SIZE and length == len(texts):
        notes.add("unreadable-line", start, draft.words[-1].end, f"a size after “{family}”, such as {_SIZES[family]}")
        return None
    size = _size_words(family, draft.words[length:], notes)
    return None if size is None else Interface(family, size, at, start, end)


def _family_length(texts: list[str]) -> int:
    if texts[0].casefold() in FAMILIES:
        return 1
    for number, text in enumerate(texts):
        if number and text[:1].isdigit():
            return number
    return 1


def _size_words(family: str, words: tuple[Word, ...], notes: Notes) -> str | None:
    """The size in words, a length written out in mm so that 10 cm and 100 mm agree. None with a slip."""
    if not words:
        return ""
    text = " ".join(word.text for word in words)
    if text.casefold() in _FIXED_SIZES:
        return text.casefold()
    figures = text.rstrip("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ. ")
    number = figures if figures.replace(".", "", 1).isdigit() and len(figures) < 20 else ""
    unit = unit_of(text[len(figures) :].strip()) if number and len(text) > len(figures) else None
    if unit is not None and unit.dimension == LENGTH:
        return f"{unit.to_si(float(number)) * 1000:.10g} mm"
    if number and family in _SIZED_BY_LENGTH:
        kind = "no-unit" if text == number else "wrong-unit"
        notes.add(kind, words[0].start, words[-1].end, wanted.quantity_of(LENGTH))
        return None
    return text.replace(" / ", "/").replace(" - ", "-")


def read_phrases(draft: list[list[Word]], field: FieldWord, notes: Notes) -> Phrases | None:
    phrases: list[Phrase] = []
    for words in draft:
        text = fold(" ".join(word.text for word in words))
        start, end = words[0].start, words[-1].end
        if text not in field.phrases:
            notes.add("unknown-word", start, end, wanted.of_field(field), nearest(text, field.phrases))
        phrases.append(Phrase(text, start, end))
    if any(phrase.text not in field.phrases for phrase in phrases):
        return None
    if len(phrases) > 1 and (field.word != "quick release" or phrases[0].text == "self-locking"):
        notes.add("figures-contradict", phrases[1].start, phrases[1].end, f"nothing stands beside “{phrases[0].text}”")
        return None
    return Phrases(tuple(phrases), phrases[0].start, phrases[-1].end)


def read_flag(draft: None, field: FieldWord, notes: Notes) -> Flag:
    return Flag(notes.line.start, notes.line.end)


def read_name(draft: Word, field: FieldWord, notes: Notes) -> Name:
    return notes.name(draft)


def read_text(draft: Word, field: FieldWord, notes: Notes) -> Name:
    """Words in quotes, or bare to the end of the line."""
    if draft.text.startswith('"'):
        return notes.name(draft)
    return Name(notes.line.typed[draft.start : draft.end], draft.start, draft.end)


def read_counted(draft: list[CountedDraft], field: FieldWord, notes: Notes) -> Counted | None:
    names: list[CountedName] = []
    for each in draft:
        count = count_of(each.number, notes) if each.number else 1
        if count is None:
            return None
        names.append(CountedName(count, notes.name(each.name)))
    return Counted(tuple(names), notes.value_start, notes.line.end)


def read_count(draft: Word, field: FieldWord, notes: Notes) -> Count | None:
    number = count_of(draft, notes)
    return None if number is None else Count(number, draft.start, draft.end)


def read_date(draft: Word, field: FieldWord, notes: Notes) -> Day | None:
    year, month, day = (int(each) for each in draft.text.split("-"))
    try:
        return Day(date(year, month, day), draft.start, draft.end)
    except ValueError:
        notes.add("figures-contradict", draft.start, draft.end, "the calendar has no such day")
        return None


def read_dates(draft: list[Word], field: FieldWord, notes: Notes) -> Dates | None:
    days = [read_date(each, field, notes) for each in draft]
    first, last = days[0], days[-1]
    if first is None or last is None:
        return None
    if first.day > last.day:
        notes.add("figures-contradict", first.start, last.end, "the earlier day comes first")
        return None
    return Dates(first, last, first.start, last.end)


def read_unit_names(draft: list[Word], field: FieldWord, notes: Notes) -> Phrases | None:
    for word in draft:
        if unit_of(word.text) is None:
            notes.add("unknown-word", word.start, word.end, wanted.of_field(field), nearest(word.text, UNITS))
    if notes.slips:
        return None
    return Phrases(tuple(Phrase(word.text, word.start, word.end) for word in draft), draft[0].start, draft[-1].end)


def read_tag(draft: TagDraft, field: FieldWord, notes: Notes) -> Tag | None:
    if isinstance(draft.value, Word):
        return Tag(draft.word.text, notes.name(draft.value), draft.word.start, draft.value.end)
    value = quantity(draft.value, (), notes, positive=False, bare=True)
    return None if value is None else Tag(draft.word.text, value, draft.word.start, value.end)


def read_rig_name(draft: tuple[Word, ...], field: FieldWord, notes: Notes) -> Name:
    return rig_name(draft, notes)


def rig_name(words: tuple[Word, ...], notes: Notes) -> Name:
    """A rig's name, bare or in quotes; `rig` may stand before it."""
    if len(words) > 1 and words[0].text.casefold() == "rig":
        words = words[1:]
    if len(words) == 1 and words[0].text.startswith('"'):
        return notes.name(words[0])
    return Name(" ".join(word.text for word in words), words[0].start, words[-1].end)
