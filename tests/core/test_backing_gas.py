"""Which gas may stand behind which root."""

import pytest

from trainer.core.backing_gas import BackingRule, BackingVerdict, GasPart, backing_rule
from trainer.core.errors import UnknownGas
from trainer.core.gas import AIR, gas
from trainer.core.gas_designation import purge_gas
from trainer.core.tables import table_rows
from trainer.core.terms import MaterialGroup


@pytest.mark.parametrize(
    ("symbol", "composition", "group", "verdict"),
    [
        ("I1", None, MaterialGroup.TITANIUM, BackingVerdict.RECOMMENDED),
        ("N1", None, MaterialGroup.TITANIUM, BackingVerdict.NEVER),
        ("R1", "ArH-2", MaterialGroup.TITANIUM, BackingVerdict.NEVER),
        ("N5", "NH-10", MaterialGroup.AUSTENITIC_STAINLESS, BackingVerdict.BY_PROCEDURE),
        ("N1", None, MaterialGroup.DUPLEX, BackingVerdict.RECOMMENDED),
        ("N2", "ArN-2", MaterialGroup.SUPER_DUPLEX, BackingVerdict.RECOMMENDED),
        ("N5", "NH-5", MaterialGroup.DUPLEX, BackingVerdict.NEVER),
        ("N4", "ArHN-5/2", MaterialGroup.SUPER_DUPLEX, BackingVerdict.NEVER),
        ("R1", "ArH-5", MaterialGroup.CHROMIUM_MOLYBDENUM, BackingVerdict.NEVER),
        ("R1", "ArH-5", MaterialGroup.NICKEL_ALLOY, BackingVerdict.BY_PROCEDURE),
        ("I3", "ArHe-50", MaterialGroup.NICKEL_ALLOY, BackingVerdict.RECOMMENDED),
        ("I1", None, MaterialGroup.CARBON_STEEL, BackingVerdict.NOT_NEEDED),
    ],
)
def test_strictest_part_of_a_gas_decides_behind_a_root(symbol, composition, group, verdict):
    """Trade rules with the sources that data/backing_gases.csv names."""
    assert backing_rule(purge_gas(symbol, composition=composition), group=group).verdict is verdict


def test_each_material_has_a_line_for_each_part_with_source_and_status():
    rows = table_rows("backing_gases")
    assert {(row["group"], row["part"]) for row in rows} == {
        (group.value, part) for group in MaterialGroup for part in ("inert", "nitrogen", "hydrogen")
    }
    assert all(row["why"] and row["source"] and row["status"] in "abcd" for row in rows)


def test_air_is_no_backing_gas():
    with pytest.raises(UnknownGas, match="AIR"):
        backing_rule(AIR, group=MaterialGroup.DUPLEX)


def test_rule_of_the_table_comes_whole():
    rule = backing_rule(gas("N1"), group=MaterialGroup.TITANIUM)
    row = next(r for r in table_rows("backing_gases") if (r["group"], r["part"]) == ("titanium", "nitrogen"))
    assert [rule.verdict.value, rule.part, rule.why, rule.source, rule.status] == [
        row[key] for key in ("verdict", "part", "why", "source", "status")
    ]


def test_a_sites_own_rule_stands_in_place_of_the_default_for_its_part_only():
    own = BackingRule(
        group=MaterialGroup.AUSTENITIC_STAINLESS, part=GasPart.NITROGEN, verdict=BackingVerdict.NEVER,
        why="the owner prohibits it", source="site", status="d",
    )  # fmt: skip

    def verdict(symbol, composition=None, group=MaterialGroup.AUSTENITIC_STAINLESS):
        used = purge_gas(symbol, composition=composition)
        return backing_rule(used, group=group, own_rules=(own,)).verdict

    assert verdict("N1") is verdict("N2", "ArN-2") is BackingVerdict.NEVER
    assert verdict("R1", "ArH-5") is BackingVerdict.BY_PROCEDURE
    assert verdict("I1") is verdict("N1", group=MaterialGroup.DUPLEX) is BackingVerdict.RECOMMENDED
