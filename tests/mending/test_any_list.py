"""Whatever a list says, mending it stops nobody, comes to an end, and mended again it stays as it is."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from kitproof.mending.mend import mended
from kitproof.mending.proving import with_proved_fixes
from tests.house.repository import RULES
from tests.mending.grounds import FAULTS, SAMPLES, mended_sample, sample
from tests.reading.samples import fragments

NAMES = ("used-not-ordered", "head-packed-tilted", "unknown-word", "waiver-unused", "slide-width-differs")
EXAMPLES = [next(RULES.rglob(f"{name}.fails.kitlist")).read_text("utf-8") for name in NAMES]
PIECES = st.one_of(st.sampled_from(("", "\n", " ", "\r\n", '"', ", ", "#")), st.sampled_from(fragments()))


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """An example of a rule with pieces put in and taken out."""
    text = draw(st.sampled_from(EXAMPLES))
    for _ in range(draw(st.integers(1, 5))):
        start = draw(st.integers(0, len(text)))
        text = text[:start] + draw(PIECES) + text[start + draw(st.integers(0, 6)) :]
    return text


@given(spoilt())
@settings(max_examples=20)
def test_any_list_can_be_mended_and_once_is_enough(text: str) -> None:
    data = text.encode("utf-8", "surrogatepass")
    of = sample(SAMPLES / "any.kitlist", data)
    once = mended(of)
    again = mended(sample(SAMPLES / "any.kitlist", once.ground.file.with_text(once.ground.file.text)))
    assert again.done == ()
    proved = [fix for each in with_proved_fixes(of).findings for fix in each.fixes if fix.proved]
    assert bool(proved) >= bool(once.done)


def test_a_first_look_at_a_change_sees_what_a_whole_proof_sees() -> None:
    of = sample(SAMPLES / f"{FAULTS[2]}.kitlist")
    for done in mended_sample(FAULTS[2]).done[:1]:
        after = of.changed(done.fix.changes)
        assert after is not None
        looks = (after.looks.first, after.looks.second)
        first, second = ([(each.rule, each.subject) for each in look.proof.findings] for look in looks)
        assert first == second
