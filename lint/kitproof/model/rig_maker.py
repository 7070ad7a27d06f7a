"""Rig entries made into rigs: alternatives, `like`, `also`, `without`, and the order from the ground up."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from kitproof.model import convert
from kitproof.model.convert import Line
from kitproof.model.impossible import possible_day
from kitproof.model.lost import lost_days
from kitproof.model.parts import Part
from kitproof.model.reports import Report
from kitproof.model.rigs import Option, Rig, Site, SlotLine
from kitproof.reading.document import Also, Choices, Document, Entry, Name, Where, Without
from kitproof.words.dimensions import LENGTH
from kitproof.words.kinds import KINDS, SITE, SUPPORT, fields_of
from kitproof.words.nearest import nearest
from kitproof.words.shapes import Shape

_RANKS = {"sticks": 0, "riser": 0, "adapter": 0, "head": 1, "plate": 2, "slide": 2, "base": 2, "camera": 3}
"""Where a support slot stands among those that have one order only."""

SLOTS = frozenset(kind.word for kind in KINDS.values() if kind.in_rigs)

FindPart = Callable[[str, str, Any, Where], Part]
"""From a slot, a name, the mass said on the line (or None) and the name's place to the part, or to a stand-in."""


class _Open(Struct, frozen=True):
    """A rig entry while it is being made."""

    document: Document
    entry: Entry
    find: FindPart
    report: Report


def make_rig(document: Document, entry: Entry, like: Rig | None, site: Site, find: FindPart, report: Report) -> Rig:
    """The rig of an entry; what it starts `like` lends it lines and conditions."""
    this = _Open(document, entry, find, report)
    lines = list(like.lines) if like else []
    values: dict[str, Any] = {}
    if like:
        kept = ("tilts", "left_standing", "underslung", "push", "drag", "dates", "tag", "places", "mounted_on", "notes")
        values = {name: getattr(like, name) for name in kept}
    own: dict[str, list[SlotLine]] = {}
    lost: list[str] = []
    previous: SlotLine | None = None
    for number, field in enumerate(entry.fields):
        line = Line(document, entry, field)
        match field.shape:
            case Shape.SLOT:
                previous = _slot_line(this, field.word, field.value, line)
                own.setdefault(field.word, []).append(previous)
                _place_line(lines, own, previous, like)
            case Shape.OR_SLOT:
                previous = _continue(this, lines, previous, field.value, line, number)
            case Shape.ALSO if isinstance(field.value, Also):
                previous = _slot_line(this, field.value.slot, field.value.choices, line)
                _insert(lines, previous)
            case Shape.WITHOUT if isinstance(field.value, Without):
                _take_out(this, lines, field.value, line)
            case Shape.ALSO | Shape.WITHOUT:
                lost.append(_lost_line(this, line))
            case _:
                _condition(values, field.word, field.value, line)
                lost.extend([_lost_line(this, line)] if field.word == "underslung" and field.value is None else [])
    days = lost_days(document, entry)
    if days is not None:
        values |= {"dates": None, "places": {**values.get("places", {}), "dates": days}}
    _stand_in(this, lines, like)
    _from_the_ground_up(this, lines)
    own_site = {field.name: values.pop(field.name) for field in SITE if field.name in values}
    if "day" in own_site:
        own_site["day"] = possible_day(own_site["day"], values["places"]["day"], report)
    site = Site(**{**_said(site), **(_said(like.site) if like else {}), **own_site}, places=site.places)
    return Rig(
        name=entry.name,
        where=document.where(entry, 0, 0, entry.end),
        lines=tuple(lines),
        site=site,
        unread=(*(like.unread if like else ()), *_unread(this), *lost),
        **values,
    )


def _slot_line(this: _Open, slot: str, value: Any, line: Line) -> SlotLine:
    """One slot line. Where its value could not be read, the slot is filled by a part of which nothing is known."""
    if not isinstance(value, Choices):
        return _lost(slot, line.where(), f"rig {this.entry.name}: {slot} (line {line.where().line} could not be read)")
    options = tuple(_option(this, slot, each, value, line) for each in value.options)
    if not options:
        part = this.find(slot, "", value.mass, line.where())
        options = (Option(part=part, where=line.where()),)
    return SlotLine(
        slot=slot,
        options=options,
        where=line.where(),
        at=None if value.at is None else convert.spot(value.at),
        at_known=value.at is None or value.at.known,
        on=value.on,
        on_is_name=value.on_is_name,
        legs=None if value.legs is None else convert.reach(value.legs, LENGTH),
        hung=convert.maybe(value.hung, LENGTH),
        spare=value.spare,
        only_with=tuple(each.text for each in value.only_with),
        on_at=None if value.on_place is None else line.where(value.on_place),
        only_with_at=tuple(line.where(each) for each in value.only_with),
    )


