"""A family with few and round numbers, so that its working can be followed with pencil and paper.

The pipe is 104 mm outside with a wall of 2 mm, so its bore is 100 mm; the dams stand 300 mm either side, the flow is 10 L/min.
"""

from trainer.domain.drawn import Drawn
from trainer.domain.family import ScenarioFamily
from trainer.domain.set_up import SetUp
from trainer.domain.templates import with_templates
from trainer.scenario_files import load_content

TEXT = """
title = "By hand"
subtitle = "at the desk"
skills = [6]
situation = "A short section."

[[draw]]
name = "flow"
of = ["10 L/min"]

[set_up]
material = "austenitic stainless"
pipe = { outside_diameter = "104 mm", wall = "2 mm" }
section = { left_dam = "300 mm", right_dam = "300 mm", slope = "0 deg" }
inlet = { height = 0.1, end = "diffuser", bore = "6 mm", face_area = "20 cm^2" }
vent = { height = 0.9, diameter = "6 mm", count = 1 }
joint = { gap = "2 mm", taped = 1.0 }
gas = { symbol = "I1", oxygen = "5 ppm" }
flow = { purge = "{flow}" }
target.oxygen = "0.2 %"
temperature = "20 degC"

[[fact]]
label = "Purge flow"
path = "flow.purge"

[figure.volume]
result = "section volume"
unit = "L"
digits = 3

[figure.change]
result = "one volume change"
unit = "min"
digits = 2

[figure.changes]
result = "volume changes to target"

[[item]]
id = "wait"
kind = "quantity"
skill = 6
text = "How long?"
sets = ["wait"]
unit_hint = "min"
result = "time to target"
outcome = "root oxygen"
limit = "0.2 %"
fails_above = true
more_is_safer = true
nearest = "30 s"

[[item.solution]]
what = "One change of the section"
formula = "V = (π/4) · D² · L; t₁ = V / Q"
words = "volume V is the area of the bore times the length L; the time t₁ is that volume divided by the flow Q"
numbers = "{volume} / {flow}"
result = "{change}"
rule = "Geometry."
caution = "The analyser decides; the site's permit comes first."
thumb = { THUMB }
"""


def small_family(thumb: str = 'says = "a minute a foot"', *changes: tuple[str, str]) -> ScenarioFamily:
    """The family with a rule of thumb of one's own, and with texts changed."""
    text = TEXT.replace("THUMB", thumb)
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return load_content().own_family("by-hand", text=text)


def drawn_of(family: ScenarioFamily, *, difficulty: float = 0.0) -> Drawn:
    """Its one draw."""
    values = {each.name: each.choices[0].value for each in family.draws}
    drawn = Drawn(family=family, difficulty=difficulty, values=values, policy=load_content().policy)
    drawn.go_on_from(with_templates(SetUp(), family.set_up, values))
    return drawn
