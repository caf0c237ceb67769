"""Shapes that every scorer has, whatever its numbers."""

from hypothesis import assume, given
from hypothesis import strategies as st

from trainer.domain.items.choice import choice_outcome
from trainer.domain.items.hazards import marked_objects, score_hazards
from trainer.domain.items.order import covers, score_order
from trainer.domain.items.placement import Effect, effect_score, placement_outcome
from trainer.domain.items.quantity import score_quantity
from trainer.domain.items.reading import score_reading
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import (
    Answer,
    EffectScale,
    Handle,
    Item,
    ItemKind,
    Option,
    PlacementTest,
    QuantityBand,
    ReadingBand,
    SceneObject,
)
from trainer.scenario_files import parse_response

KEYS = st.floats(1e-6, 1e6)
RATIOS = st.floats(1.001, 5.0)
BANDS = st.builds(
    QuantityBand,
    key=KEYS,
    band_ratio=RATIOS,
    safe_zero_ratio=st.floats(1.5, 20.0),
    unsafe_zero_ratio=RATIOS,
    more_is_safer=st.booleans(),
)


@given(BANDS, st.floats(1e-9, 1e9))
def test_quantity_scores_lie_between_nothing_and_one(band: QuantityBand, response: float) -> None:
    assert 0.0 <= score_quantity(band, response) <= 1.0


@given(BANDS)
def test_the_key_scores_one(band: QuantityBand) -> None:
    assert score_quantity(band, band.key) == 1.0


@given(BANDS, st.floats(0.01, 100.0), st.floats(0.0, 1.0))
def test_moving_towards_the_key_never_lowers_a_quantity(
    band: QuantityBand, ratio: float, share: float
) -> None:
    far = band.key * ratio
    near = band.key * ratio**share
    assert score_quantity(band, near) >= score_quantity(band, far) - 1e-12


@given(BANDS, st.floats(0.01, 100.0), st.floats(1e-3, 1e3))
def test_other_units_score_the_same(band: QuantityBand, ratio: float, unit: float) -> None:
    scaled = QuantityBand(**{**band.__dict__, "key": band.key * unit})
    assert abs(
        score_quantity(band, band.key * ratio) - score_quantity(scaled, scaled.key * ratio)
    ) < 1e-6 or (abs(ratio ** (-1 if band.more_is_safer else 1) - band.unsafe_zero_ratio) < 1e-6)


@given(BANDS, st.floats(1.0, 100.0))
def test_from_the_failing_ratio_on_a_quantity_scores_nothing(band: QuantityBand, beyond: float) -> None:
    away = band.unsafe_zero_ratio * beyond * (1 + 1e-9)
    assert score_quantity(band, band.key / away if band.more_is_safer else band.key * away) == 0.0


@given(st.floats(1e-6, 0.1), st.floats(1.1, 100.0), st.floats(1e-9, 1.0), st.floats(1e-9, 1.0))
def test_a_worse_effect_never_scores_more(good: float, times: float, one: float, other: float) -> None:
    test = PlacementTest(quantity="root oxygen", good=good, bad=good * times, misconception="")
    better, worse = sorted((one, other))
    assert 0.0 <= effect_score(test, worse) <= effect_score(test, better) <= 1.0


@given(
    st.lists(st.tuples(st.floats(0.1, 5.0), st.booleans()), min_size=1, max_size=8),
    st.integers(0, 8),
    st.integers(1, 8),
)
def test_each_mark_moves_a_hazards_score_its_own_way(
    hazards: list[tuple[float, bool]], alarms: int, decoys: int
) -> None:
    weights = [weight for weight, _ in hazards]
    hits = [hit for _, hit in hazards]
    score = score_hazards(weights=weights, hits=hits, false_alarms=alarms, decoys=decoys)
    assert 0.0 <= score <= 1.0
    assert score_hazards(weights=weights, hits=hits, false_alarms=alarms + 1, decoys=decoys) <= score
    assert (
        score_hazards(weights=weights, hits=[True] * len(hits), false_alarms=alarms, decoys=decoys) >= score
    )


@given(st.integers(1, 8), st.integers(1, 8))
def test_marking_everything_or_nothing_scores_nothing(hazards: int, decoys: int) -> None:
    every = score_hazards(weights=[1.0] * hazards, hits=[True] * hazards, false_alarms=decoys, decoys=decoys)
    nothing = score_hazards(weights=[1.0] * hazards, hits=[False] * hazards, false_alarms=0, decoys=decoys)
    assert every == nothing == 0.0


@given(st.lists(st.sampled_from("abcdef"), max_size=12))
def test_marks_count_once_in_any_order(marks: list[str]) -> None:
    objects = [SceneObject(id=each, text=each, sign="x", box=(0, 0, 60, 60)) for each in "abcdef"]
    assert marked_objects(objects, marks) == marked_objects(objects, sorted(set(marks)))


# Typed in one unit or another: what is marked is the same. Exact factors: 1 ft = 0.3048 m, 1 in = 25.4 mm.
LENGTH = Item(
    id="reach", kind=ItemKind.QUANTITY, skill=6, text="How far?", sets=("section.left_dam",),
    dimension=Dimension.LENGTH,
)  # fmt: skip
WAIT = Item(
    id="wait", kind=ItemKind.QUANTITY, skill=6, text="How long?", sets=("wait",), dimension=Dimension.DURATION
)


