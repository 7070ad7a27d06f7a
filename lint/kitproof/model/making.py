"""Documents made into one list: parts first, then moves, rigs, orders, cases and waivers."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

from msgspec.structs import replace

from kitproof.model import convert
from kitproof.model.case_maker import make_case, make_move, make_order, make_waiver
from kitproof.model.convert import Line
from kitproof.model.impossible import possible_day, possible_part
from kitproof.model.kitlist import Case, KitList, Move, Order, PlacedSlip, Waiver
from kitproof.model.names import Shelves, check_names
from kitproof.model.part_checks import check_part
from kitproof.model.part_maker import make_part
from kitproof.model.parts import Part
from kitproof.model.quantities import Spot
from kitproof.model.rig_maker import make_rig, with_lost_rig
from kitproof.model.rigs import Days, Rig, Site
from kitproof.model.sources import Sources
from kitproof.reading.document import Document, Entry, Name, Quantity, Slip, Where
from kitproof.words.dimensions import MASS
from kitproof.words.kinds import ENTRIES, KINDS, SITE
from kitproof.words.nearest import nearest
from kitproof.words.phrases import with_article
from kitproof.words.shapes import Shape


def make_list(sources: Sources, key: str = "") -> KitList:
    """The list that a file and those it uses describe. Never raises for what a person typed: that becomes slips.

    `key` names the list from wherever it is proofed; without one its path does.
    """
    return _Maker(sources).make(key)


SITE_NAMES = frozenset(field.name for field in SITE)
"""What a list may say of the site, by name."""

NEAR = Spot((-0.05, 0.05), (-0.05, 0.05), (-0.05, 0.05))
"""Where the centre of gravity of a thing lies of which a line tells the mass and no book anything: within 50 mm of
where the line puts it, in m. Common practice, no source: such things are small."""


class _Maker:
    """The state of making one list; it lives no longer than that."""

    def __init__(self, sources: Sources) -> None:
        self.sources = sources
        self.slips: list[PlacedSlip] = list(sources.slips)
        self.parts: dict[str, Part] = {}
        self.own_parts: list[Part] = []
        self.rigs: dict[str, Rig] = {}
        self.moves: dict[str, Move] = {}
        self.cases: dict[str, Case] = {}
        self.orders: list[Order] = []
        self.waivers: list[Waiver] = []
        self.within = 0.0
        self.others: dict[str, Part] = {}
        self.unsure: set[str] = set()
        self.lost_books = any(each.slip.kind.startswith("used-file") for each in sources.slips)

    def make(self, key: str) -> KitList:
        main = self.sources.documents[0]
        for document in self.sources.documents:
            self._slips_of(document)
            self._read_parts(document)
        head = self._head(main)
        said = {field.name: head[field.name] for field in SITE if field.name in head}
        site = Site(**said, places={name: at for name, at in head["places"].items() if name in SITE_NAMES})
        for wanted in ("move", "rig", "order", "case", "waive"):
            for entry, within in self._entries(main):
                if entry.kind == wanted:
                    self.within = within
                    self._read_entry(main, entry, site)
        whole = not self.lost_books
        check_names(Shelves(self.parts, self.others, self.rigs, self.cases, self.orders, whole), self._report)
        if not self._anything(main):
            self._report("nothing-listed", Where(main.path, 1, 1, 1, 1), "")
        return KitList(
            path=main.path,
            key=key or main.path,
            documents=self.sources.documents,
            parts=self.parts,
            own_parts=tuple(self.own_parts),
            title=head.get("title", ""),
            issue=head.get("issue"),
            notes=head.get("notes", ()),
            units=head.get("units", ()),
            dates=head.get("dates"),
            site=site,
            orders=tuple(self.orders),
            rigs=tuple(self.rigs.values()),
            moves=self.moves,
            cases=tuple(self.cases.values()),
            waivers=tuple(self.waivers),
            slips=tuple(dict.fromkeys(self.slips)),
            where=head.get("where", Where(main.path, 1, 1, 1, 1)),
        )

    def _slips_of(self, document: Document) -> None:
        for entry in document.entries:
            for slip in entry.slips:
                where = document.where(entry, slip.row, slip.start, slip.end)
                self.slips.append(PlacedSlip(slip=slip, where=where))
            if not entry.name and entry.name_start < entry.name_end and entry.kind in ("part", "move", "rig", "case"):
                self._no_name(document.where(entry, 0, entry.name_start, entry.name_end))
        for line, slip in document.slips:
            where = Where(document.path, line, slip.start + 1, line, slip.end + 1)
            self.slips.append(PlacedSlip(slip=slip, where=where))

    def _entries(self, document: Document) -> Iterator[tuple[Entry, float]]:
        """Entries, each with how far the masses in it may be off by what the file has said above it."""
        within = 0.0
        for entry in document.entries:
            if entry.kind == "weights":
                within = _share(entry.within)
            yield entry, within
            if entry.kind == "list":
                for field in entry.fields:
                    if field.word == "weights within":
                        within = _share(field.value if isinstance(field.value, Quantity) else None)

    def _read_parts(self, document: Document) -> None:
        for entry, within in self._entries(document):
            if entry.kind != "part" or entry.part_kind not in KINDS or not entry.name:
                self.unsure.update({entry.name} if entry.kind == "part" else ())
                continue
            part = possible_part(make_part(document, entry, within), self._report)
            check_part(part, self._report)
            if document is self.sources.documents[0]:
                self.own_parts.append(part)
            if entry.name in self.parts:
                self._twice(document, entry, self.parts[entry.name].where)
            else:
                self.parts[entry.name] = part

    def _read_entry(self, document: Document, entry: Entry, site: Site) -> None:
        if entry.kind == "order":
            self.orders.append(make_order(document, entry, self._find))
        elif entry.kind == "waive" and entry.name:
            self.waivers.append(make_waiver(document, entry))
        elif entry.name and entry.kind != "waive":
            self._read_named(document, entry, site)

    def _read_named(self, document: Document, entry: Entry, site: Site) -> None:
        shelves: dict[str, dict[str, Any]] = {"move": self.moves, "rig": self.rigs, "case": self.cases}
        shelf = shelves[entry.kind]
        if entry.name in shelf:
            self._twice(document, entry, shelf[entry.name].where)
            return
        makers: dict[str, Callable[[], Any]] = {
            "move": lambda: make_move(document, entry),
            "rig": lambda: self._rig(document, entry, site),
            "case": lambda: make_case(document, entry, self.moves, self.within, self._find, self._report),
        }
        shelf[entry.name] = makers[entry.kind]()

    def _rig(self, document: Document, entry: Entry, site: Site) -> Rig:
        like = self.rigs.get(entry.like)
        if entry.like and like is None:
            spot = document.where(entry, 0, entry.name_start, entry.end)
            near = nearest(entry.like, self.rigs)
            said = f"rig {entry.like}"
            self._report("unknown-part", spot, said, nearest_known=near, wanted="a rig written above it")
        rig = make_rig(document, entry, like, site, self._find, self._report)
        return with_lost_rig(rig, entry.like) if entry.like and like is None else rig

    def _head(self, document: Document) -> dict[str, Any]:
        """What the `list` entry says; a second one is a slip."""
        found: dict[str, Any] = {"places": {}}
        for entry in document.entries:
            if entry.kind != "list":
                continue
            where = document.where(entry, 0, 0, entry.end)
            if "where" in found:
                self._twice(document, entry, found["where"])
                continue
            found.update({"title": entry.name, "where": where})
            for field in entry.fields:
                word = next(each for each in ENTRIES["list"] if each.word == field.word)
                if word.name == "note" and isinstance(field.value, Name):
                    found["notes"] = (*found.get("notes", ()), field.value.text)
                if word.name in ("note", "for", "weights_within"):
                    continue
                line = Line(document, entry, field)
                found["places"][word.name] = line.where()
                # Written and not read is not known. It is not as if nothing were written.
                if field.value is None and word.shape not in (Shape.QUANTITY, Shape.REACH):
                    continue
                found[word.name] = convert.plain(word, field.value, line)
                if word.name == "day":
                    found["day"] = possible_day(found["day"], line.where(), self._report)
        return found

    def _find(self, slot: str, name: str, mass: Quantity | None, where: Where) -> Part:
        """The part of a name; where a mass is said, one that is in no book; else a stand-in, and a slip.

        While a used file is lost, a name may stand in it: the lost file is the fault to speak of, not each name. So is
        the entry of a part whose kind is not known. What a line described by its mass is known to later lines.
        """
        if not name and mass is None:
            self._no_name(where)
            lost = f"line {where.line}, which names nothing"
            return Part(kind=slot or "accessory", name="", where=where, described=False, lost=lost)
        part = self.parts.get(name) or (self.others.get(name) if mass is None and name else None)
        if mass is not None and part is None:
            weight = convert.interval(convert.widened(mass, self.within), MASS)
            part = Part(kind=slot or "accessory", name=name, where=where, mass=weight, places={"mass": where}, cog=NEAR)
            self.others.setdefault(name, part)
            return part
        if part is not None and _fits(slot, part.kind):
            return part if mass is None else self._heavier(part, mass, where)
        wanted = with_article(slot) if slot else "a part of the parts books"
        if part is not None:
            wanted = f'{wanted}: "{name}" is {with_article(part.kind)}'
        if part is not None or not (self.lost_books or name in self.unsure):
            known = tuple(each.name for each in self.parts.values() if _fits(slot, each.kind))
            self._report("unknown-part", where, name, known=known, wanted=wanted)
        lost = f'which {slot} is meant by "{name}", {with_article(part.kind)}' if part is not None else ""
        return Part(kind=slot or "accessory", name=name, where=where, described=False, lost=lost)

    def _heavier(self, part: Part, mass: Quantity, where: Where) -> Part:
        """A part of a book for which this line says another mass: it is written here then, and not in the book."""
        said = convert.interval(convert.widened(mass, self.within), MASS)
        return replace(part, mass=said, places={**part.places, "mass": where})

    def _report(
        self,
        kind: str,
        where: Where,
        said: str,
        *,
        known: tuple[str, ...] = (),
        nearest_known: tuple[str, ...] = (),
        wanted: str = "",
    ) -> None:
        near = nearest_known or nearest(said, known)
        slip = Slip(kind, 0, where.column - 1, where.to_column - 1, said, wanted=wanted, nearest=near)
        self.slips.append(PlacedSlip(slip=slip, where=where))

    def _no_name(self, where: Where) -> None:
        self._report("unreadable-line", where, '""', wanted="a name between the quotes")

    def _twice(self, document: Document, entry: Entry, first: Where) -> None:
        spot = document.where(entry, 0, entry.name_start, entry.name_end)
        place = f"line {first.line}" if first.path == document.path else f"{first.path}, line {first.line}"
        label = f'{entry.part_kind or entry.kind} "{entry.name}"' if entry.name else entry.kind
        self._report("defined-twice", spot, label, wanted=place)

    @staticmethod
    def _anything(document: Document) -> bool:
        return any(entry.kind in ("rig", "order", "case", "part") for entry in document.entries)


def _fits(slot: str, kind: str) -> bool:
    """Whether a part of this kind may stand in a slot; `accessory` takes whatever hangs on a camera."""
    if slot == "accessory":
        return KINDS[kind].support is None
    return not slot or slot == kind


def _share(quantity: Quantity | None) -> float:
    """How far masses may be off; without end where that could not be read, or is `?`: they are then not known."""
    return quantity.high if quantity is not None and quantity.known else math.inf


def days_of(own: Days | None, otherwise: Days | None) -> Days | None:
    """The days of a rig or an order: its own, else the list's."""
    return own if own is not None else otherwise
