"""What hangs on a lens mount and what bends the rods, worked out by hand.

Sources: statics, moments about the mount, g Σ m d; a cantilever, (F/2) a² (3L − a) / (6 E I); all masses sharp.
"""

from __future__ import annotations

import math

import pytest

from kitproof.facts.part import PartSubject
from kitproof.facts.values import Amount, Truth, Verdict
from kitproof.words.units import G
from tests.facts.amounts import ends
from tests.model.texts import PARTS, RIG, amount, made, subject

TORQUE = 3 * 0.100 * G
"""The long lens: 3 kg, 100 mm ahead of its mount."""

HOOD = (
    '\npart accessory "hood"\n  mass 0.5 kg\n  cog 20 mm forward\npart accessory "flag"\n  mass 0.2 kg\n  cog 0 mm up\n'
)
RODS = '\npart rods "r"\n  mass 0.3 kg\n  length 300 mm\n  diameter 15 mm\n  wall 1 mm\n  made of aluminium\n'
RODS += "  sits on rods 15/100\n"
BOX = '\npart accessory "box"\n  mass 1 kg\n  cog 0 mm up\n'
PROP = '\npart lens support "prop"\n  mass 0.2 kg\n  cog 0 mm up\n'


def sag(kg: float, away: float, wall: float = 0.001, elasticity: float = 70e9) -> float:
    """How far two rods of 300 mm, 15 mm thick, go down under a mass at a place."""
    inertia = math.pi / 64 * (0.015**4 - (0.015 - 2 * wall) ** 4)
    return kg * G / 2 * away**2 * (3 * 0.3 - away) / (6 * elasticity * inertia)


@pytest.mark.parametrize(
    ("lines", "torque"),
    [
        ("", TORQUE),
        ('  accessory "hood", on lens, at 200 mm forward\n', TORQUE + 0.5 * 0.220 * G),
        ('  accessory "hood", on lens, at 300 mm back\n', TORQUE - 0.5 * 0.280 * G),
        (
            '  accessory "hood", on lens, at 200 mm forward\n  accessory "flag", on "hood", at 50 mm forward\n',
            TORQUE + (0.5 * 0.220 + 0.2 * 0.250) * G,
        ),
        ('  accessory "hood", on camera, at 200 mm forward\n', TORQUE),
        ('  accessory "hood", on "flag"\n  accessory "flag", on "hood"\n', TORQUE),
    ],
)
def test_all_that_is_on_the_lens_hangs_on_its_mount_and_nothing_else_does(lines: str, torque: float) -> None:
    found = amount(made(RIG + lines + HOOD), "lens_torque")
    assert ends(found) == pytest.approx((torque, torque))
    assert found.missing == ()


@pytest.mark.parametrize(
    ("line", "part", "lacks"),
    [
        (", at 200 mm forward", "  cog 0 mm up\n", "mass"),
        (", at ?", "  cog 0 mm up\n  mass 1 kg\n", "its place on the rig"),
        (", at 200 mm forward", "  cog ?\n  mass 1 kg\n", "cog"),
    ],
)
def test_what_is_not_known_of_a_thing_on_the_lens_is_asked_for_once(line: str, part: str, lacks: str) -> None:
    mount = PARTS.replace('part camera "big camera"\n', 'part camera "big camera"\n  lens moment 10 N m\n')
    text = f'{RIG}  accessory "x", on lens{line}\npart accessory "x"\n{part}'
    torque, share = amount(made(text), "lens_torque"), amount(made(text, parts=mount), "lens_share")
    unmarked = amount(made(text), "lens_share")
    assert torque.high == share.high == unmarked.high == math.inf
    assert torque.missing == share.missing == (f'accessory "x": {lacks}',)
    assert unmarked.missing == (f'accessory "x": {lacks}', 'camera "big camera": lens moment')


@pytest.mark.parametrize(
    ("support", "away"),
    [
        ("on rods, at 200 mm forward", 0.200),
        ("on rods, at 50 mm forward", 0.050),
        ("on camera, at 160 mm forward", 0.100),
        ("on head, at 160 mm forward", 0.100),
    ],
)
def test_a_lens_support_bears_the_torque_over_its_way_from_the_mount(support: str, away: float) -> None:
    """Rods and mount are 60 mm ahead of the base, and with it of the head."""
    text = f'{RIG}  rods "r"\n  lens support "prop", {support}\n{RODS}{PROP}'
    found = amount(made(text), "support_bears")
    assert ends(found) == pytest.approx((TORQUE / away, TORQUE / away))
    assert found.missing == ()


def test_there_is_no_torque_and_nothing_to_bear_without_a_lens() -> None:
    text = RIG.replace('  lens      "long lens"\n', "") + '  lens support "prop", at 200 mm forward\n' + PROP
    assert subject(made(text)).value("lens_torque") is None
    assert subject(made(text)).value("support_bears") is None
    assert subject(made(text)).value("rod_sag") is None


@pytest.mark.parametrize(
    ("lines", "loads"),
    [
        ("", []),
        ('  accessory "box", on rods, at 200 mm forward\n', [(1, 0.2)]),
        ('  accessory "box", on "r", at 200 mm forward\n', [(1, 0.2)]),
        ('  accessory "box", on base, at 200 mm forward\n', []),
        ('  accessory "clip", at 200 mm forward\n', [(0.4, 0.14)]),
        ('  accessory "clip", on camera, at 200 mm forward\n', []),
        ('  lens support "prop", on rods, at 200 mm forward\n', [(0.2 + 3 * 0.100 / 0.200, 0.2)]),
        (
            '  accessory "box", on rods, at 100 mm forward\n  accessory "clip", at 200 mm forward\n',
            [(1, 0.1), (0.4, 0.14)],
        ),
    ],
)
def test_the_rods_bend_under_what_is_put_on_them_and_what_is_made_for_them(
    lines: str, loads: list[tuple[float, float]]
) -> None:
    """A clip 200 mm ahead of the camera is 140 mm ahead of the rods' clamp. A lens support bears its share."""
    clip = 'part accessory "clip"\n  mass 0.4 kg\n  sits on rods 15/100\n  sits on shoe\n'
    found = amount(made(f'{RIG}  rods "r"\n{lines}{RODS}{BOX}{PROP}{clip}'), "rod_sag")
    wanted = sum(sag(*load) for load in loads)
    assert ends(found) == pytest.approx((wanted, wanted))
    assert found.missing == ()


