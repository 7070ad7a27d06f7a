"""Units that are not in the table of usual ones, read by pint. Loaded only when a list has one."""

from __future__ import annotations

import math
import re
from functools import lru_cache

import pint

from kitproof.words.dimensions import ANGLE, NUMBER, Dimension
from kitproof.words.units import Unit

# Plain words only: pint would work out "km^999999" faithfully.
_PLAIN_WORD = re.compile(r"[A-Za-z]{2,40}")
_BASES = {
    "[mass]": "mass",
    "[length]": "length",
    "[time]": "time",
    "[current]": "current",
    "[temperature]": "temperature",
}


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@lru_cache(maxsize=1024)
def unusual_unit(word: str) -> Unit | None:
    """The unit that pint knows by this name, such as `stone`, `yard` or `poundal`; None where there is none.

    Units of a scale that is not straight (decibels) and of what no list speaks of (moles, candela) are None too.
    """
    if not _PLAIN_WORD.fullmatch(word):
        return None
    try:
        unit = _registry().Unit(word)
        nothing, one, two = (float(_registry().Quantity(n, unit).to_base_units().magnitude) for n in (0.0, 1.0, 2.0))
        dimension = _dimension(unit)
    except Exception:  # pint's readers of names raise many kinds of error, of other packages too
        return None
    straight = math.isfinite(two) and math.isclose(two - one, one - nothing, rel_tol=1e-9) and one != nothing
    return Unit(word, dimension, one - nothing, nothing) if dimension is not None and straight else None


def _dimension(unit: pint.Unit) -> Dimension | None:
    """The dimension of a pint unit. Pint gives angles none, but keeps the radian among the base units."""
    exponents = dict.fromkeys(_BASES.values(), 0)
    for base, power in unit.dimensionality.items():
        whole = int(float(str(power)))
        if base not in _BASES or whole != power:
            return None
        exponents[_BASES[base]] = whole
    dimension = Dimension(**exponents)
    if dimension == NUMBER:
        bases = str(_registry().Quantity(1.0, unit).to_base_units().units)
        return ANGLE if bases == "radian" else None
    return dimension
