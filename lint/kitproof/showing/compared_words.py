"""What is not as it was, in words: the same for text and for a merge request."""

from __future__ import annotations

from collections.abc import Mapping

from kitproof.comparing.compare import Compared, Comparison
from kitproof.comparing.differences import Difference
from kitproof.comparing.findings import Stepped
from kitproof.comparing.numbers import Moved
from kitproof.comparing.said import apart
from kitproof.facts.values import Amount
from kitproof.facts.wordings import BEYOND, ENDLESS
from kitproof.rulebook.messages import Units, amount_text
from kitproof.showing.amounts import units_for
from kitproof.showing.wording import headline

STEPS: Mapping[str, str] = {
    "came": "Came",
    "graver": "Graver",
    "waived": "Waived",
    "lighter": "Lighter",
    "went": "Went",
}
NOTHING = "The build, its numbers and its findings are as they were."
SAME_RULES = "Both are proofed by the rules and settings in force now."


def heading(thing: Compared) -> str:
    """What a thing is called, and whether it is new, gone or called otherwise."""
    if thing.was is None:
        return f"{thing.now}, new"
    if thing.now is None:
        return f"{thing.was}, no longer there"
    name = thing.now if thing.kind != "list" else "The list itself"
    return name if thing.was == thing.now or thing.kind == "list" else f"{name}, which was {thing.was}"


def difference(found: Difference) -> str:
    """One difference as a line."""
    if found.kind == "new":
        return f"{found.thing} {found.now} added"
    if found.kind == "gone":
        return f"{found.thing} {found.was} taken out"
    if found.kind == "swapped":
        return f"{found.thing} {found.now} in place of {found.was}"
    return f"{found.thing}: {found.now}; was {found.was}"


def moved(found: Moved, units: Units) -> tuple[str, str]:
    """A number's name, and what it is and was, with the digits that tell them apart."""
    texts = apart(lambda digits: (_amount(found, found.now, units, digits), _amount(found, found.was, units, digits)))
    name = found.name.replace("_", " ")
    if found.was is None:
        return name, texts[0]
    if found.now is None:
        return name, f"there is none now; was {texts[1]}"
    return name, f"{texts[0]}; was {texts[1]}" if texts[0] != texts[1] else f"{texts[0]}; less is known now or then"


def _amount(found: Moved, amount: Amount | None, units: Units, digits: int) -> str:
    if amount is None:
        return ""
    endless = ENDLESS.get(found.name, BEYOND)
    return amount_text(amount, units_for(found.name, found.dimension, units), digits, endless=endless)


def finding(found: Stepped) -> str:
    """A finding that is not as it was, with its grade and rule, and how it was before where it still is."""
    each = found.finding
    said = f"{each.grade.upper()} {headline(each)} ({each.rule})"
    if found.was is None or found.step in ("went", "came", "waived"):
        doubt = {"fails": "", "may fail": ", in doubt", "cannot tell": ", not decided"}[each.outcome]
        return f"{said}{doubt}"
    return f"{said}: {_outcome(found)}"


def _outcome(found: Stepped) -> str:
    said = {"fails": "for certain", "may fail": "in doubt", "cannot tell": "not decided"}
    assert found.was is not None
    now, was = said[found.finding.outcome], said[found.was.outcome]
    if now == was:
        return f"{found.finding.grade} now, {found.was.grade} before"
    return f"{now} now, {was} before"


def stayed(compared: Comparison) -> str:
    """How many findings are as they were."""
    count = compared.findings.stayed
    return f"{count} {'finding is' if count == 1 else 'findings are'} as before."


def renamed(compared: Comparison) -> list[str]:
    """Names that changed, with what is called by them."""
    return [f"{was} is now called {now}" for was, now in compared.renamed.items()]
