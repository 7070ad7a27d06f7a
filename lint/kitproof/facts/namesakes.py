"""Lists of one name that are proofed together: which of them is meant, and whether a newer issue is there."""

from __future__ import annotations

from collections.abc import Iterator

from kitproof.facts.promises import older
from kitproof.facts.subject import Setting
from kitproof.model.kitlist import KitList, PlacedSlip
from kitproof.model.promises import Promised
from kitproof.reading.document import Slip, Where


def namesakes(setting: Setting) -> Iterator[PlacedSlip]:
    """A slip at the name of this list for each other that has the same; none for an older issue of this one."""
    kitlist = setting.kitlist
    own = Promised(kitlist.path, kitlist.title, kitlist.issue, kitlist.where)
    for other in setting.others:
        if not own.title or other.title != own.title or older(other, own):
            continue
        kind = "older-issue" if older(own, other) else "list-named-twice"
        where = _name_of(kitlist)
        there = f"{other.path}, line {other.where.line}" if kind == "list-named-twice" else f"issue {other.issue}"
        slip = Slip(kind, 0, where.column - 1, where.to_column - 1, own.label, wanted=there)
        yield PlacedSlip(slip=slip, where=where)


def _name_of(kitlist: KitList) -> Where:
    document = kitlist.documents[0]
    entry = next(each for each in document.entries if each.kind == "list")
    return document.where(entry, 0, entry.name_start, entry.name_end)
