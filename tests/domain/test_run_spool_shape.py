"""The shape of spools: split, turned over, vented where the air stays."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from set_up_examples import run_of
from spool_examples import run_part, several_vents, spool, tee

from trainer.domain.quantities import NEVER

FEW = settings(max_examples=15, deadline=None)


@FEW
@given(
    slope=st.floats(-90, 90), share=st.floats(0.2, 0.8), symbol=st.sampled_from(["I1", "I2"]),
    end=st.sampled_from(["diffuser", "open tube"]),
)  # fmt: skip
def test_splitting_a_run_changes_nothing(slope, share, symbol, end):
    whole = [run_part("first", "1 m", slope=f"{slope!r} deg")]
    split = [run_part("first", f"{share!r} m", slope=f"{slope!r} deg"), run_part("last", f"{1 - share!r} m")]
    given_ends = {"gas__symbol": symbol, "inlet__end": end, "inlet__height": 0.5, "vent__height": 0.5}
    one = run_of(**spool(whole, vent="first", **given_ends))
    two = run_of(**spool(split, **given_ends))
    assert two.section.volume_m3 == pytest.approx(one.section.volume_m3)
    assert two.purge.dead_legs == one.purge.dead_legs == ()
    if one.purge.time_to_target_s is NEVER:
        assert two.purge.time_to_target_s is NEVER
    else:
        assert two.purge.time_to_target_s.expected == pytest.approx(
            one.purge.time_to_target_s.expected, rel=1e-3
        )


@FEW
@given(slope=st.floats(-90, 90), along=st.floats(0.1, 0.9), share=st.floats(-1, 1))
def test_turned_upside_down_with_the_gas_turned_over_the_same_places_stay_dead(slope, along, share):
    outlet = share * (90.0 - abs(slope))  # as steep as at right angles it can be

    def turned(sign, symbol):
        path = [
            run_part("first", "500 mm", slope=f"{sign * slope!r} deg"), tee(f"{sign * outlet!r} deg"), run_part("last", "500 mm"),
        ]  # fmt: skip
        placed = {"inlet__height": 0.5, "vent__height": 0.5, "vent__along": along, "gas__symbol": symbol}
        return run_of(**spool(path, **placed))

    argon, helium = turned(1.0, "I1"), turned(-1.0, "I2")
    assert helium.section.pocket_beyond_vent_frac == pytest.approx(
        argon.section.pocket_beyond_vent_frac, abs=1e-9
    )
    assert [(leg.place, leg.mouth) for leg in helium.purge.dead_legs] == [
        (leg.place, leg.mouth) for leg in argon.purge.dead_legs
    ]
    for one, other in zip(argon.purge.dead_legs, helium.purge.dead_legs, strict=True):
        assert (other.volume_m3, other.length_m) == pytest.approx((one.volume_m3, one.length_m))


@FEW
@given(slope=st.floats(10, 90), symbol=st.sampled_from(["I1", "I2"]))
def test_a_vent_where_the_air_stays_takes_the_dead_leg_away(slope, symbol):
    way, height = (slope, 0.95) if symbol == "I1" else (-slope, 0.05)
    open_end = tee(f"{way!r} deg", branch=[run_part("branch", "400 mm")])
    path = [run_part("first", "500 mm"), open_end, run_part("last", "500 mm")]
    low = {"at": "last", "along": 1, "height": 0.5, "diameter": "6 mm"}
    given_ends = {"gas__symbol": symbol, "inlet__height": 0.5}
    (leg,) = run_of(**several_vents(low, **spool(path, **given_ends))).purge.dead_legs
    there = {"at": leg.place, "along": 1, "height": height, "diameter": "6 mm"}
    assert run_of(**several_vents(low, there, **spool(path, **given_ends))).purge.dead_legs == ()
