"""Lists made from text in tests, with the files that they use given by name."""

from __future__ import annotations

import textwrap
from datetime import date

from kitproof.facts.build import Build, combinations
from kitproof.facts.registry import FACTS, HOUSE_NUMBERS
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Setting
from kitproof.facts.values import Amount
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.sources import Fetched, gather

DAY = date(2027, 3, 1)

PARTS = """
part sticks "tall sticks"
  mass      5 kg
  rated     60 kg
  legs      700..1600 mm
  takes     bowl 100 mm

part head "small head"
  mass      3 kg
  height    130 mm
  sits on   bowl 100 mm
  takes     screw 3/8-16
  chart     12 kg at 100 mm, 6 kg at 300 mm
  tilt axis  40 mm below plate

part slide "wide slide"
  mass      0.7 kg
  cog       10 mm up
  height    20 mm
  sits on   screw 3/8-16
  takes     slide wide
  travel    80 mm back to 80 mm forward

part base "studio base"
  mass      1 kg
  cog       25 mm up
  height    50 mm
  sits on   slide wide
  takes     screw 3/8-16
  takes     rods 15/100 at 60 mm forward, 20 mm up

part camera "big camera"
  mass      4 kg
  cog       20 mm back, 80 mm up
  height    160 mm
  size      200 x 140 x 160 mm
  sits on   screw 3/8-16
  takes     lens PL at 60 mm forward, 80 mm up
  takes     battery V at 100 mm back, 80 mm up
  takes     shoe at 160 mm up
  takes     shoe at 40 mm back, 160 mm up

part lens "long lens"
  mass      3 kg
  cog       100 mm forward
  length    220 mm
  sits on   lens PL

part lens "short lens"
  mass      1 kg
  cog       40 mm forward
  length    90 mm
  sits on   lens PL

part battery "big battery"
  mass      1 kg
  cog       30 mm back
  energy    98 Wh
  sits on   battery V

part monitor "seven inch"
  mass      0.5 kg
  cog       60 mm up
  size      30 x 180 x 120 mm
  sits on   shoe

part pan bar "long bar"
  mass      0.4 kg
"""

RIG = """
rig A
  sticks    "tall sticks", legs at 1400 mm
  head      "small head"
  slide     "wide slide"
  base      "studio base"
  camera    "big camera"
  lens      "long lens"
"""


def made(text: str, *, parts: str = PARTS, **files: str) -> KitList:
    """The list of a text below some parts; `files` are what it may use, by name without ending."""

    def fetch(using: str, wanted: str) -> Fetched:
        name = wanted.removesuffix(".kitlist")
        if name not in files:
            return Fetched(wanted, wanted, problem="missing")
        return Fetched(wanted, wanted, textwrap.dedent(files[name]).encode())

    whole = parts + textwrap.dedent(text)
    return make_list(gather("list.kitlist", "list.kitlist", whole.encode(), fetch))


def slips(kitlist: KitList, kind: str = "") -> list[tuple[str, str]]:
    """Kind and text of every slip, or of those of one kind."""
    return [(each.slip.kind, each.slip.said) for each in kitlist.slips if each.slip.kind == kind or not kind]


def slots(kitlist: KitList, rig: str = "A") -> list[tuple[str, str]]:
    """Slot and names of every line of a rig; "none" for an alternative that leaves the slot empty."""
    found = next(each for each in kitlist.rigs if each.name == rig)
    return [
        (line.slot, " or ".join(option.part.name if option.part else "none" for option in line.options))
        for line in found.lines
    ]


def setting(kitlist: KitList) -> Setting:
    house = {each.name: each.value for each in HOUSE_NUMBERS.values()}
    return Setting(kitlist, DAY, house, FACTS)


def builds(kitlist: KitList, rig: str = "A") -> list[Build]:
    return list(combinations(next(each for each in kitlist.rigs if each.name == rig)))


def subject(kitlist: KitList, rig: str = "A", number: int = 0) -> RigSubject:
    """One combination of a rig, as a subject of facts."""
    return RigSubject(setting(kitlist), builds(kitlist, rig)[number])


def amount(kitlist: KitList, name: str, rig: str = "A", number: int = 0) -> Amount:
    return subject(kitlist, rig, number).amount(name)
