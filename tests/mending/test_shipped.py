"""Every editing fix of every rule that ships comes to a change of the text, in the rule's own example or beside it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from kitproof.facts.mating import JointSubject
from kitproof.facts.values import Words
from kitproof.mending.ground import Ground
from kitproof.mending.offers import offers
from kitproof.rulebook.rules import Action, Rule
from tests.house.repository import RULES
from tests.mending.grounds import SAMPLES, sample
from tests.proofing.lists import book

EDITED = [rule for rule in book().rules.values() if any(each.word != "advise" for each in rule.fixes)]
STOCK = (SAMPLES / "stock" / "thrapley.kitlist").read_text("utf-8")
BESIDE = {
    "screw-size-differs": """

part head "H4"
  takes     screw 1/4-20

part slide "S3"
  sits on   screw 3/8-16

part slide "S1"
  sits on   screw 1/4-20

rig Z
  head      "H4"
  slide     "S3"
""",
    "spares-in-hold": '\n\ncase "Hand baggage, one more"\n  mass      1 kg\n',
    "unknown-part": '\n\npart head "Fenner 12"\n  mass      3 kg\n\norder\n  1 x "Fener 12"\n',
    "unreadable-line": "\n\nrig Z\n  head      Fenner 12\n",
}
"""What an example needs beside it, so that there is something to choose from."""


def lists(rule: Rule) -> Iterator[Ground]:
    """The example that the rule must find, alone, with the sample's stock, and with what joins two parts that do not
    mate."""
    path = RULES / rule.group / f"{rule.name}.fails.kitlist"
    text = path.read_bytes().decode("utf-8", "surrogateescape") + BESIDE.get(rule.name, "")
    alone = sample(path, text.encode("utf-8", "surrogateescape"))
    yield alone
    yield sample(path, f"{text}\n\n{STOCK}".encode("utf-8", "surrogateescape"))
    for each in alone.examined.found.values():
        if isinstance(each.thing, JointSubject) and each.rule is rule:
            seat, port = each.thing.value("upper_interface"), each.thing.value("lower_interface")
            assert isinstance(seat, Words)
            assert isinstance(port, Words)
            between = f'\n\npart adapter "Go-between"\n  sits on   {port.text}\n  takes     {seat.text}\n'
            yield sample(path, f"{text}{between}".encode("utf-8", "surrogateescape"))


def comes_to_a_change(rule: Rule, action: Action) -> bool:
    return any(
        of.changed(offer.changes) is not None
        for of in lists(rule)
        for found in of.examined.found.values()
        if found.rule is rule
        for offer in offers(of, found, action)
    )


@pytest.mark.parametrize("rule", EDITED, ids=lambda rule: str(rule.name))
def test_every_editing_fix_that_ships_comes_to_a_change(rule: Rule) -> None:
    assert [each.text for each in rule.fixes if each.word != "advise" and not comes_to_a_change(rule, each)] == []


def test_every_action_is_in_use_or_tried() -> None:
    """Those that no rule uses yet are tried in `test_fixes`."""
    used = {each.word for rule in EDITED for each in rule.fixes}
    assert used == {"choose", "add", "pack", "order", "set", "remove", "advise"}


def test_a_camera_or_a_lens_is_not_exchanged_so_that_something_fits() -> None:
    path = RULES / "mating" / "screw-size-differs.fails.kitlist"
    of = sample(path, path.read_bytes() + b"\n\n" + STOCK.encode())
    found = next(each for each in of.examined.found.values() if each.rule.name == "screw-size-differs")
    upper = next(each for each in found.rule.fixes if each.path == ("upper",))
    assert list(offers(of, found, upper)) == []
