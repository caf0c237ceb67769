"""Values of a set-up are reached by the dotted paths that files and items use."""

import pytest
from set_up_examples import set_up

from trainer.domain.errors import Missing
from trainer.domain.quantities import Dimension, FieldKind
from trainer.domain.set_up import DamKind, Section, SetUp
from trainer.domain.set_up_paths import spec_at, value_at, with_value, with_values, without_empty_parts


def test_a_value_is_read_where_the_path_leads():
    assert value_at(set_up(), "section.left_dam") == pytest.approx(0.3)
    assert value_at(set_up(), "dams.0.kind") is DamKind.FOAM
    assert value_at(set_up(), "wait") == pytest.approx(360.0)


@pytest.mark.parametrize("path", ["section.left_dam", "dams.0.kind", "wait"])
def test_nothing_known_is_none_all_along_the_path(path):
    assert value_at(SetUp(), path) is None


@pytest.mark.parametrize("path", ["sektion.left_dam", "section.left", "section.left_dam.deeper", ""])
def test_a_path_that_leads_nowhere_is_missing(path):
    with pytest.raises(Missing, match="field of a set-up"):
        spec_at(path)
    with pytest.raises(Missing):
        with_value(SetUp(), path, 1.0)


def test_the_declaration_stands_at_the_end_of_the_path():
    assert spec_at("vent.height").kind is FieldKind.NUMBER
    assert spec_at("leaks.3.area").dimension is Dimension.AREA


def test_a_value_is_set_and_the_parts_on_the_way_are_made():
    changed = with_value(SetUp(), "section.left_dam", 0.4)
    assert changed == SetUp(section=Section(left_dam_m=0.4))
    assert value_at(with_value(SetUp(), "dams.1.kind", DamKind.TAPE), "dams.1.kind") is DamKind.TAPE


def test_setting_leaves_everything_else_alone():
    changed = with_values(set_up(), {"vent.height": 0.5, "dams.0.thickness": 0.2})
    assert value_at(changed, "vent.diameter") == value_at(set_up(), "vent.diameter")
    assert value_at(changed, "dams.0.kind") is DamKind.FOAM
    assert (value_at(changed, "vent.height"), value_at(changed, "dams.0.thickness")) == (0.5, 0.2)


def test_a_part_of_which_nothing_is_known_can_be_left_out():
    emptied = with_value(SetUp(section=Section(left_dam_m=0.4)), "section.left_dam", None)
    assert without_empty_parts(emptied) == SetUp()
