"""Small stocks of our own invention, of any size, and rigs that choose from them."""

from __future__ import annotations

import random

HEAD = 'list "Orrery"\n  dates 2027-03-08 to 2027-03-19\n  ground slope up to 5°\n  wind 4 m/s\n\n'

RIG = """
rig A
  sticks "Sticks 0", legs at 1200 mm
  head   "Head 0"
  slide  "Slide 0"
  base   "Base"
  camera "Camera"
  lens   "Lens 0" or "Lens 1"
  tilts  -20° to 20°
"""


def head(name: str, most: float, bowl: int = 100, more: str = "  have 2\n", mass: str = "3 kg") -> str:
    """A head that holds so many kg at 100 mm, and less above."""
    return (
        f'part head "{name}"\n  mass {mass}\n  height 120 mm\n  sits on bowl {bowl} mm\n  takes screw 3/8-16\n'
        f"  chart {most:.2f} kg at 100 mm, {most * 0.7:.2f} kg at 250 mm, {most * 0.5:.2f} kg at 400 mm\n"
        f"  tilt axis 40 mm below plate\n  counterbalance 0 to {most * 2.5:.2f} N·m, stepless\n"
        f"  tilt -75° to 90°\n  drag 0.5 to 8 N·m\n{more}"
    )


def sticks(name: str, rated: float, bowl: int = 100, more: str = "  have 2\n", legs: str = "600..1600 mm") -> str:
    return (
        f'part sticks "{name}"\n  mass 4 kg\n  rated {rated:.1f} kg\n  takes bowl {bowl} mm\n  legs {legs}\n'
        f"  feet 520 mm at 500 mm, 760 mm at 1600 mm\n{more}"
    )


def slide(name: str, travel: int, seat: str = "screw 3/8-16") -> str:
    return (
        f'part slide "{name}"\n  mass 1 kg\n  height 25 mm\n  size 300 x 100 x 25 mm\n  have 2\n  rated 40 kg\n'
        f"  sits on {seat}\n  takes slide wide\n  travel {travel} mm back to {travel} mm forward\n"
    )


def ring(lower: int, upper: int, name: str = "", rated: float = 60) -> str:
    return (
        f'part adapter "{name or f"Ring {lower} to {upper}"}"\n  mass 0.5 kg\n  height 10 mm\n  have 2\n'
        f"  rated {rated} kg\n  sits on bowl {lower} mm\n  takes bowl {upper} mm\n"
    )


CARRIED = (
    'part base "Base"\n  mass 1 kg\n  height 30 mm\n  size 220 x 100 x 30 mm\n  rated 40 kg\n  sits on slide wide\n'
    "  takes screw 1/4-20\n\n"
    'part camera "Camera"\n  mass 4 kg\n  size 250 x 160 x 170 mm\n  cog 10 mm back, 80 mm up\n'
    "  sits on screw 1/4-20\n  takes lens PL at 60 mm forward, 80 mm up\n\n"
    'part lens "Lens 0"\n  mass 1.5 kg\n  size 120 x 110 x 110 mm\n  length 120 mm\n  cog 60 mm forward\n'
    "  sits on lens PL\n\n"
    'part lens "Lens 1"\n  mass 3.5 kg\n  size 220 x 110 x 110 mm\n  length 220 mm\n  cog 110 mm forward\n'
    "  sits on lens PL\n"
)
"""What every rig here carries: 6 kg and a lens of 1.5 or of 3.5 kg."""

PLAIN = (head("Head 0", 30), sticks("Sticks 0", 60), slide("Slide 0", 120))


def listed(*parts: str, rig: str = RIG) -> str:
    """A list that describes these parts and what is carried, with one rig."""
    return HEAD + "\n".join((*parts, CARRIED)) + rig


def drawn(seed: int) -> str:
    """A stock drawn at random: a few heads, sticks, slides and rings, some of a size, some not known in full."""
    chance = random.Random(seed)
    have = ("  have 0\n", "  have 1\n", "  have 3\n", "")
    heads = [
        head(f"Head {n}", chance.choice((9, 12, 14, 16, 20, 40)), chance.choice((75, 100, 150)), chance.choice(have))
        for n in range(3)
    ]
    heads += ['part head "Head 3"\n  mass 2 kg\n  height 90 mm\n  sits on bowl 100 mm\n  takes screw 3/8-16\n']
    legs = ("600..1600 mm", "300..900 mm", "1100..1900 mm")
    some = [
        sticks(
            f"Sticks {n}", chance.choice((12, 14.5, 20, 60)), chance.choice((75, 100, 150)), chance.choice(have), leg
        )
        for n, leg in enumerate(chance.choices(legs, (3, 1, 1), k=3))
    ]
    slides = [slide(f"Slide {n}", chance.choice((20, 70, 120))) for n in range(2)]
    slides += [slide("Slide 2", 120, "flat")]
    rings = [ring(150, 100), ring(150, 100, "Weak ring", 9), ring(100, 75)]
    return listed(*heads, *some, *slides, *chance.sample(rings, chance.randint(0, 3)))
