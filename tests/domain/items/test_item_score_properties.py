"""Shapes that every scorer has, whatever its numbers."""

from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.items.hazards import score_hazards
from trainer.domain.items.placement import effect_score
from trainer.domain.items.quantity import score_quantity
from trainer.domain.scenario import PlacementTest, QuantityBand

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
