"""Any orders that can be typed, in several lists at once, give proofs; and no list that is added finds less."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from kitproof.model.kitlist import KitList
from kitproof.proofing.findings import Finding
from tests.laws.lists import FEW
from tests.proofing.lists import proofed_together, read_bytes

BOOK = (
    'part head "H"\n  {have}\n  sits on bowl 100 mm\n  goes with "T"\n'
    'part tie-down "T"\n  have 2\n'
    'part kit "K"\n  have 2\n  includes 2 x "H", "K"\n'
)
HAVE = st.sampled_from(["have 1", "have 3", "have ?", "have 0", "have two", ""])
TITLES = st.sampled_from(['list "One"', 'list "Two"', "list", 'list "One"\n  issue 2', 'list "One"\n  issue 1', ""])
DATES = st.sampled_from(
    [
        "",
        "  dates 2027-03-01 to 2027-03-09\n",
        "  dates 2027-03-09 to 2027-03-11\n",
        "  dates 2027-03-09 to 2027-03-01\n",
        "  dates ?\n",
        "  dates 2027-02-30 to 2027-03-02\n",
    ]
)
LINES = st.lists(
    st.sampled_from(['1 x "H"', '2 x "K"', '3 x "T", spare 9', '0 x "H"', "2 x H", '9 x "nothing"', "dates soon"]),
    max_size=3,
)
RIG = 'rig A\n  head "H" or "K"\n  had "H"\nrig B\n  head "H"\n  instead of A\n  dates 2027-03-09 to 2027-03-02\n'


@st.composite
def kitlists(draw: st.DrawFn, have: str) -> str:
    title, dates = draw(TITLES), draw(DATES)
    text = f"{title}\n{dates if title else ''}"
    for _ in range(draw(st.integers(0, 2))):
        text += f'order "From Harrow"\n{draw(DATES)}' + "".join(f"  {line}\n" for line in draw(LINES))
    return BOOK.format(have=have) + text + (RIG if draw(st.booleans()) else "")


def made(texts: list[str]) -> list[KitList]:
    return [read_bytes(text.encode(), f"{number}.kitlist") for number, text in enumerate(texts)]


@FEW
@given(HAVE.flatmap(lambda have: st.lists(kitlists(have), min_size=1, max_size=3)))
def test_any_orders_give_proofs_and_a_list_more_never_makes_them_better(texts: list[str]) -> None:
    lists = made(texts)
    alone = clashes([each for proof in proofed_together(lists[:1]) for each in proof.findings])
    found = [proof.findings for proof in proofed_together(lists)]
    newer = any(each.title == lists[0].title and each.issue != lists[0].issue for each in lists[1:])
    assert newer or alone <= clashes(list(found[0]))


def clashes(found: list[Finding]) -> set[str]:
    """The parts that are promised too often for certain."""
    return {each.subject for each in found if each.rule == "promised-twice" and each.outcome == "fails"}