@given(BANDS, st.integers(2, 90))
def test_a_length_typed_in_feet_inches_or_millimetres_scores_the_same(
    band: QuantityBand, tenths: int
) -> None:
    typed = [f"{tenths / 10:g} ft", f"{tenths * 1.2:.10g} in", f"{tenths * 30.48:.10g} mm"]
    scaled = QuantityBand(**{**band.__dict__, "key": 1.0})
    responses = [parse_response(LENGTH, each) for each in typed]
    assume(all(_is_off_the_edge(scaled, each) for each in responses))
    scores = [score_quantity(scaled, each) for each in responses]
    assert max(scores) - min(scores) < 1e-6


@given(BANDS, st.integers(1, 400))
def test_a_time_typed_in_minutes_or_seconds_scores_the_same(band: QuantityBand, halves: int) -> None:
    scaled = QuantityBand(**{**band.__dict__, "key": 600.0})
    responses = [parse_response(WAIT, each) for each in (f"{halves / 2:g} min", f"{halves * 30} s")]
    assume(all(_is_off_the_edge(scaled, each) for each in responses))
    scores = [score_quantity(scaled, each) for each in responses]
    assert abs(scores[0] - scores[1]) < 1e-6


def _is_off_the_edge(band: QuantityBand, response: float) -> bool:
    """Away from the failing ratio by more than a float's last digit: there the score may drop at once."""
    ratio = response / band.key
    return abs((1.0 / ratio if band.more_is_safer else ratio) / band.unsafe_zero_ratio - 1.0) > 1e-9


@given(
    st.floats(0.01, 1e6),
    st.floats(1.01, 10.0),
    st.floats(-1e6, 1e6),
    st.floats(0.0, 1e6),
    st.floats(1e-3, 1e3),
)
def test_readings_are_bounded_nearer_is_no_worse_and_units_do_not_count(
    tolerance: float, times: float, key: float, away: float, unit: float
) -> None:
    band = ReadingBand(tolerance=tolerance, zero_at=tolerance * times)
    other = ReadingBand(tolerance=tolerance * unit, zero_at=tolerance * times * unit)
    score = score_reading(band, key=key, response=key + away)
    assert 0.0 <= score <= score_reading(band, key=key, response=key + away / 2.0) + 1e-6 <= 1.0 + 1e-6
    assert abs(score_reading(other, key=key * unit, response=(key + away) * unit) - score) < 1e-3
    assert score_reading(band, key=key, response=key) == 1.0


@given(
    st.floats(-50.0, 50.0), st.floats(0.1, 100.0), st.booleans(), st.floats(-200.0, 200.0), st.floats(-200.0, 200.0)
)  # fmt: skip
def test_an_effect_by_difference_is_bounded_and_worse_is_never_more(
    good: float, apart: float, rises: bool, one: float, other: float
) -> None:
    bad = good + apart if rises else good - apart
    test = PlacementTest(quantity="q", good=good, bad=bad, misconception="", scale=EffectScale.DIFFERENCE)
    better, worse = sorted((one, other), reverse=not rises)
    assert 0.0 <= effect_score(test, worse) <= effect_score(test, better) <= 1.0


@given(st.lists(st.floats(1e-6, 1.0), min_size=1, max_size=4), st.floats(1e-6, 1.0))
def test_one_more_effect_never_raises_a_placement(values: list[float], more: float) -> None:
    handle = Handle(
        id="vent", label="", sets="vent.height", along="height", low=0.1, high=0.9, step=0.1, dimension=None
    )
    item = Item(id="hole", kind=ItemKind.PLACEMENT, skill=4, text="", handles=(handle,))
    test = PlacementTest(quantity="root oxygen", good=1e-4, bad=1e-2, misconception="")
    effects = [Effect(test=test, value=each) for each in (*values, more)]
    fewer = placement_outcome(item, effects=effects[:-1]).score
    assert fewer is not None
    score = placement_outcome(item, effects=effects).score
    assert score is not None
    assert 0.0 <= score <= fewer <= 1.0


@given(st.permutations("ABCDEF"), st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5)), min_size=1))
def test_putting_right_two_neighbours_never_lowers_an_order(
    order: list[str], drawn: list[tuple[int, int]]
) -> None:
    pairs = {("ABCDEF"[low], "ABCDEF"[high]) for low, high in map(sorted, drawn) if low < high}
    assume(pairs)
    wrong = [at for at in range(5) if (order[at + 1], order[at]) in covers(pairs)]
    assume(wrong)
    better = list(order)
    better[wrong[0]], better[wrong[0] + 1] = better[wrong[0] + 1], better[wrong[0]]
    before = score_order(order, precedences=pairs, wrongly_in=0)
    assert 0.0 <= before <= score_order(better, precedences=pairs, wrongly_in=0) <= 1.0


@given(st.sampled_from("abcd"), st.sampled_from([*"abcd", None]), st.booleans())
def test_a_choice_scores_its_key_alone_and_a_wrong_one_never_better_than_none(
    key: str, response: str | None, critical: bool
) -> None:
    item = Item(
        id="way",
        kind=ItemKind.CHOICE,
        skill=4,
        text="",
        options=tuple(Option(id=each, text=each) for each in "abcd"),
    )
    outcome = choice_outcome(
        item, answer=Answer(item_id="way", key=key, critical=critical), response=response
    )
    assert outcome.score == (1.0 if response == key else 0.0)
    assert outcome.critical_missed == (critical and response != key)
