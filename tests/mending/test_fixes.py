"""Every action of the rule language as a change to the text, proved by proofing the changed list again."""

from __future__ import annotations

import pytest

from kitproof.facts.states import state_words
from kitproof.facts.values import Amount, Words
from kitproof.mending.mend import mended
from kitproof.mending.proving import with_proved_fixes
from tests.mending.grounds import fixed, fixes, ground, rule, rules

GEAR = """\
part sticks "Tall"
  mass      5 kg
  rated     60 kg
  takes     bowl 100 mm

part head "Small"
  mass      2 kg
  rated     4 kg at 100 mm
  have      3

part head "Middle"
  mass      3 kg
  rated     12 kg at 100 mm
  have      1

part head "Large"
  mass      6 kg
  rated     40 kg at 100 mm
  have      2

part head "Larger still"
  mass      9 kg
  rated     60 kg at 100 mm

part camera "Big"
  mass      8 kg
"""
HEAVY = rule("rig", "carried > 2 * head.mass", "choose head where carried <= 2 * head.mass")
ORDERED = rule("item", "ordered < used_at_once", "order used_at_once of part")
PACKED = rule("line", "held < ordered", "pack part")


def text(body: str) -> str:
    return f"{GEAR}\n{body}"


def own(bodies: dict[str, str], body: str) -> str:
    """The part of the mended text that follows the parts."""
    of = ground(text(body), rules(bodies))
    return fixed(of, next(iter(bodies))).removeprefix(f"{GEAR}\n")


# choose


def test_the_smallest_that_suffices_is_chosen() -> None:
    was = 'rig A\n  sticks    "Tall"\n  head      "Small", at 3 mm up  # why\n  camera    "Big"\n'
    assert own({"heavy": HEAVY}, was) == was.replace('"Small"', '"Large"')


def test_one_in_stock_comes_before_a_smaller_one_that_is_not() -> None:
    light = rule("rig", "head.mass < 2.5 kg", "choose head where head.mass >= 2.5 kg")
    two = 'rig A\n  head      "Small"\n\nrig B\n  head      "Middle"\n'
    assert 'rig A\n  head      "Large"' in own({"light": light}, two)
    assert 'rig A\n  head      "Middle"' in own({"light": light}, 'rig A\n  head      "Small"\n')


def test_a_rig_like_another_gets_a_line_of_its_own() -> None:
    low = rule("rig", "head.mass < 2.5 kg and tilts_said", "choose head where head.mass >= 2.5 kg")
    was = 'rig A\n  head      "Small"\n  camera    "Big"\n\nrig B like A\n  tilts     -10° to 10°\n'
    now = was.replace("rig B like A\n", 'rig B like A\n  head      "Middle"\n')
    assert own({"low": low}, was) == now


def test_only_the_alternative_that_fails_is_exchanged() -> None:
    light = rule("rig", "head.mass < 2.5 kg", "choose head where head.mass >= 2.5 kg")
    was = 'rig A\n  head      "Large" or "Small"\n  or        "Larger still"\n'
    assert own({"light": light}, was) == was.replace('"Small"', '"Middle"')


def test_orders_and_cases_follow_the_rig() -> None:
    bodies = {"heavy": HEAVY, "short": ORDERED, "loose": PACKED}
    rig = 'rig A\n  head      "Small"\n  camera    "Big"\n'
    order = 'order\n  1 x "Small", for rig A  # why\n  1 x "Big"\n'
    was = f'{order}\n{rig}\ncase "C"\n  holds     "Small", level\n  holds     "Big"\n'
    assert own(bodies, was) == was.replace('"Small"', '"Large"')
    two = was.replace('1 x "Small", for rig A', '3 x "Small"')
    now = two.replace('3 x "Small"  # why', '2 x "Small"  # why\n  1 x "Large"').replace(
        'head      "Small"', 'head      "Large"'
    )
    assert own(bodies, two).startswith(now.split("\ncase")[0])


def test_nothing_is_proved_that_brings_something_as_grave() -> None:
    none = rule("rig", "head.have >= 0 and head.mass > 4 kg", 'advise "No."')
    of = ground(text('rig A\n  head      "Small"\n  camera    "Big"\n'), rules({"heavy": HEAVY, "none": none}))
    assert fixes(of, "heavy") == [None]
    less = none.replace("grade wrong", "grade watch")
    of = ground(text('rig A\n  head      "Small"\n  camera    "Big"\n'), rules({"heavy": HEAVY, "none": less}))
    fix = fixes(of, "heavy")[0]
    assert fix is not None
    assert fix.proved


