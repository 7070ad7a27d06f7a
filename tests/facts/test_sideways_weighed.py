"""Two scales say how far forward a thing's weight is, and nothing of how far left.

By hand: 1 kg at 100 mm forward and 1 kg at 0 mm are 2 kg at 50 mm forward.
"""

from __future__ import annotations

import pytest

from tests.facts.test_sideways import ADAPTER, LEGS, TOP, of

ON_HEAD = '  accessory "W", on head, at 300 mm up\n'
ON_STICKS = '  accessory "W", on sticks, at 300 mm up\n'
WEIGHED = "  weighed   front 1 kg at 100 mm forward, rear 1 kg at 0 mm back\n"


def with_part(figures: str) -> str:
    return LEGS + ADAPTER.replace("PORT", "20 mm up") + TOP + f'part accessory "W"\n{figures}'


@pytest.mark.parametrize("line", [ON_HEAD, ON_STICKS])
def test_two_scales_place_what_hangs_as_a_centre_that_is_written_does(line: str) -> None:
    weighed = of(more=line, parts=with_part(WEIGHED))
    written = of(more=line, parts=with_part("  mass 2 kg\n  cog 50 mm forward\n"))
    assert weighed.missing == written.missing == ()
    assert (weighed.low, weighed.high) == pytest.approx((written.low, written.high), abs=1e-12)
    assert weighed.low == pytest.approx(2 * 0.05 / 14)


def test_with_neither_it_hangs_plumb() -> None:
    assert of(more=ON_HEAD, parts=with_part("  mass 2 kg\n")) == of(
        more=ON_HEAD, parts=with_part("  mass 2 kg\n  cog 0 mm up\n")
    )


@pytest.mark.parametrize("figures", ["  weighed ?\n", "  weighed nothing of it\n", "  mass 2 kg\n  cog ?\n"])
def test_what_is_asked_about_or_not_read_is_missing_of_the_lean(figures: str) -> None:
    found = of(more=ON_HEAD, parts=with_part(figures))
    assert found.high == float("inf")
    assert found.missing
    assert all(each.startswith('accessory "W": ') for each in found.missing)


def test_a_place_that_cannot_be_read_may_be_any() -> None:
    lean = of(sticks=", at ; 20 mm forward")
    assert lean.high > of().high
