"""What can be told of a part without building the rig: that the least it must bear is more than any figure it has.

Both bounds are lower than what the rules work out and hold for every combination, so that nothing which carries the rig
is turned down by them. They speak only where the rule itself does, in the words in which it ships.
"""

from __future__ import annotations

from kitproof.mending.pairing.judging import Verdict
from kitproof.model.parts import Part, Point
from kitproof.rulebook.rules import RuleBook

HEAD_RULE, HEAD_FAILS = "overload-at-height", "load_share > 100 %"
STICKS_RULE, STICKS_FAILS = "sticks-overloaded", "legs_share > 100 %"
MORE = 1.000001
"""By so much a bound is exceeded before it speaks: comparisons allow for rounding."""


def overloads(book: RuleBook, part: Part, least: float) -> Verdict | None:
    """The verdict that a part is overloaded by the least it must bear, in kg; None where that is not certain."""
    name, fails = (HEAD_RULE, HEAD_FAILS) if part.kind == "head" else (STICKS_RULE, STICKS_FAILS)
    rule = book.rules.get(name)
    if rule is None or rule.fails.text != fails or rule.grade not in ("stop", "wrong"):
        return None
    figures = (*part.rated, *part.chart)
    if not figures or not all(_known(each) for each in figures) or {"rated", "chart"} & part.unread:
        return None
    if least <= max(each.value.high for each in figures) * MORE:
        return None
    return Verdict("fails", rule.name, _title(rule.title.pieces))


def _known(point: Point) -> bool:
    return point.value.known


def _title(pieces: tuple[object, ...]) -> str:
    """A headline that has no number in it."""
    return "".join(each for each in pieces if isinstance(each, str))
