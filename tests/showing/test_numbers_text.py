"""The numbers of a rig for people: worked, the stages of building up say what their columns are made of."""

from __future__ import annotations

from click.testing import CliRunner

from kitproof.command import main
from kitproof.facts.registry import FACTS
from kitproof.showing.numbers_text import STAGE_HEADS

LIST = """\
list "One"
part head "H"
  mass 3 kg
  counterbalance 0 N·m to 20 N·m, 5 steps
part camera "C"
  mass 5 kg
  cog 0 mm forward, 100 mm up
part lens "L"
  mass 1 kg
  cog 50 mm forward, 0 mm up
rig A
  head "H"
  camera "C"
  lens "L", at 40 mm forward
"""


def test_stages_are_shown_worked_too() -> None:
    shown = " ".join(CliRunner().invoke(main, ["numbers", "-", "--worked"], input=LIST).stdout.split())
    after = shown.partition("Building up, balanced again after each:")[2]
    assert "after C" in after
    assert "after L" in after
    for name, head in STAGE_HEADS:
        fact = FACTS["stage"][name]
        assert f"{head} Is {fact.says} By {fact.formula.replace('_', ' ')} Source {fact.source}" in after
