"""Scores of single items against the rows of tests/reference/assessment_checks.csv, which name their sources."""

import csv
from itertools import combinations, permutations
from math import comb
from pathlib import Path
from statistics import NormalDist

import pytest

from trainer.domain.items.hazards import marked_objects, score_hazards
from trainer.domain.items.order import score_order
from trainer.domain.items.placement import effect_score
from trainer.domain.items.quantity import band_ratio, full_marks_between, score_quantity, unit_slip
from trainer.domain.quantities import NEVER
from trainer.domain.scenario import EffectScale, PlacementTest, Point, QuantityBand, SceneObject
from trainer.domain.simulation.distinct import chance_of_a_repeat

ROWS = {
    row["id"]: row
    for row in csv.DictReader(
        (Path(__file__).parents[2] / "reference" / "assessment_checks.csv").read_text().splitlines()
    )
}
USED = {
    "QTY-01", "QTY-02", "QTY-04", "QTY-05", "PLC-01", "HAZ-01", "HAZ-02", "HAZ-04", "HAZ-05", "GUESS-01", "GUESS-02",
    "SDT-08", "ORD-04", "ORD-05", "FAM-COLLIDE",
}  # fmt: skip
# Other ways of scoring, kept beside ours with the reason why ours is another one.
NOT_OURS = {
    "ORD-01": "Kendall's tau counts every pair of a single right order; ours has several right orders",
    "ORD-02": "the same: only cover relations that really have to be kept are counted",
    "MTF-01": "scores of single statements judged right or wrong pay for marking everything; ours takes alarms off",
}
# The partial order of the rows ORD-04 and ORD-05
ORD_04 = [("A", "C"), ("B", "C"), ("C", "D"), ("D", "E"), ("D", "F")]


def expected(row_id: str) -> list[float]:
    return [float(each) for each in ROWS[row_id]["expected"].split()]


def band(key: float = 12.0, *, fails: float = 1.35, more_is_safer: bool = True) -> QuantityBand:
    return QuantityBand(
        key=key, band_ratio=1.15, safe_zero_ratio=3.0, unsafe_zero_ratio=fails, more_is_safer=more_is_safer
    )


def test_every_row_kept_here_is_used_or_told_why_not() -> None:
    assert set(ROWS) == USED | set(NOT_OURS)
    assert not USED & set(NOT_OURS)
    assert all(row["source"] and row["status"][0] in "abcd" for row in ROWS.values())


def test_pairs_of_a_single_right_order_are_counted_otherwise_than_cover_relations() -> None:
    """ORD-02 by its own rule, all fifteen pairs, and by ours, the five neighbours."""
    given_order = "132465"
    pairs = list(combinations("123456", 2))
    kept = sum(given_order.index(first) < given_order.index(then) for first, then in pairs)
    assert 2 * kept / len(pairs) - 1 == pytest.approx(expected("ORD-02")[0], abs=1e-6)
    assert score_order(given_order, precedences=pairs, wrongly_in=0) == pytest.approx(2 * 3 / 5 - 1)


def test_one_broken_precedence_of_five_scores_what_its_row_says() -> None:
    score = float(ROWS["ORD-04"]["expected"].rpartition("score=")[2])
    assert score_order("BCADFE", precedences=ORD_04, wrongly_in=0) == pytest.approx(score, abs=1e-12)


def test_a_random_order_keeps_what_enumeration_says() -> None:
    orders = list(permutations("ABCDEF"))
    kept = [sum(order.index(a) < order.index(b) for a, b in ORD_04) / len(ORD_04) for order in orders]
    assert sum(kept) / len(kept) == pytest.approx(expected("ORD-05")[0], abs=1e-9)


def test_the_best_that_an_unbiased_observer_scores_at_hazards() -> None:
    """d' = 2: hits with chance Phi(1), false alarms with chance 1 - Phi(1); so many of 10 000 objects."""
    objects, share = 10_000, NormalDist().cdf(1.0)
    hits = round(share * objects)
    score = score_hazards(
        weights=[1.0] * objects,
        hits=[n < hits for n in range(objects)],
        false_alarms=objects - hits,
        decoys=objects,
    )
    assert score == pytest.approx(expected("SDT-08")[0], abs=1e-4)  # whole objects: to a ten-thousandth


def test_a_class_meets_the_same_scenario_twice_as_often_as_the_exact_product_says() -> None:
    assert chance_of_a_repeat(1000, attempts=30) == pytest.approx(expected("FAM-COLLIDE")[0], abs=1e-6)


def test_quantity_falls_in_the_log_of_the_ratio_outside_its_band() -> None:
    answers = [13, 18, 36, 10.5, 10, 9, 8.8]
    assert [score_quantity(band(), each) for each in answers] == pytest.approx(expected("QTY-01"), abs=1e-4)


def test_the_same_quantity_in_seconds_scores_the_same() -> None:
    answers = [780, 1080, 2160, 630, 600, 540, 528]
    scores = [score_quantity(band(720.0), each) for each in answers]
    assert scores == pytest.approx([score_quantity(band(), each / 60) for each in answers], abs=1e-12)


def test_a_failing_outcome_inside_the_band_scores_nothing() -> None:
    answers = [11.6, 11.4]
    scores = [score_quantity(band(fails=1.05), each) for each in answers]
    assert scores == pytest.approx(expected("QTY-04"), abs=1e-4)


