"""Lists compared in tests, given as text."""

from __future__ import annotations

from functools import cache

from kitproof.comparing.compare import Compared, Comparison, Side, compare
from kitproof.comparing.differences import Difference
from kitproof.proofing.findings import Proof
from kitproof.proofing.proof import setting_of, units_of
from tests.proofing.lists import DAY, book, proofed, read_bytes

BOOK = """\
part sticks "Wendle tall sticks"
  mass 5.2 kg
  rated 60 kg
  legs 700..1600 mm
  feet 420 mm at 700 mm, 640 mm at 1600 mm
  takes bowl 100 mm

part head "Fenner 12 head"
  mass 3.6 kg
  height 130 mm
  sits on bowl 100 mm
  takes slide wide
  chart 18 kg at 100 mm, 12 kg at 200 mm
  tilt axis 45 mm below plate
  counterbalance 2 to 40 N·m, 10 steps

part head "Fenner 30 head"
  mass 5.1 kg
  height 150 mm
  sits on bowl 100 mm
  takes slide wide
  chart 36 kg at 100 mm, 30 kg at 200 mm
  tilt axis 50 mm below plate
  counterbalance 4 to 80 N·m, 12 steps

part slide "Larkhaw wide slide"
  mass 0.7 kg
  cog 11 mm up
  height 22 mm
  sits on slide wide
  takes screw 3/8-16
  travel 120 mm back to 120 mm forward

part camera "Quillon S2"
  mass 4.2 kg
  cog 20 mm back, 70 mm up
  height 160 mm
  sits on screw 3/8-16
  takes lens PL at 60 mm forward, 75 mm up
  draws 48 W

part lens "Pell 50"
  mass 2.1 kg
  cog 60 mm forward
  length 120 mm
  sits on lens PL

part lens "Pell 85"
  mass 2.6 kg
  cog 75 mm forward
  length 150 mm
  sits on lens PL

part monitor "Brack 7"
  mass 0.9 kg
  cog 0 mm up
  draws 14 W

part case "Harrowby tube"
  mass 4 kg
  limit 20 kg

"""
RIG = """\
rig A
  sticks "Wendle tall sticks", legs at 1400 mm
  head "Fenner 12 head"
  slide "Larkhaw wide slide"
  camera "Quillon S2"
  lens "Pell 50"
  monitor "Brack 7", at 60 mm forward, 190 mm up
  tilts -20° to 20°

"""
CASE = """\
case "Tube"
  is "Harrowby tube"
  holds "Fenner 12 head", level

"""
WHOLE = f'list "Pier"\n  issue 3\n  wind 4 m/s\n\norder "House"\n  2 x "Pell 50", spare 1\n\n{BOOK}{RIG}{CASE}'


@cache
def side(text: str, judged: bool) -> Side:
    """A list with its numbers and, where that is asked for, its proof."""
    kitlist = read_bytes(text.encode())
    proof = proofed(kitlist) if judged else Proof((), 0, 0, 0)
    return Side("list.kitlist", setting_of(kitlist, book(), DAY), proof)


def compared(was: str, now: str, judged: bool = False) -> Comparison:
    """Two lists compared, in the units of the second; their findings too where that is asked for."""
    new = side(now, judged)
    return compare(side(was, judged), new, units_of(new.kitlist, book()))


def changed(*edits: tuple[str, str], was: str = WHOLE, judged: bool = False) -> Comparison:
    """The whole list compared with itself after these replacements, each of which must be there to be made."""
    now = was
    for before, after in edits:
        assert before in now
        now = now.replace(before, after)
    return compared(was, now, judged)


def thing(found: Comparison, name: str) -> Compared:
    """What is told of one thing, by the name that it has now or had."""
    (only,) = [each for each in found.things if name in (each.now, each.was)]
    return only


def told(found: Comparison, name: str) -> list[tuple[str, str, str | None, str | None]]:
    """The differences of one thing, plain."""
    return [_plain(each) for each in thing(found, name).differences]


def _plain(each: Difference) -> tuple[str, str, str | None, str | None]:
    return (each.kind, each.thing, each.was, each.now)