def test_a_lens_behind_its_mount_lifts_nothing_off_the_rods() -> None:
    parts = PARTS.replace("cog       100 mm forward", "cog       100 mm back")
    text = f'{RIG}  rods "r"\n  lens support "prop", on rods, at 200 mm forward\n{RODS}{PROP}'
    found = amount(made(text, parts=parts), "rod_sag")
    assert ends(found) == pytest.approx((sag(0.2, 0.2),) * 2)


def test_a_base_that_can_sit_on_rods_bends_none() -> None:
    parts = PARTS.replace("  sits on   slide wide\n", "  sits on   slide wide\n  sits on   rods 15/100\n")
    assert ends(amount(made(f'{RIG}  rods "r"\n{RODS}', parts=parts), "rod_sag")) == (0, 0)


def test_what_is_not_known_of_what_is_on_the_rods_is_asked_for_once() -> None:
    lost = amount(made(f'{RIG}  rods "r"\n  accessory "box", on rods, at ?\n{RODS}{BOX}'), "rod_sag")
    assert ends(lost) == pytest.approx((0, sag(1, 0.3)))
    assert lost.missing == ('accessory "box": its place on the rig',)
    bare = BOX.replace("  mass 1 kg\n", "")
    light = amount(made(f'{RIG}  rods "r"\n  accessory "box", on rods, at 300 mm forward\n{RODS}{bare}'), "rod_sag")
    assert (ends(light), light.missing) == ((0, math.inf), ('accessory "box": mass',))
    prop = f'{RIG}  rods "r"\n  lens support "prop", on rods, at 200 mm forward\n{RODS}{PROP}'
    parts = PARTS.replace('part lens "long lens"\n  mass      3 kg', 'part lens "long lens"\n  mass      3..4 kg')
    heavy = amount(made(prop, parts=parts), "rod_sag")
    assert ends(heavy) == pytest.approx((sag(0.2 + 3 * 0.1 / 0.2, 0.2), sag(0.2 + 4 * 0.1 / 0.2, 0.2)))
    unknown = amount(made(prop, parts=parts.replace("  mass      3..4 kg\n", "")), "rod_sag")
    assert (unknown.high, unknown.missing) == (math.inf, ('lens "long lens": mass',))


def test_rods_of_which_wall_and_stuff_are_not_said_are_solid_steel_at_best() -> None:
    """E of steel 200 GPa; at worst they are all bore, and go down by anything."""
    text = f'{RIG}  rods "r"\n  accessory "box", on rods, at 200 mm forward\n{RODS}{BOX}'
    found = amount(made(text.replace("  wall 1 mm\n  made of aluminium\n", "")), "rod_sag")
    assert ends(found) == pytest.approx((sag(1, 0.2, 0.0075, 200e9), math.inf))
    asked = amount(made(text.replace("wall 1 mm", "wall ?")), "rod_sag")
    assert ends(asked) == pytest.approx((sag(1, 0.2, 0.0075), math.inf))
    steel = amount(made(text.replace("aluminium", "steel")), "rod_sag")
    assert ends(steel) == pytest.approx((sag(1, 0.2, elasticity=200e9),) * 2)


def test_rods_of_which_nothing_is_known_ask_for_their_load_as_well() -> None:
    text = f'{RIG}  rods "r"\n  accessory "box", on rods, at ?\n{BOX}part rods "r"\n  mass 0.3 kg\n'
    found = amount(made(text), "rod_sag")
    assert found == Amount(
        0, math.inf, ('accessory "box": its place on the rig', 'rods "r": length', 'rods "r": diameter')
    )


def part_fact(slot: str, field: str, name: str) -> object:
    label = {"camera": 'part camera "big camera"\n', "head": 'part head "small head"\n'}[slot]
    found = subject(made(RIG, parts=PARTS.replace(label, f"{label}{field}"))).value(slot)
    assert isinstance(found, PartSubject)
    return found.value(name)


@pytest.mark.parametrize(
    ("said", "diagonal", "missing"),
    [
        ("  sensor 24 x 18 mm\n", (0.030, 0.030), ()),
        ("  sensor 24..40 x 18..30 mm\n", (0.030, 0.050), ()),
        ("  sensor ?\n", (0, math.inf), ('camera "big camera": sensor',)),
        ("", (0, math.inf), ('camera "big camera": sensor',)),
    ],
)
def test_the_diagonal_of_a_sensor_by_pythagoras(
    said: str, diagonal: tuple[float, float], missing: tuple[str, ...]
) -> None:
    """24 : 18 : 30, three, four, five."""
    found = part_fact("camera", said, "sensor_diagonal")
    assert isinstance(found, Amount)
    assert (ends(found), found.missing) == (pytest.approx(diagonal), missing)


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        ("  quick release self-locking\n", Verdict(Truth.FALSE)),
        ("", Verdict(Truth.MISSING, ('head "small head": quick release',))),
    ],
)
def test_a_plate_that_locks_itself_needs_no_hand(said: str, wanted: Verdict) -> None:
    assert part_fact("head", said, "safety_by_hand") == wanted
