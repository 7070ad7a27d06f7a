"""What a rule's fix could be in the text: changes that may do it, the best first. None of them is proved here."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from kitproof.mending.gear import additions, choices
from kitproof.mending.ground import Ground
from kitproof.mending.lines import orderings, packings, removals
from kitproof.mending.offer import Offer
from kitproof.mending.settings import settings
from kitproof.proofing.covering import Found
from kitproof.rulebook.rules import Action

_MAKERS: dict[str, Callable[[Ground, Found, Action], Iterator[Offer]]] = {
    "choose": choices,
    "add": additions,
    "pack": packings,
    "order": orderings,
    "set": settings,
    "remove": removals,
}
"""For each action but `advise`, which is words only."""


def offers(ground: Ground, found: Found, action: Action) -> Iterator[Offer]:
    """The changes that an action may come to, the best first; none where it is advice or cannot be an edit here."""
    maker = _MAKERS.get(action.word)
    if maker is not None:
        yield from maker(ground, found, action)
