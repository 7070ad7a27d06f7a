"""Lists of any length, made from a seed: parts of four kinds, and rigs of them; and the same data as YAML and TOML."""

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
