"""The table of usual units against pint, which holds the same definitions independently."""

from __future__ import annotations

import pint
import pytest

from kitproof.words.dimensions import ANGLE, NUMBER, Dimension
from kitproof.words.units import UNITS, Unit

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)

# How pint spells what it would otherwise read as something else.
SPELT = {
    "kn": "knot",
    "lb·ft": "lbf*ft",
    "ft·lb": "lbf*ft",
    "lbf·ft": "lbf*ft",
    "lbf·in": "lbf*inch",
    "N·m": "N*m",
    "kgf·m": "kgf*m",
    "kgf·cm": "kgf*cm",
    "°": "degree",
    "°C": "degC",
    "°F": "degF",
    "m²": "m**2",
    "cm²": "cm**2",
    "mm²": "mm**2",
    "in²": "inch**2",
    "ft²": "ft**2",
    "in": "inch",
    "%": "percent",
    "t": "metric_ton",
    "times an hour": "1/hour",
}


def _distinct() -> list[Unit]:
    return list({unit.name: unit for unit in UNITS.values()}.values())


@pytest.mark.parametrize("unit", _distinct(), ids=lambda unit: unit.name)
def test_a_unit_agrees_with_pint(unit: Unit) -> None:
    theirs = REGISTRY.Unit(SPELT.get(unit.name, unit.name))
    for number in (0.0, 1.0, 14.0, -40.0):
        expected = REGISTRY.Quantity(number, theirs).to_base_units()
        if unit.dimension.mass:  # pint's base for mass in this registry is the kilogram; grams show otherwise
            expected = REGISTRY.Quantity(number, theirs).to(_si(unit.dimension))
        assert unit.to_si(number) == pytest.approx(expected.magnitude, rel=1e-12, abs=1e-12)
        assert unit.from_si(unit.to_si(number)) == pytest.approx(number, rel=1e-12, abs=1e-9)


@pytest.mark.parametrize("unit", _distinct(), ids=lambda unit: unit.name)
def test_its_dimension_agrees_with_pint(unit: Unit) -> None:
    theirs = REGISTRY.Unit(SPELT.get(unit.name, unit.name)).dimensionality
    ours = {f"[{name}]": power for name, power in unit.dimension._asdict().items() if power and name != "angle"}
    assert dict(theirs) == ours
    assert (unit.dimension == ANGLE) == (unit.name in ("°", "rad"))
    assert (unit.dimension == NUMBER) == (unit.name == "%")


def _si(dimension: Dimension) -> str:
    symbols = ("kg", "m", "s", "A", "K")
    return "*".join(f"{symbol}**{power}" for symbol, power in zip(symbols, dimension[:5], strict=True) if power)


def test_every_spelling_of_a_unit_is_that_unit() -> None:
    assert UNITS["lbs"] is UNITS["lb"]
    assert UNITS["Nm"] is UNITS["N m"] is UNITS["N·m"]
    assert UNITS["lb"].to_si(14) == pytest.approx(6.35029318, rel=1e-15)
