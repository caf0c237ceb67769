"""How far dams have to come out, and what their ropes hang out by. Worked by hand from the lengths given."""

import pytest
from set_up_examples import POLICY, set_up

from trainer.domain.core_results import CoreResults, NotKnown


def two_dams(**changes):
    section = {"left_dam": "0.3 m", "right_dam": "0.5 m", "left_end": "6 m", "right_end": "9 m"}
    dams = [{"side": "left", "kind": "foam", "rope": "7 m"}, {"side": "right", "kind": "foam", "rope": "8 m"}]
    return set_up(section={**section, **changes}, dams=dams)


def asked(name, of):
    return CoreResults(POLICY).result(of, name)


def test_the_longest_way_out_is_that_of_the_dam_further_from_its_open_end():
    assert asked("way out", two_dams()) == pytest.approx(8.5)  # 9 - 0.5, against 6 - 0.3


def test_the_rope_that_reaches_out_least_tells_what_is_to_spare():
    assert asked("rope to spare", two_dams()) == pytest.approx(-0.5)  # 8 - 8.5, against 7 - 5.7


def test_without_an_open_end_no_way_out_is_told():
    closed = set_up(section={"left_dam": "0.3 m"}, dams=[{"side": "left", "kind": "foam", "rope": "7 m"}])
    with pytest.raises(NotKnown):
        asked("way out", closed)
