"""Rigs made from their lines: alternatives, `like`, `also`, `without`, the order from the ground up, lost lines."""

from __future__ import annotations

import pytest

from tests.model.texts import RIG, amount, builds, made, slips, slots

BASIC = [
    ("sticks", "tall sticks"),
    ("head", "small head"),
    ("slide", "wide slide"),
    ("base", "studio base"),
    ("camera", "big camera"),
    ("lens", "long lens"),
]


def test_a_rig_keeps_its_lines_in_the_order_written() -> None:
    assert slots(made(RIG)) == BASIC
    assert slips(made(RIG)) == []


def test_a_line_that_starts_with_or_adds_to_the_line_above() -> None:
    text = RIG + '  or        "short lens"\n  or        none\n'
    assert slots(made(text))[-1] == ("lens", "long lens or short lens or none")


def test_a_clause_on_an_or_line_holds_for_the_whole_line() -> None:
    text = RIG + '  monitor "seven inch"\n  or none, at 40 mm up, on "long lens"\n'
    line = made(text).rigs[0].lines[-1]
    assert line.at is not None
    assert line.at.up == (0.04, 0.04)
    assert (line.on, line.on_is_name) == ("long lens", True)


def test_an_or_line_that_cannot_be_read_is_an_alternative_of_which_nothing_is_known() -> None:
    kitlist = made(RIG + '  or        "short lens\n')
    line = kitlist.rigs[0].lines[-1]
    assert [option.part and option.part.described for option in line.options] == [True, False]
    assert amount(kitlist, "carried", number=1).high == float("inf")


def test_a_slot_whose_word_is_misspelt_stands_where_it_is_written() -> None:
    text = RIG.replace("  camera ", '  adpter    "bush"\n  camera ')
    assert [slot for slot, _ in slots(made(text))] == [
        "sticks",
        "head",
        "slide",
        "base",
        "adapter",
        "camera",
        "lens",
    ]


class TestLike:
    def test_a_slot_whose_own_word_is_misspelt_does_not_keep_what_it_was_lent(self) -> None:
        kitlist = made(RIG + 'rig B like A\n  hed "small head"\n')
        assert slots(kitlist, "B") == [*BASIC[:1], ("head", ""), *BASIC[2:]]
        lost = kitlist.rigs[1].lines[1].options[0].part
        assert lost is not None
        assert not lost.described
        assert slots(kitlist, "A") == BASIC

    def test_a_slot_with_a_line_of_its_own_keeps_it_beside_one_that_is_misspelt(self) -> None:
        text = RIG + 'rig B like A\n  hed "small head"\n  head "small head"\n'
        assert slots(made(text), "B") == BASIC

    def test_a_slot_line_replaces_every_line_of_its_slot_in_its_old_place(self) -> None:
        text = (
            RIG
            + '  monitor "seven inch"\nrig B like A\n  camera "big camera"\n  lens "short lens"\n  lens "long lens"\n'
        )
        assert slots(made(text), "B") == [
            *BASIC[:5],
            ("lens", "short lens"),
            ("lens", "long lens"),
            ("monitor", "seven inch"),
        ]

    def test_also_adds_one_more_and_a_slot_line_below_leaves_it(self) -> None:
        text = (
            RIG
            + '  monitor "seven inch"\nrig B like A\n  also monitor "seven inch", at 1 mm up\n  monitor "seven inch"\n'
        )
        lines = [line for line in made(text).rigs[1].lines if line.slot == "monitor"]
        assert sorted(line.at is not None for line in lines) == [False, True]

    def test_without_takes_out_a_slot_or_one_alternative(self) -> None:
        text = RIG + '  or "short lens"\nrig B like A\n  without lens\nrig C like A\n  without lens "long lens"\n'
        kitlist = made(text)
        assert slots(kitlist, "B") == BASIC[:-1]
        assert slots(kitlist, "C") == [*BASIC[:-1], ("lens", "short lens")]
        assert slips(kitlist) == []

    def test_without_something_that_is_not_there_is_said(self) -> None:
        text = RIG + 'rig B like A\n  without monitor\nrig C like A\n  without lens "lung lens"\n'
        kitlist = made(text)
        assert slips(kitlist) == [("unknown-part", "monitor"), ("unknown-part", 'lens "lung lens"')]
        assert kitlist.slips[1].slip.nearest == ("long lens",)

    def test_new_support_slots_take_their_place_from_the_ground_up(self) -> None:
        parts = (
            'part riser "riser"\n  mass 2 kg\npart plate "plate"\n  mass 1 kg\npart spreader "spreader"\n  mass 1 kg\n'
        )
        text = parts + RIG + 'rig B like A\n  plate "plate"\n  spreader "spreader"\n  riser "riser"\n'
        support = [slot for slot, _ in slots(made(text), "B")]
        assert support == ["sticks", "spreader", "riser", "head", "plate", "slide", "base", "camera", "lens"]

    def test_conditions_are_lent_and_what_is_said_again_counts(self) -> None:
        text = RIG + "  tilts -30° to 20°\n  left standing\n  wind 6 m/s\nrig B like A\n  tilts -5° to 5°\n"
        rig = made(text).rigs[1]
        assert rig.left_standing
        assert rig.tilts is not None
        assert rig.tilts.high == pytest.approx(0.0872664626)
        assert rig.site.wind is not None

    def test_a_rig_that_is_not_there_is_said_and_leaves_everything_open(self) -> None:
        kitlist = made(RIG + 'rig B like C\n  camera "big camera"\n')
        assert slips(kitlist) == [("unknown-part", "rig C")]
        assert amount(kitlist, "carried", "B").high == float("inf")
        assert amount(kitlist, "carried", "B").missing


