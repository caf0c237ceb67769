"""The default policy loads, says where each figure comes from, and every fault of a policy file is named."""

import re

import pytest

from trainer.core.backing_gas import BackingVerdict, GasPart, rule_for_part
from trainer.core.gas import gas
from trainer.core.gas_designation import purge_gas
from trainer.core.terms import MaterialGroup, RootGrade
from trainer.scenario_files import ContentFault
from trainer.scenario_files.policy_file import DEFAULT_POLICY, load_policy

_TEXT = DEFAULT_POLICY.read_text(encoding="utf-8")
_POLICY = load_policy(DEFAULT_POLICY)


def _load(tmp_path, text):
    path = tmp_path / "policy.toml"
    path.write_text(text, encoding="utf-8")
    return load_policy(path)


def _lines(tmp_path, *changes):
    text = _TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    with pytest.raises(ContentFault) as caught:
        _load(tmp_path, text)
    return caught.value.lines


def test_every_material_has_a_limit_and_everything_says_who_recommends_it():
    assert set(_POLICY.oxygen_limits) == set(MaterialGroup)
    backing = [rule_for_part(part, group=group) for part in GasPart for group in MaterialGroup]
    named = [*_POLICY.oxygen_limits.values(), *_POLICY.thresholds, *backing]
    assert all(each.source and each.status[0] in "abcd" for each in named)
    assert _POLICY.qualification.source


def test_the_figures_that_the_law_sets_are_the_laws():
    # 29 CFR 1910.146(b): oxygen deficient is less than 19.5 % by volume.
    row = next(each for each in _POLICY.thresholds if each.quantity == "breathing.oxygen")
    assert (row.compare, row.value, row.unit) == ("<", 0.195, "%")


def test_the_lost_root_is_that_of_the_table():
    assert _POLICY.lost_root_ratio == _POLICY.threshold("root-lost").value == 10.0
    assert _POLICY.pass_mark_frac == 0.80


def test_titanium_takes_the_least_oxygen_and_no_nitrogen():
    assert min(_POLICY.oxygen_limits, key=lambda group: _POLICY.oxygen_limits[group].frac) == "titanium"
    assert _POLICY.backing_rule(gas("N1"), material=MaterialGroup.TITANIUM).verdict is BackingVerdict.NEVER
    assert _POLICY.backing_rule(gas("N1"), material=None) is None


_OWN_RULE = """
[[gas_rules]]
material = "{material}"
part = "{part}"
verdict = "{verdict}"
why = "the owner says so"
source = "the owner's specification"
status = "d"
"""


def test_a_site_may_put_its_own_rule_in_place_of_a_default(tmp_path):
    text = _TEXT + _OWN_RULE.format(material="austenitic stainless", part="nitrogen", verdict="never")
    text += _OWN_RULE.format(material="carbon steel", part="inert", verdict="recommended")
    own = _load(tmp_path, text)
    stainless, mixed = MaterialGroup.AUSTENITIC_STAINLESS, purge_gas("N4", composition="ArHN-5/2")
    assert own.backing_rule(mixed, material=stainless).source == "the owner's specification"
    assert _POLICY.backing_rule(mixed, material=stainless).verdict is BackingVerdict.BY_PROCEDURE
    assert own.backing_rule(gas("I1"), material=stainless).verdict is BackingVerdict.RECOMMENDED
    assert _POLICY.needs_no_purge(MaterialGroup.CARBON_STEEL)
    assert not own.needs_no_purge(MaterialGroup.CARBON_STEEL)


def test_a_rule_of_a_site_names_its_faults(tmp_path):
    with pytest.raises(ContentFault) as caught:
        _load(tmp_path, _TEXT + _OWN_RULE.format(material="iron", part="N1", verdict="no"))
    lines = "\n".join(caught.value.lines)
    assert "gas_rules[0].verdict" in lines
    assert "accepted: recommended, not needed, by procedure, never" in lines
    assert "accepted: inert, nitrogen, hydrogen" in lines
    assert "gas_rules[0].material" in lines


