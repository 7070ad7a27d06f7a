"""Lists of any length, made from a seed: parts of four kinds, and rigs of them; and the same data as YAML and TOML.

And a stock of heads and sticks with one rig that chooses from it.
"""

from __future__ import annotations

import random

LINES_OF_PART, LINES_OF_RIG = 6, 7


def list_of(lines: int, seed: int = 1) -> str:
    """A list of about so many lines, four fifths of them parts. Most of its rigs have nothing wrong with them."""
    chance = random.Random(seed)
    parts = max(4, lines * 4 // 5 // LINES_OF_PART // 4 * 4)
    rigs = max(1, (lines - parts * LINES_OF_PART) // LINES_OF_RIG)
    made = [_part(number, chance) for number in range(parts)]
    made += [_rig(number, chance.randrange(parts) // 4 * 4, chance) for number in range(rigs)]
    return f'list "Made {seed}"\n\n' + "\n".join(made)


def _part(number: int, chance: random.Random) -> str:
    match number % 4:
        case 0:
            return (
                f'part head "Head {number}"\n  mass       {chance.uniform(2, 9):.2f} kg\n  sits on    bowl 100 mm\n'
                f"  takes      plate wide\n  tilt axis  {chance.randint(30, 90)} mm below plate\n"
                f"  rated      {chance.randint(18, 40)} kg at {chance.randint(120, 200)} mm\n"
            )
        case 1:
            return (
                f'part sticks "Sticks {number}"\n  mass       {chance.uniform(2, 6):.2f} kg\n  takes      bowl 100 mm\n'
                f"  legs       600..1600 mm\n  feet       {chance.randint(600, 700)} mm at 600 mm, "
                f"{chance.randint(900, 1100)} mm at 1600 mm\n  rated      {chance.randint(40, 90)} kg\n"
            )
        case 2:
            return (
                f'part camera "Camera {number}"\n  mass       {chance.uniform(1, 6):.2f} kg\n'
                f"  cog        {chance.randint(-20, 20)} mm forward, {chance.randint(50, 90)} mm up\n"
                "  takes      mount big\n"
            )
    return (
        f'part lens "Lens {number}"\n  mass       {chance.uniform(0.5, 3):.2f} kg\n  sits on    mount big\n'
        f"  cog        {chance.randint(50, 120)} mm forward, 0 mm up\n  length     {chance.randint(120, 250)} mm\n"
    )


def _rig(number: int, first: int, chance: random.Random) -> str:
    return (
        f'rig R{number}\n  sticks  "Sticks {first + 1}"\n  head    "Head {first}"\n  camera  "Camera {first + 2}"\n'
        f'  lens    "Lens {first + 3}", at {chance.randint(20, 60)} mm forward\n'
        f"  ground slope up to {chance.randint(1, 5)} deg\n"
    )


BOWLS = (75, 100, 150)
CARRIED = """
part slide "Slide"
  mass      1.4 kg
  have      2
  height    25 mm
  size      340 x 100 x 25 mm
  rated     40 kg
  sits on   screw 3/8-16
  takes     slide wide
  travel    140 mm back to 140 mm forward

part base "Base"
  mass      1.1 kg
  height    30 mm
  size      220 x 100 x 30 mm
  rated     40 kg
  sits on   slide wide
  takes     screw 1/4-20

part camera "Camera"
  mass      4.2 kg
  size      250 x 160 x 170 mm
  cog       10 mm back, 80 mm up
  sits on   screw 1/4-20
  takes     mount big at 60 mm forward, 80 mm up
"""
CHOOSING = """
rig A
  sticks  "Sticks 0", legs at 1300 mm
  head    "Head 0"
  slide   "Slide"
  base    "Base"
  camera  "Camera"
  lens    "Lens 120" or "Lens 200" or "Lens 280"
  tilts   -30° to 25°
  wind    5 m/s
  ground slope up to 5°
"""


def stock_of(heads_and_sticks: int, seed: int = 1) -> str:
    """A list with so many heads and sticks to choose from, half and half, and one rig in three combinations."""
    chance = random.Random(seed)
    made = [_stocked(number, chance) for number in range(heads_and_sticks // 2)]
    lenses = [
        f'part lens "Lens {long}"\n  mass {long / 50} kg\n  size {long} x 110 x 110 mm\n  length {long} mm\n'
        f"  cog {long // 2} mm forward\n  sits on mount big\n"
        for long in (120, 200, 280)
    ]
    return f'list "Stock {seed}"\n  dates 2027-03-08 to 2027-03-19\n\n' + "\n".join((*made, CARRIED, *lenses, CHOOSING))


def _stocked(number: int, chance: random.Random) -> str:
    bowl, holds = chance.choice(BOWLS), chance.uniform(6, 50)
    return (
        f'part head "Head {number}"\n  mass {2 + holds / 8:.2f} kg\n  height 130 mm\n  have {chance.randint(0, 3)}\n'
        f"  sits on bowl {bowl} mm\n  takes screw 3/8-16\n  tilt axis 45 mm below plate\n"
        f"  chart {holds:.1f} kg at 100 mm, {holds * 0.8:.1f} kg at 200 mm, {holds * 0.5:.1f} kg at 350 mm\n"
        f"  counterbalance 0 to {holds * 2.4:.1f} N·m, stepless\n  tilt -75° to 90°\n  drag 0.5 to 8 N·m\n\n"
        f'part sticks "Sticks {number}"\n  mass {chance.uniform(2, 6):.2f} kg\n  have {chance.randint(0, 3)}\n'
        f"  takes bowl {chance.choice(BOWLS)} mm\n  rated {chance.randint(20, 90)} kg\n"
        f"  legs {chance.choice((400, 650, 900))}..{chance.choice((1200, 1600, 1800))} mm\n"
        f"  feet {chance.randint(380, 520)} mm at 500 mm, {chance.randint(600, 800)} mm at 1600 mm\n"
    )


CHOSEN = (
    ("battery", "at 150 mm back, 90 mm up"),
    ("monitor", "at 120 mm up"),
    ("matte box", "at 300 mm forward, 80 mm up"),
    ("handle", "at 160 mm up"),
    ("accessory", "at 40 mm back, 60 mm up"),
)
SUPPORT = """
part sticks "Sticks"
  mass      5 kg
  takes     bowl 100 mm
  rated     60 kg
  legs      600..1600 mm
  feet      500 mm at 600 mm, 800 mm at 1600 mm

part head "Head"
  mass      6 kg
  height    120 mm
  sits on   bowl 100 mm
  takes     slide wide
  chart     24 kg at 100 mm, 18 kg at 200 mm, 9 kg at 400 mm
  tilt axis  45 mm below plate
  counterbalance  5 to 50 N·m, stepless
  tilt      -70° to 85°
  drag      0.5 to 8 N·m

part base "Base"
  mass      1.1 kg
  height    30 mm
  size      220 x 100 x 30 mm
  rated     40 kg
  sits on   slide wide
  takes     screw 1/4-20
"""


def rig_of_many(options: int, seed: int = 1) -> str:
    """A list with one rig that has so many alternatives in each of seven slots."""
    chance = random.Random(seed)
    made = [f'list "Many {seed}"\n', SUPPORT]
    for number in range(options):
        made.append(
            f'part camera "camera {number}"\n  mass {chance.uniform(3, 6):.2f} kg\n  size 250 x 160 x 170 mm\n'
            f"  cog 10 mm back, {chance.randint(70, 90)} mm up\n  sits on screw 1/4-20\n"
            "  takes mount big at 60 mm forward, 80 mm up\n"
        )
        long = 120 + 20 * number
        made.append(
            f'part lens "lens {number}"\n  mass {chance.uniform(1, 5):.2f} kg\n  size {long} x 110 x 110 mm\n'
            f"  length {long} mm\n  cog {long // 2} mm forward\n  sits on mount big\n"
        )
        for kind, _ in CHOSEN:
            made.append(
                f'part {kind} "{kind} {number}"\n  mass {chance.uniform(0.3, 1.3):.2f} kg\n'
                "  size 80 x 60 x 70 mm\n  cog 0 mm up\n"
            )
    slots = [("camera", ""), ("lens", ""), *CHOSEN]
    lines = [f"  {kind}  {_or(kind, options)}{', ' if at else ''}{at}" for kind, at in slots]
    support = ['rig A\n  sticks  "Sticks", legs at 1300 mm\n  head    "Head"\n  base    "Base"']
    conditions = ["  tilts   -30° to 25°\n  wind    5 m/s\n  ground slope up to 5°\n"]
    return "\n".join((*made, *support, *lines, *conditions))


def _or(kind: str, options: int) -> str:
    return " or ".join(f'"{kind} {number}"' for number in range(options))


def edited(text: str, number: int) -> str:
    """The same with one line changed: the last mass."""
    at = text.rindex("  mass")
    end = text.index("\n", at)
    return f"{text[:at]}  mass       {1 + number / 1000:.3f} kg{text[end:]}"


def as_yaml(text: str) -> str:
    """The same data, line for line, as YAML: a list of mappings."""
    found = ["---"]
    for line in text.splitlines():
        word, _, value = line.strip().partition("  ")
        if line and not line.startswith(" "):
            found.append(f"- entry: '{line}'")
        elif line:
            found.append(f"  {word.replace(' ', '_')}: '{value.strip()}'")
    return "\n".join(found) + "\n"


def as_toml(text: str) -> str:
    """The same data, line for line, as TOML: a table for each entry."""
    found: list[str] = []
    for number, line in enumerate(text.splitlines()):
        word, _, value = line.strip().partition("  ")
        if line and not line.startswith(" "):
            found.append(f"[entry-{number}]")
        elif line:
            found.append(f"{word.replace(' ', '-')} = '{value.strip()}'")
    return "\n".join(found) + "\n"