class TestOnlyWith:
    def test_a_line_stands_only_where_what_it_asks_for_does(self) -> None:
        text = RIG + '  or "short lens"\n  monitor "seven inch", only with "long lens"\n'
        found = [[each.part.name for each in build.standing[5:]] for build in builds(made(text))]
        assert found == [["long lens", "seven inch"], ["short lens"]]

    def test_what_hangs_on_a_line_that_falls_away_falls_away_with_it(self) -> None:
        text = RIG + (
            '  or "short lens"\n  monitor "seven inch", only with "long lens"\n'
            '  accessory "hood", 0.1 kg, only with "seven inch"\n'
        )
        found = [[each.part.name for each in build.standing[5:]] for build in builds(made(text))]
        assert found == [["long lens", "seven inch", "hood"], ["short lens"]]

    def test_alternatives_of_a_line_that_falls_away_are_one_combination(self) -> None:
        text = RIG + '  or "short lens"\n  battery "big battery" or none, only with "long lens"\n'
        assert len(builds(made(text))) == 3


class TestOrder:
    def test_support_slots_out_of_order_are_said_and_put_in_order(self) -> None:
        text = 'rig A\n  camera "big camera"\n  head "small head"\n  sticks "tall sticks"\n'
        kitlist = made(text)
        assert slips(kitlist) == [("figures-contradict", "head")]
        assert slots(kitlist) == [("sticks", "tall sticks"), ("head", "small head"), ("camera", "big camera")]

    def test_a_riser_below_the_camera_stands_where_it_is_written(self) -> None:
        riser = 'part riser "riser"\n  mass 2 kg\n'
        high = riser + 'rig A\n  head "small head"\n  riser "riser"\n  camera "big camera"\n'
        late = riser + 'rig A\n  head "small head"\n  camera "big camera"\n  riser "riser"\n'
        assert [slot for slot, _ in slots(made(high))] == ["head", "riser", "camera"]
        assert slips(made(high)) == []
        assert [slot for slot, _ in slots(made(late))] == ["riser", "head", "camera"]
        assert slips(made(late)) == [("figures-contradict", "riser")]


class TestLostLines:
    def test_a_slot_line_that_cannot_be_read_holds_a_part_of_which_nothing_is_known(self) -> None:
        kitlist = made(RIG + '  monitor "seven inch\n')
        assert amount(kitlist, "carried").low == pytest.approx(8.7)
        assert amount(kitlist, "carried").high == float("inf")
        assert "line" in amount(kitlist, "carried").missing[0]

    @pytest.mark.parametrize(
        "line", ['also monitor "seven inch', 'montor "seven inch"', "underslung for now", "without monitor 7 kg"]
    )
    def test_a_line_that_may_have_changed_the_build_leaves_it_open(self, line: str) -> None:
        found = amount(made(RIG + f"  {line}\n"), "load_share")
        assert found.high == float("inf")
        assert found.missing

    def test_a_condition_that_cannot_be_read_is_not_taken_from_the_list_or_the_other_rig(self) -> None:
        head = 'list "x"\n  dates 2027-05-01 to 2027-05-09\n  floor hard\n'
        text = head + RIG + "  dates 2027-05-01\nrig B like A\n  dates the ninth of May\n  floor slippery\n"
        rig = made(text).rigs[1]
        assert rig.dates is None
        assert rig.site.floor == ()

    def test_a_mark_that_cannot_be_read_is_not_taken_for_no(self) -> None:
        from kitproof.facts.values import Truth, Verdict
        from tests.model.texts import subject

        said = subject(made(RIG + "  left standing on the pier\n")).value("left_standing")
        assert isinstance(said, Verdict)
        assert said.truth is Truth.MISSING