def test_a_site_may_replace_the_grades_of_a_material(tmp_path):
    uppers = "\n".join(
        f'{grade} = "{10 * (place + 1)} ppm"' for place, grade in enumerate(list(RootGrade)[:-1])
    )
    own = _load(tmp_path, f"{_TEXT}\n[root_grades.titanium]\n{uppers}\n")
    assert own.root_grades[MaterialGroup.TITANIUM][RootGrade.BRIGHT] == pytest.approx(1e-5)
    assert MaterialGroup.DUPLEX not in own.root_grades


def test_grades_that_fall_are_refused(tmp_path):
    uppers = "\n".join(f'{grade} = "{100 - place} ppm"' for place, grade in enumerate(list(RootGrade)[:-1]))
    with pytest.raises(ContentFault, match="root_grades.titanium: each grade reaches"):
        _load(tmp_path, f"{_TEXT}\n[root_grades.titanium]\n{uppers}\n")


@pytest.mark.parametrize(
    ("old", "new", "key", "says"),
    [
        ("pass_mark = 0.80", "pass_mark = 80", "pass_mark", "80 is not accepted; accepted: above 0 up to 1"),
        ("pass_mark = 0.80", "pas_mark = 0.80", "pas_mark", "unknown key; accepted here: version"),
        ("pass_mark = 0.80", "", "pass_mark", "missing"),
        ('[oxygen_limits.titanium]', '[oxygen_limits.iron]', "oxygen_limits.iron", "unknown key; accepted here: carbon steel"),
        ('oxygen = "20 ppm"', 'oxygen = "20"', "oxygen_limits.titanium.oxygen", "'20' has no unit"),
        ('oxygen = "20 ppm"', "oxygen = 20", "oxygen_limits.titanium.oxygen", "20 is not accepted"),
        ('oxygen = "20 ppm"', 'oxygen = "50 %"', "oxygen_limits.titanium.oxygen", "accepted: above 0 up to 20 %"),
        ('status = "c"', 'status = "x"', "oxygen_limits.austenitic stainless.status", "accepted: a, b, c or d"),
        ('compare = "<="', 'compare = "=<"', "thresholds[0].compare", "accepted: >= > <= <"),
        ('value = "0 m"', 'value = "0"', "thresholds[0].value", "has no unit"),
        ('quantity = "breathing.oxygen"', 'quantity = "oxygen"', "thresholds[1].quantity", "people.face_above_pool"),
        ("site_may_change = false", 'site_may_change = "no"', "thresholds[0].site_may_change", "true or false"),
        ('code = "root-lost"', 'code = "root-gone"', "thresholds", "a row with the code 'root-lost'"),
        ("validity_months = 24", "validity_months = 0", "qualification.validity_months", "a whole number"),
        ("due_days = 30", "due_days = true", "qualification.due_days", "a whole number"),
        ("length_to_ratio = 2.0", 'length_to_ratio = "2"', "qualification.length_to_ratio", "above 0 up to 100"),
    ],
)  # fmt: skip
def test_a_fault_names_file_key_and_what_is_accepted(tmp_path, old, new, key, says):
    lines = _lines(tmp_path, (old, new))
    line = next(each for each in lines if each.startswith(f"policy.toml: {key}:"))
    assert says in line


def test_all_faults_of_a_file_are_named_at_once(tmp_path):
    lines = _lines(tmp_path, ("pass_mark = 0.80", "pass_mark = 2"), ("due_days = 30", "due_days = 0"))
    assert [line.split(": ")[1] for line in lines] == ["qualification.due_days", "pass_mark"]


@pytest.mark.parametrize("text", ["pass_mark = ", "", "thresholds = 3\ngas_rules = []\nqualification = 1"])
def test_what_is_no_policy_is_refused(tmp_path, text):
    with pytest.raises(ContentFault, match=re.escape("policy.toml: ")):
        _load(tmp_path, text)


def test_a_missing_file_is_named(tmp_path):
    with pytest.raises(ContentFault, match="policy.toml: file: .*No such file"):
        load_policy(tmp_path / "policy.toml")


def test_a_huge_file_is_refused(tmp_path):
    with pytest.raises(ContentFault, match="accepted up to 1000000"):
        _load(tmp_path, "#" * 1_000_001)
