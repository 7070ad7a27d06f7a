"""Facts over all combinations: where it stops looking early the ends lie further out, never nearer."""

from __future__ import annotations

import pytest

from kitproof.facts.build import combinations
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from kitproof.proofing import spans
from kitproof.proofing.proof import setting_of
from tests.benchmarks.made import rig_of_many
from tests.proofing.lists import DAY, book, read_bytes

FACTS = ("carried", "cog_up", "load_share", "counterbalance_needed", "tip_angle_level")


@pytest.mark.parametrize("looks", [0, 3, 20, 10_000])
def test_ends_take_in_every_combination_however_soon_it_stops_looking(
    looks: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    kitlist = read_bytes(rig_of_many(2).encode())
    setting, (rig,) = setting_of(kitlist, book(), DAY), kitlist.rigs
    monkeypatch.setattr(spans, "LOOKS", looks)
    found = spans.spans(setting, rig, FACTS)
    builds = [RigSubject(setting, build) for build in combinations(rig)]
    for name in FACTS:
        values = [value for each in builds if isinstance(value := each.value(name), Amount)]
        low, high = min(each.low for each in values), max(each.high for each in values)
        slack = 1e-9 * max(1.0, abs(low), abs(high))
        assert found[name].low <= low + slack
        assert found[name].high >= high - slack
        if looks == 10_000:
            assert (found[name].low, found[name].high) == (pytest.approx(low), pytest.approx(high))