def _lost(slot: str, where: Where, says: str) -> SlotLine:
    """A slot that is filled by a part of which nothing is known, and why."""
    part = Part(kind=slot, name="", where=where, described=False, lost=says)
    return SlotLine(slot=slot, options=(Option(part=part, where=where),), where=where, at_known=False)


def _stand_in(this: _Open, lines: list[SlotLine], like: Rig | None) -> None:
    """Slots that are not filled, and whose word may stand misspelt on a line: what needs them cannot be judged.

    What another rig lends such a slot is not taken either: the misspelt line was to replace it.
    """
    lent = like.lines if like else ()
    for slip in this.entry.slips:
        slot = slip.nearest[0] if slip.kind == "unknown-word" and slip.nearest else ""
        there = [each for each in lines if each.slot == slot]
        if slot in SLOTS and all(any(each is other for other in lent) for each in there):
            where = this.document.where(this.entry, slip.row, slip.start, slip.end)
            lost = _lost(slot, where, f"rig {this.entry.name}: line {where.line}, which could not be read")
            if there:
                lines[lines.index(there[0])] = lost
                lines[:] = [each for each in lines if each not in there]
            elif like:
                _insert(lines, lost)
            else:
                below = (n for n, each in enumerate(lines) if each.where.line > where.line)
                lines.insert(next(below, len(lines)), lost)


def with_lost_rig(rig: Rig, like: str) -> Rig:
    """A rig that starts from one that is not there: each support slot that every rig has may have come from it."""
    lines = list(rig.lines)
    says = f"{rig.label}: all that it should have from rig {like}"
    for slot in ("sticks", "head", "slide", "camera"):
        if all(each.slot != slot for each in lines):
            _insert(lines, _lost(slot, rig.where, says))
    return replace(rig, lines=tuple(lines), unread=(*rig.unread, says))


def _option(this: _Open, slot: str, name: Name | None, value: Choices, line: Line) -> Option:
    if name is None:
        return Option(part=None, where=line.where(value))
    where = line.where(name)
    return Option(part=this.find(slot, name.text, value.mass, where), where=where)


def _place_line(lines: list[SlotLine], own: Mapping[str, list[SlotLine]], new: SlotLine, like: Rig | None) -> None:
    """The first line of a slot replaces those that the other rig had, in their old place; more of them follow it."""
    if not like:
        lines.append(new)
        return
    if len(own[new.slot]) > 1:
        _insert(lines, new)
        return
    spots = [n for n, each in enumerate(lines) if each.slot == new.slot and any(each is old for old in like.lines)]
    if not spots:
        _insert(lines, new)
        return
    for number in reversed(spots):
        del lines[number]
    lines.insert(spots[0], new)


def _insert(lines: list[SlotLine], new: SlotLine) -> None:
    """A support slot goes to its place from the ground up, behind others of its kind; anything else goes last."""
    same = [number for number, each in enumerate(lines) if each.slot == new.slot]
    if same:
        lines.insert(same[-1] + 1, new)
    elif new.slot in SUPPORT:
        rank = SUPPORT.index(new.slot)
        below = [n for n, each in enumerate(lines) if each.slot in SUPPORT and SUPPORT.index(each.slot) < rank]
        lines.insert(below[-1] + 1 if below else 0, new)
    else:
        lines.append(new)