def test_one_that_brings_nothing_comes_before_a_smaller_one_that_brings_something_less_grave() -> None:
    large = rule("rig", "head.mass > 4 kg and head.mass < 7 kg", 'advise "No."', grade="watch")
    was = 'rig A\n  head      "Small"\n  camera    "Big"\n'
    assert '"Larger still"' in own({"heavy": HEAVY, "large": large}, was)


# add


def test_a_slot_line_goes_to_its_place_from_the_ground_up() -> None:
    missing = rule("rig", "not (sticks is there)", "add sticks")
    assert own({"missing": missing}, 'rig A\n  camera    "Big"\n') == 'rig A\n  sticks    "Tall"\n  camera    "Big"\n'
    missing = rule("rig", "not (camera is there)", "add camera")
    was = 'rig A\n  head      "Small"\n  or        "Large"\n  tilts     -10° to 10°\n'
    assert own({"missing": missing}, was) == was.replace("  tilts", '  camera    "Big"\n  tilts')


# order


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ('  1 x "Big"  # both\n', '  2 x "Big"  # both\n'),
        ('  "Big", spare 1\n', '  2 x "Big", spare 1\n'),
        ('  1 x "Big", for rig A\n', '  1 x "Big", for rig A\n  1 x "Big"\n'),
        ('  1 x "Tall"\n', '  1 x "Tall"\n  2 x "Big"\n'),
    ],
)
def test_as_many_are_ordered_as_are_needed(was: str, now: str) -> None:
    rigs = '\nrig A\n  camera    "Big"\n\nrig B\n  camera    "Big"\n'
    assert own({"short": ORDERED}, f"order\n{was}{rigs}") == f"order\n{now}{rigs}"


# set


@pytest.mark.parametrize(
    ("action", "was", "now"),
    [
        ("set tilted to -10°", "level, tilt free", "tilted down 10°, tilt free"),
        ("set tilted to 0°", "tilt free, tilted up 20°", "tilt free, level"),
        ("set tension to 0", "counterbalance 3", "counterbalance off"),
        ('set pan_bar_left to "loose"', "level", "level, pan bar loose"),
        ('set tilt_lock to "free"', "tilt locked", "tilt free"),
        ('set terminals_covered to "yes"', "spare", "spare, terminals covered"),
        ("set charge to 30 %", "charge 80 %", "charge 30 %"),
    ],
)
def test_a_state_is_set(action: str, was: str, now: str) -> None:
    changed = action.split()[1]
    tests = {
        "tilted": f"tilted {'>' if '-' in action else '!='} {action.split()[-1]}",
        "tension": "tension > 0",
        "pan_bar_left": "not (pan_bar_left is known)",
        "tilt_lock": 'tilt_lock = "locked"',
        "terminals_covered": "not terminals_covered",
        "charge": "charge > 30 %",
    }
    body = 'case "C"\n  holds     "Small", {}  # mind\n'
    assert own({"state": rule("packed", tests[changed], action)}, body.format(was)) == body.format(now)


def test_a_field_is_set_or_put_below() -> None:
    long = rule("move", "lasts > 24 h", "set lasts to 24 h")
    assert own({"long": long}, 'move "M"\n  lasts     3 days  # why\n') == 'move "M"\n  lasts     24 h  # why\n'
    silent = rule("move", "not (by is known)", 'set by to "road"')
    assert (
        own({"silent": silent}, 'move "M"\n  lasts     3 days\n') == 'move "M"\n  lasts     3 days\n  by        road\n'
    )


def test_a_misspelt_word_is_put_right() -> None:
    of = ground('list "L"\n  wnid      4 m/s\n')
    assert fixed(of, "unknown-word") == 'list "L"\n  wind      4 m/s\n'


def test_a_name_keeps_its_quotes_and_one_of_several_is_not_guessed() -> None:
    of = ground(text('order\n  1 x "Smal"\n'))
    assert fixed(of, "unknown-part").endswith('  1 x "Small"\n')
    of = ground(text('order\n  1 x "Larg"\n\npart head "Larga"\n  mass      2 kg\n'))
    assert fixes(of, "unknown-part")[0] is None