def test_band_follows_from_the_inputs_uncertainties() -> None:
    assert band_ratio((0.04, 0.05, 0.03)) == pytest.approx(expected("QTY-05")[0], abs=1e-6)


def test_where_less_is_safer_the_sides_change_places() -> None:
    safer = band(more_is_safer=False)
    assert score_quantity(safer, 8.0) == pytest.approx(score_quantity(band(), 18.0))
    assert score_quantity(safer, 12.0 * 1.36) == 0.0


def test_ends_of_full_marks_score_one_and_beyond_them_less() -> None:
    low, high = full_marks_between(band())
    assert score_quantity(band(), low * 1.0001) == score_quantity(band(), high * 0.9999) == 1.0
    assert score_quantity(band(), low * 0.98) < 1.0
    assert score_quantity(band(), high * 1.02) < 1.0


@pytest.mark.parametrize("response", [0.0, -1.0])
def test_nothing_and_less_than_nothing_score_nothing(response: float) -> None:
    assert score_quantity(band(), response) == 0.0


def test_a_wrong_unit_is_named() -> None:
    assert unit_slip(band(), 12.0 / 60.0) is not None
    assert "feet" in (unit_slip(band(), 12.0 * 3.281) or "")
    assert unit_slip(band(), 12.0 * 1.05) is None


def test_placement_is_scored_by_the_oxygen_that_it_leaves() -> None:
    limit = PlacementTest(quantity="root oxygen", good=50e-6, bad=500e-6, misconception="")
    scores = [effect_score(limit, ppm * 1e-6) for ppm in (40, 100, 250, 500)]
    assert scores == pytest.approx(expected("PLC-01"), abs=1e-4)


def test_what_never_comes_scores_nothing() -> None:
    slow = PlacementTest(quantity="time to target", good=60.0, bad=600.0, misconception="")
    assert effect_score(slow, NEVER) == 0.0


def test_a_temperature_falls_by_difference_and_more_can_be_better() -> None:
    warm = PlacementTest(quantity="t", good=60.0, bad=100.0, misconception="", scale=EffectScale.DIFFERENCE)
    assert effect_score(warm, 80.0) == pytest.approx(0.5)
    air = PlacementTest(quantity="y", good=0.195, bad=0.175, misconception="", scale=EffectScale.DIFFERENCE)
    assert [effect_score(air, each) for each in (0.2, 0.185, 0.17)] == pytest.approx([1.0, 0.5, 0.0])


def test_hazards_score_hits_less_false_alarms() -> None:
    cases = [(4, 0), (4, 6), (0, 0), (3, 1), (2, 4)]
    scores = [
        score_hazards(weights=[1.0] * 4, hits=[n < hit for n in range(4)], false_alarms=alarms, decoys=6)
        for hit, alarms in cases
    ]
    assert scores == pytest.approx(expected("HAZ-01"), abs=1e-4)


def test_a_coin_tosser_gets_the_mean_that_enumeration_gives() -> None:
    mean = sum(
        comb(4, hits) * comb(6, alarms) / 2**10
        * score_hazards(weights=[1.0] * 4, hits=[n < hits for n in range(4)], false_alarms=alarms, decoys=6)
        for hits in range(5)
        for alarms in range(7)
    )  # fmt: skip
    assert mean == pytest.approx(expected("HAZ-02")[0], abs=1e-6)


def test_severity_weighs_the_hits() -> None:
    score = score_hazards(
        weights=[3.0, 2.0, 1.0, 1.0], hits=[True, False, True, False], false_alarms=1, decoys=6
    )
    assert score == pytest.approx(expected("HAZ-04")[0], abs=1e-6)


def test_one_scenario_of_eight_lets_luck_through_three_criticals() -> None:
    assert expected("HAZ-05")[0] == 0.5**3  # why a critical rests on several scenarios


def test_a_guesser_of_four_options_has_no_expected_gain_by_formula_score() -> None:
    assert expected("GUESS-01")[0] == 14 - 6 / 3


def test_a_guesser_does_not_reach_the_pass_mark_of_a_long_module() -> None:
    chance = sum(comb(20, right) * 0.25**right * 0.75 ** (20 - right) for right in range(16, 21))
    assert chance == pytest.approx(expected("GUESS-02")[0], rel=0.01)
    assert NormalDist().inv_cdf(1 - chance) > 4.9


def scene() -> list[SceneObject]:
    return [
        SceneObject(id="h1", text="one", sign="one", box=(100, 100, 60, 60)),
        SceneObject(id="h2", text="two", sign="two", box=(200, 100, 60, 60)),
    ]


def test_marks_on_one_object_are_one_mark() -> None:
    marks = ("h1", Point(x=110, y=110), Point(x=150, y=150))
    assert marked_objects(scene(), marks) == (frozenset({"h1"}), 0)


def test_a_mark_just_beside_an_object_counts_for_the_nearest_one() -> None:
    assert marked_objects(scene(), (Point(x=170, y=130),)) == (frozenset({"h1"}), 0)


def test_marks_on_empty_ground_are_one_alarm_a_spot() -> None:
    marks = (Point(x=500, y=300), Point(x=510, y=310), Point(x=700, y=50))
    assert marked_objects(scene(), marks) == (frozenset(), 2)
