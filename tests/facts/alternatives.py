"""Random rigs with alternatives in many slots, from the sample house's stock and some parts that are ill known."""

from __future__ import annotations

import random
import re
from functools import cache

from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.sources import Fetched, gather
from tests.house.repository import ROOT

ILL_KNOWN = """
part accessory "blank"
  mass ?
part accessory "vague"
  mass 0.4 kg ± 20 %
  size 60 x 50 x 40 mm
part monitor "dark"
  size 30 x 200 x 150 mm
part lens "long crane lens"
  mass 3..4 kg
  length 300 mm
  front 90..95 mm
  needs support
part head "no figures"
  mass 3 kg
  sits on bowl 100 mm
part camera "bare"
  mass 3 kg
part matte box "wide clamp"
  mass 0.5 kg
  front 80..150 mm
  sits on rods 15/100
part battery "small"
  mass 0.5..0.7 kg
  energy 90 Wh
  voltage ?
  sits on battery V
"""
PLACES = (
    "at 60 mm forward, 190 mm up",
    "at 90 mm back, 160 mm up",
    "at ?",
    "at 10..30 mm left, 100 mm up",
    "on head",
    "on lens, at 20 mm up",
)
SLOTS: tuple[tuple[str, float, tuple[str, ...]], ...] = (
    ("sticks", 0.95, ("legs at 1200 mm", "legs at 700..900 mm")),
    ("head", 0.95, ()),
    ("pan bar", 0.5, ("at 100 mm back", "on head")),
    ("slide", 0.9, ("at 20 mm forward",)),
    ("base", 0.8, ()),
    ("camera", 0.97, ()),
    ("lens", 0.95, ()),
    ("lens support", 0.4, ()),
    ("battery", 0.9, ("spare 3",)),
    ("rods", 0.6, ("at 120 mm forward, 10 mm down",)),
    ("matte box", 0.7, PLACES),
    ("monitor", 0.6, PLACES),
    ("accessory", 0.8, PLACES),
    ("handle", 0.5, PLACES),
)
"""Slots from the ground up, how often a rig has each, and what its line may say."""
CONDITIONS = (
    ("tilts -30° to 25°", 0.6),
    ("wind 5 m/s", 0.4),
    ("ground slope up to 6°", 0.5),
    ("left standing", 0.3),
    ("underslung", 0.2),
    ("floor hard", 0.2),
    ("mounted on ground", 0.2),
    ("drag 6 N·m", 0.3),
    ("ballast 10 kg, hung at 300 mm", 0.3),
)


@cache
def stock() -> str:
    """The parts to choose from."""
    return (ROOT / "samples" / "stock" / "thrapley.kitlist").read_text(encoding="utf-8") + ILL_KNOWN


@cache
def names() -> dict[str, list[str]]:
    """Their names, by kind."""
    found: dict[str, list[str]] = {}
    for kind, name in re.findall(r'^part (.+?) "(.*?)"', stock(), re.MULTILINE):
        found.setdefault(kind, []).append(name)
    return found


def rig_text(chance: random.Random, most: int) -> str:
    """A rig with at most so many combinations."""
    lines: list[str] = []
    met: list[str] = []
    ways = 1
    for slot, often, places in SLOTS:
        if chance.random() > often:
            continue
        options = chance.sample(names()[slot], min(len(names()[slot]), chance.choice((1, 1, 2, 3))))
        if chance.random() < 0.05:
            options[0] = f"not there {chance.randint(1, 3)}"
        none = chance.random() < 0.15
        if ways * (len(options) + none) > most:
            options, none = options[:1], False
        ways *= len(options) + none
        words = [*(f'"{name}"' for name in options), *(["none"] if none else [])]
        line = f"  {slot} {' or '.join(words)}"
        line += f", {chance.choice(places)}" if places and chance.random() < 0.7 else ""
        line += f', only with "{chance.choice(met)}"' if met and chance.random() < 0.15 else ""
        lines.append(line)
        met += options
    lines += [f"  {condition}" for condition, often in CONDITIONS if chance.random() < often]
    return "\n".join(["rig A", *lines]) + "\n"


def kitlist(chance: random.Random, most: int) -> KitList:
    """A list with one such rig."""
    day = "  day 10 h\n" if chance.random() < 0.7 else ""
    text = f'list "Alternatives"\n  dates 2027-03-08 to 2027-03-19\n{day}{stock()}\n{rig_text(chance, most)}'

    def nothing(using: str, wanted: str) -> Fetched:
        return Fetched(wanted, wanted, problem="missing")

    return make_list(gather("a.kitlist", "a.kitlist", text.encode(), nothing))
