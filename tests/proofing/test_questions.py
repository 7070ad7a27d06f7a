"""Questions: what an answer would settle is found by proofing again with it, and the gravest comes first."""

from __future__ import annotations

from kitproof.proofing.proof import setting_of
from kitproof.proofing.questions import Question, over, questions
from kitproof.showing.questions_text import asked
from tests.proofing.lists import DAY, book, read_bytes

LIST = """\
part sticks "Tall"
  mass      6 kg
  rated     50 kg
  legs      700..1600 mm
  takes     bowl 100 mm

part head "Ash"
  mass      4 kg
  height    120 mm
  sits on   bowl 100 mm
  takes     slide wide
  chart     20 kg at 100 mm, 15 kg at 400 mm

part slide "Elder"
  mass      1 kg
  cog       10 mm up
  height    20 mm
  sits on   slide wide
  takes     screw 3/8-16
  travel    60 mm back to 60 mm forward

part camera "Elm"
  mass      CAMERA
  cog       0 mm forward, 100 mm up
  sits on   screw 3/8-16

order "From Harrow"
  1 x "Elm"

rig A
  sticks    "Tall", legs at 1200 mm
  head      "Ash"
  slide     "Elder"
  camera    "Elm"
"""


def asked_of(text: str) -> list[Question]:
    kitlist = read_bytes(text.encode())
    return questions(setting_of(kitlist, book(), DAY), book())


def of(found: list[Question], asks: str) -> Question:
    return next(each for each in found if each.asks == asks)


def test_a_mass_that_decides_whatever_it_is_settles_its_verdicts() -> None:
    mass = of(asked_of(LIST.replace("CAMERA", "?")), 'camera "Elm": mass')
    assert {"sticks-overloaded", "overload-at-height"} <= {each.rule for each in mass.settles}
    assert mass.to == "Harrow"
    assert asked(mass) == 'What does the camera "Elm" weigh, as it is used?'


def test_the_answer_that_settles_the_gravest_comes_first() -> None:
    found = asked_of(LIST.replace("CAMERA", "?"))
    assert found[0].asks == 'camera "Elm": mass'
    assert [each.weight for each in found] == sorted((each.weight for each in found), reverse=True)


def test_a_figure_known_too_loosely_is_asked_for_where_it_leaves_a_doubt() -> None:
    found = of(asked_of(LIST.replace("CAMERA", "15..30 kg")), 'camera "Elm": mass')
    assert found.loose
    assert "overload-at-height" in {each.rule for each in found.settles}
    assert asked(found).endswith("It is known only roughly.")


def test_a_figure_that_leaves_no_doubt_is_not_asked_for() -> None:
    found = asked_of(LIST.replace("CAMERA", "4.9..5.1 kg"))
    assert 'camera "Elm": mass' not in {each.asks for each in found}


def test_what_waits_for_more_than_one_answer_is_settled_by_none() -> None:
    text = LIST.replace("CAMERA", "5 kg").replace("  chart     20 kg at 100 mm, 15 kg at 400 mm\n", "")
    text = text.replace("  cog       0 mm forward, 100 mm up\n", "")
    found = asked_of(text)
    for asks in ('head "Ash": chart', 'camera "Elm": cog'):
        assert "overload-at-height" not in {each.rule for each in of(found, asks).settles}
        assert of(found, asks).waits > 0


def test_a_part_of_a_shared_book_is_asked_for_once_over_several_lists() -> None:
    book_text, rig = LIST.replace("CAMERA", "?").split("rig A")
    found = [asked_of(f"{book_text}rig {name}{rig}") for name in ("A", "B")]
    together = over(found)
    assert len(together) == len(found[0])
    mass = of(together, 'camera "Elm": mass')
    assert {each.subject for each in mass.settles} == {"rig A", "rig B"}
    assert mass.weight == sum(of(each, 'camera "Elm": mass').weight for each in found)
    assert [each.weight for each in together] == sorted((each.weight for each in together), reverse=True)


def test_what_a_list_leaves_open_itself_is_asked_of_each() -> None:
    found = [asked_of(LIST.replace("CAMERA", "5 kg") + "  wind  ?\n") for _ in range(2)]
    asks = [each.asks for each in over(found) if each.part is None]
    assert asks
    assert sorted(asks) == sorted(each.asks for those in found for each in those if each.part is None)


BAG = """\
part ballast "Bars"
  mass      MASS

part case "Bag"
  mass      2 kg
  inside    500 x 400 x 300 mm
  outside   540 x 440 x 340 mm
  limit     60 kg

order "From Harrow"
  2 x "Bars"

move "Home"
  by        air hold
  lasts     4 h

case "Checked"
  is        "Bag"
  goes      "Home"
  holds     2 x "Bars"
"""


def settled(found: list[Question], asks: str) -> set[str]:
    return {verdict.rule for each in found if each.asks == asks for verdict in each.settles}


def test_a_mass_in_a_case_that_leaves_a_doubt_is_asked_for() -> None:
    """From 2 + 2 × 14.9 to 2 + 2 × 15.1 kg, about the 32 kg that a bag may weigh: at either end it is decided."""
    found = asked_of(BAG.replace("MASS", "14.9..15.1 kg"))
    assert "bag-too-heavy" in settled(found, 'ballast "Bars": mass')
    assert of(found, 'ballast "Bars": mass').loose
    assert of(found, 'ballast "Bars": mass').to == "Harrow"


def test_a_mass_in_a_case_that_leaves_no_doubt_is_not_asked_for() -> None:
    found = asked_of(BAG.replace("MASS", "14.7..14.9 kg"))
    assert "bag-too-heavy" not in settled(found, 'ballast "Bars": mass')


def test_where_two_masses_leave_a_doubt_together_neither_settles_it() -> None:
    text = BAG.replace("MASS", "14.9..15.1 kg").replace("mass      2 kg", "mass      1.7..2.3 kg")
    assert "bag-too-heavy" not in settled(asked_of(text), 'ballast "Bars": mass')