def _from_the_ground_up(this: _Open, lines: list[SlotLine]) -> None:
    """Support lines that are written below what they carry go to their place, and the first of them is a slip.

    Sticks, head, what is between head and camera, camera; risers and adapters may stand anywhere below the camera.
    """
    highest = 0
    wrong = []
    for line in lines:
        rank = _RANKS.get(line.slot)
        if rank is None or (line.on and line.on not in SUPPORT):
            continue
        anywhere = line.slot in ("riser", "adapter") and highest < _RANKS["camera"]
        if rank < highest and not anywhere:
            wrong.append(line)
        else:
            highest = max(highest, rank)
    lines[:] = [line for line in lines if line not in wrong]
    for line in wrong:
        _insert(lines, line)
    if wrong:
        says = "the support stands from the ground up: sticks, head, slide, base, camera"
        this.report("figures-contradict", wrong[0].where, wrong[0].slot, wanted=says)


def _continue(
    this: _Open, lines: list[SlotLine], previous: SlotLine | None, value: Any, line: Line, number: int
) -> SlotLine | None:
    """A line that starts with `or` adds its alternatives, and what it says, to the line above."""
    stands_above = number > 0 and this.entry.fields[number - 1].shape in (Shape.SLOT, Shape.ALSO, Shape.OR_SLOT)
    if previous is None or not stands_above:
        if isinstance(value, Choices):
            this.report("unreadable-line", line.where(), "or", wanted='a slot line above it, such as lens "Pell 50"')
        return previous
    more = _slot_line(this, previous.slot, value, line)
    said = {name: getattr(more, name) for name in ("at", "legs", "hung") if getattr(more, name) is not None}
    said |= {name: getattr(more, name) for name in ("on", "on_is_name", "on_at") if more.on}
    said |= {name: getattr(more, name) for name in ("only_with", "only_with_at", "spare") if getattr(more, name)}
    said |= {"at_known": False} if not more.at_known else {}
    whole = replace(previous, options=(*previous.options, *more.options), **said)
    lines[lines.index(previous)] = whole
    return whole


def _take_out(this: _Open, lines: list[SlotLine], value: Without, line: Line) -> None:
    """`without SLOT` takes all its lines out, `without SLOT "name"` that alternative; what is not there is a slip."""
    name = value.name.text if value.name else None
    hit = False
    for each in [one for one in lines if one.slot == value.slot]:
        kept = tuple(o for o in each.options if name is not None and (o.part is None or o.part.name != name))
        if len(kept) == len(each.options):
            continue
        hit = True
        if kept:
            lines[lines.index(each)] = replace(each, options=kept)
        else:
            lines.remove(each)
    if not hit:
        said = f'{value.slot} "{name}"' if name else value.slot
        slots = tuple(dict.fromkeys(each.slot for each in lines))
        names = tuple(o.part.name for each in lines if each.slot == value.slot for o in each.options if o.part)
        near = nearest(name, names) if name else nearest(value.slot, slots)
        this.report("unknown-part", line.where(value), said, nearest_known=near, wanted="a part that this rig has")


def _condition(values: dict[str, Any], word: str, value: Any, line: Line) -> None:
    field = fields_of("rig")[word]
    values["places"] = {**values.get("places", {}), field.name: line.where()}
    if field.shape is Shape.TAG:
        if value is not None:
            name, said = convert.tag(value)
            values["tag"] = {**values.get("tag", {}), name: said}
    elif field.name == "instead_of":
        values["instead_of"] = (*values.get("instead_of", ()), *((value.text,) if value else ()))
        values["instead_of_at"] = (*values.get("instead_of_at", ()), *((line.where(),) if value else ()))
    elif value is None and field.shape in (Shape.DATES, Shape.PHRASES):
        # Written and not read: what a list or the other rig says must not stand in for it.
        values[field.name] = None if field.shape is Shape.DATES else ()
    elif field.name == "note":
        values["notes"] = (*values.get("notes", ()), *((value.text,) if value else ()))
    elif value is not None or field.shape in (Shape.QUANTITY, Shape.REACH):
        values[field.name] = convert.plain(field, value, line)


def _said(site: Site) -> dict[str, Any]:
    return {field.name: getattr(site, field.name) for field in SITE if getattr(site, field.name)}


def _lost_line(this: _Open, line: Line) -> str:
    return f"rig {this.entry.name}: line {line.where().line}, which could not be read"


def _unread(this: _Open) -> tuple[str, ...]:
    """Lines of the rig that could not be read and may have held a part."""
    first = this.entry.line
    return tuple(f"rig {this.entry.name}: line {first + row}, which could not be read" for row in this.entry.unread)