@pytest.mark.parametrize(
    ("fact", "value", "words"),
    [
        ("tension", Amount(3, 3), "counterbalance 3"),
        ("tension", Amount(3, 4), None),
        ("tilted", Words("level"), None),
        ("slide_left", Words("off"), "slide off"),
        ("slide_left", Words(None), None),
        ("spare", Words("yes"), "spare"),
        ("spare", Words("no"), None),
    ],
)
def test_states_in_words(fact: str, value: Amount | Words, words: str | None) -> None:
    assert state_words(fact, value) == words


# remove


def test_a_line_an_entry_and_a_state_are_taken_out_and_comments_stay() -> None:
    unused = rule("line", "in_rigs < 1", "remove line")
    was = 'order\n  1 x "Big"  # not sure\n  1 x "Small"\n\nrig A\n  head      "Small"\n'
    assert own({"unused": unused}, was) == was.replace('1 x "Big"  ', "")
    left = rule("packed", "camera_left", "remove camera_left")
    was = 'case "C"\n  holds     "Small", camera on, level  # mind\n'
    assert own({"left": left}, was) == was.replace(", camera on", "")
    waiver = '\nwaive tips-on-slope in list  # once\n  # by hand\n  because   "why"\n\nrig B\n  head      "Small"\n'
    of = ground('list "L"\n' + waiver)
    assert fixed(of, "waiver-unused") == 'list "L"\n\n# once\n  # by hand\nrig B\n  head      "Small"\n'


@pytest.mark.parametrize(("was", "now"), [('  1 x "Big"', ""), ('  1 x "Small"\r\n  1 x "Big"', '  1 x "Small"')])
def test_the_last_line_goes_with_no_line_end(was: str, now: str) -> None:
    unused = rule("line", "in_rigs < 1 and part.mass > 5 kg", "remove line")
    body = text('rig A\n  head      "Small"\n\norder\r\n')
    assert fixed(ground(body + was, rules({"unused": unused})), "unused") == (
        body + now if now else body.rstrip("\r\n")
    )


# pack


def test_a_part_is_packed_in_a_case_where_it_may_be() -> None:
    hold = rule(
        "packed",
        'any way in moves where way.by = "air hold"',
        'pack part where no way in moves where way.by = "air hold"',
    )
    moves = 'move "Hold"\n  by        air hold\n\nmove "Van"\n  by        road\n\n'
    was = 'case "One"\n  goes      "Hold"\n  holds     2 x "Small", level  # mind\n\n'
    was += 'case "Two"\n  goes      "Hold"\n\ncase "Three"\n  goes      "Van"\n'
    now = was.replace('holds     2 x "Small", level  # mind', "# mind") + '  holds     2 x "Small", level\n'
    assert own({"hold": hold}, moves + was) == moves + now


def test_what_is_in_no_case_goes_into_the_first_that_takes_it() -> None:
    was = 'order\n  2 x "Small"\n\ncase "One"\n  mass      3 kg\n'
    assert own({"loose": PACKED}, was) == was + '  holds     2 x "Small"\n'


# advise


def test_advice_is_never_an_edit() -> None:
    of = ground(
        text('rig A\n  head      "Small"\n'), rules({"a": rule("rig", "head is there", 'advise "Look again."')})
    )
    assert fixes(of, "a") == [None]


# In words


def test_what_is_not_proved_is_left_to_the_advice_where_there_is_one() -> None:
    body = text('case "C"\n  holds     "Small", camera on\n')
    alone = rules({"left": rule("packed", "camera_left", "remove camera_left")})
    assert [fix.says for fix in ground(body, alone).examined.proof.findings[0].fixes] == [
        'Pack "Small" without: camera on.'
    ]
    both = rules({"left": rule("packed", "camera_left", "remove camera_left", 'advise "Take it off."')})
    of = ground(body, both)
    assert [(fix.says, fix.proved) for fix in of.examined.proof.findings[0].fixes] == [("Take it off.", False)]
    assert [(fix.says, fix.proved) for fix in with_proved_fixes(of).findings[0].fixes] == [
        ('Pack "Small" without: camera on.', True),
        ("Take it off.", False),
    ]


def test_nothing_is_written_down_as_if_somebody_had_looked() -> None:
    """Where it cannot be told how a bar is left, the list is not changed so that it says loose."""
    book = rules({"bar": rule("packed", 'pan_bar_left = "along legs"', 'set pan_bar_left to "loose"')})
    of = ground(text('case "C"\n  holds     "Small"\n'), book)
    finding = with_proved_fixes(of).findings[0]
    assert finding.outcome == "cannot tell"
    assert [fix.proved for fix in finding.fixes] == [False]
    assert mended(of).done == ()
