"""What follows when a rig takes another part: orders and cases name it in the place of the old one."""

from __future__ import annotations

from collections import Counter

from kitproof.facts.tally import Tally
from kitproof.mending.edits import (
    Listed,
    counted_anew,
    held_lines,
    last_line,
    named_anew,
    ordered_lines,
    put_below,
    quoted,
)
from kitproof.mending.ground import Ground
from kitproof.mending.offer import Offer
from kitproof.model.parts import Part
from kitproof.proofing.findings import Change
from kitproof.reading.document import Document, Entry, Held, Ordered
from kitproof.words.kinds import KINDS

Changes = tuple[Change, ...]


def ways(ground: Ground, after: Ground, offer: Offer) -> list[Changes]:
    """What may be changed in orders and cases with an offer: the fullest first, nothing last. `after` is the list with
    the offer's own changes."""
    each = [_followed(ground, after, None if number else offer.old, part) for number, part in enumerate(offer.new)]
    longest = max(map(len, each), default=1)
    found = (tuple(change for way in each for change in way[min(n, len(way) - 1)]) for n in range(longest))
    return list(dict.fromkeys(found))


def _followed(ground: Ground, after: Ground, old: Part | None, new: Part) -> list[Changes]:
    """The same for one part that a rig now names, in the place of an old one if there is one."""
    was, now = Tally(ground.kitlist), Tally(after.kitlist)
    needs = now.at_once(new.name)
    more = needs - was.at_once(new.name)  # what was missing before is another finding's matter
    order: Changes = ()
    case: Changes = ()
    if ground.kitlist.orders and new.name in ground.kitlist.parts:
        missing = min(more, needs - was.ordered.get(new.name, 0))
        spare = was.ordered.get(old.name, 0) - now.at_once(old.name) if old else 0
        order = _ordered_instead(ground, old, new, missing, spare)
    if ground.kitlist.cases:
        missing = min(more, needs - was.held.get(new.name, 0))
        spare = was.held.get(old.name, 0) - now.at_once(old.name) if old else 0
        case = _held_instead(ground, old, new, missing, spare)
    return list(dict.fromkeys(((*order, *case), order, ())))


def _ordered_instead(ground: Ground, old: Part | None, new: Part, missing: int, spare: int) -> Changes:
    """So many more of the new part ordered, in the place of old ones as far as those are not needed any more."""
    if missing <= 0:
        return ()
    document = ground.document
    for listed in ordered_lines(document, old.name) if old else ():
        if isinstance(listed.value, Ordered) and not listed.value.spare:
            changes = _instead(document, listed, new.name, missing, spare)
            if changes:
                return changes
    return more_ordered(ground, new, Tally(ground.kitlist).ordered.get(new.name, 0) + missing)


def _held_instead(ground: Ground, old: Part | None, new: Part, missing: int, spare: int) -> Changes:
    """The new part packed where the old one was; with no old one, beside what is most like it."""
    if missing <= 0:
        return ()
    document = ground.document
    if old is None:
        return more_held(ground, new, missing)
    for listed in held_lines(document, old.name):
        changes = _instead(document, listed, new.name, missing, spare)
        if changes:
            return changes
    return ()


def _instead(document: Document, listed: Listed, name: str, missing: int, spare: int) -> Changes:
    """A line with another name on it, or with fewer and a new line below; nothing where more are needed than that."""
    if spare >= listed.many == missing:
        return (named_anew(document, listed, name),)
    if spare >= missing and listed.many > missing:
        word = "holds" if isinstance(listed.value, Held) else ""
        return (
            counted_anew(document, listed, listed.many - missing),
            put_below(document, _line(listed), word, _count_of(missing, name, bool(word))),
        )
    return ()


def _count_of(count: int, name: str, held: bool = False) -> str:
    return quoted(name) if held and count == 1 else f"{count} x {quoted(name)}"


def _line(listed: Listed) -> int:
    field = listed.spot.field
    return listed.spot.entry.line + (field.row if field else 0)


def more_ordered(ground: Ground, part: Part, total: int) -> Changes:
    """So many of a part ordered in all: on a line that has it, else on a new one where most of its kind are."""
    document = ground.document
    found = ordered_lines(document, part.name)
    missing = total - Tally(ground.kitlist).ordered.get(part.name, 0)
    if missing <= 0:
        return ()
    for listed in found:
        if isinstance(listed.value, Ordered) and not listed.value.for_rig:
            return (counted_anew(document, listed, listed.many + missing),)
    value = _count_of(missing, part.name)
    if found:
        return (put_below(document, _line(found[-1]), "", value),)
    entries = [each for each in document.entries if each.kind == "order"]
    if not entries:
        return ()
    best = max(entries, key=lambda entry: likeness(ground, entry, part))
    return (put_below(document, last_line(best), "", value),)


def more_held(ground: Ground, part: Part, count: int) -> Changes:
    """So many of a part packed in the case where most of its kind are; nothing where none is like it."""
    document = ground.document
    entries = [each for each in document.entries if each.kind == "case" and each.fields]
    if not entries:
        return ()
    best = max(entries, key=lambda entry: likeness(ground, entry, part))
    return (put_below(document, last_line(best), "holds", _count_of(count, part.name, held=True)),)


def likeness(ground: Ground, entry: Entry, part: Part) -> tuple[int, int]:
    """How many lines of an order or a case name a part of its kind, and how many one that stands where it does: in the
    support, or on the camera."""
    names = [field.value.name.text for field in entry.fields if isinstance(field.value, Ordered | Held)]
    parts = [ground.kitlist.parts[name] for name in names if name in ground.kitlist.parts]
    kinds = Counter(each.kind for each in parts)
    alike = (many for kind, many in kinds.items() if _supports(kind) == _supports(part.kind))
    return kinds[part.kind], sum(alike)


def _supports(kind: str) -> bool:
    return KINDS[kind].support is not None
