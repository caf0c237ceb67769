"""What the form of an attempt sends, as the response that is kept, and back into the form."""

import pytest
from flask import Flask
from flask_babel import Babel
from werkzeug.datastructures import MultiDict

from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Handle, Item, ItemKind, Option, SceneObject
from trainer.web.responses import Contradiction, fields_as_sent, fields_of, read

WAIT = Item(id="wait", kind=ItemKind.QUANTITY, skill=6, text="How long?", dimension=Dimension.DURATION)
PLACE = Item(
    id="place", kind=ItemKind.PLACEMENT, skill=4, text="Where?",
    handles=(
        Handle(id="vent", label="Vent height", sets="vent.height", along="height", low=0, high=1, step=0.05, dimension=None),
        Handle(id="dam", label="Left dam", sets="section.left_dam", along="pipe left", low=0.1, high=2, step=0.01, dimension=Dimension.LENGTH),
    ),
)  # fmt: skip
GO = Item(
    id="go",
    kind=ItemKind.CHOICE,
    skill=8,
    text="Go?",
    options=(Option(id="a", text="Go"), Option(id="b", text="Wait")),
)
MARK = Item(
    id="mark", kind=ItemKind.HAZARDS, skill=11, text="Mark every hazard",
    objects=(SceneObject(id="h1", text="vent into the trench", sign="vent", box=(0, 0, 1, 1)), SceneObject(id="h2", text="extinguisher", sign="fire", box=(0, 0, 1, 1))),
)  # fmt: skip

SAY = Item(id="say", kind=ItemKind.EXPLANATION, skill=4, text="Say why.")


@pytest.fixture(autouse=True)
def _page_context():
    app = Flask(__name__)
    Babel(app)
    with app.test_request_context():
        yield


@pytest.mark.parametrize(
    ("item", "sent", "response"),
    [
        (WAIT, {"item-wait": "6", "item-wait-unit": "min"}, "6 min"),
        (WAIT, {"item-wait": "4 min 30 s", "item-wait-unit": "h"}, "4 min 30 s"),
        (WAIT, {"item-wait": "  "}, None),
        (WAIT, {}, None),
        (PLACE, {"item-place-vent": "0.95", "item-place-dam": "300 mm"}, {"vent": "0.95", "dam": "300 mm"}),
        (PLACE, {"item-place-vent": "0.95", "item-place-dam": ""}, {"vent": "0.95"}),
        (PLACE, {}, None),
        (GO, {"item-go": "b"}, "b"),
        (GO, {}, None),
        (MARK, {"item-mark": ["h1", "h2"]}, ["h1", "h2"]),
        (MARK, {"item-mark": ["none-here"]}, []),
        (MARK, {}, None),
    ],
    ids=str,
)  # fmt: skip
def test_what_is_sent_is_the_response(item, sent, response):
    assert read(item, MultiDict(sent)) == response


def test_hazards_and_none_at_once_is_a_contradiction():
    with pytest.raises(Contradiction, match="not both"):
        read(MARK, MultiDict({"item-mark": ["h1", "none-here"]}))


@pytest.mark.parametrize(
    ("item", "response"),
    [
        (WAIT, "6 min"),
        (WAIT, "4 min 30 s"),
        (PLACE, {"vent": "0.95", "dam": "300 mm"}),
        (GO, "b"),
        (MARK, ["h1"]),
        (MARK, []),
        (MARK, None),
        (SAY, "Argon sinks.\nAir rises."),
        (SAY, None),
    ],
    ids=str,
)
def test_a_kept_response_fills_the_form_so_that_sending_it_again_changes_nothing(item, response):
    fields = fields_of(item, 1, response=response, us_units=False)
    sent = MultiDict()
    for box in fields.boxes:
        sent[box.name], sent[f"{box.name}-unit"] = box.typed, box.unit
    sent.setlist(
        f"item-{item.id}",
        [*fields.chosen]
        if item.kind in {ItemKind.CHOICE, ItemKind.HAZARDS}
        else sent.getlist(f"item-{item.id}"),
    )

    assert read(item, sent) == response


def test_units_of_the_persons_system_come_first_and_all_are_offered():
    width = Item(id="w", kind=ItemKind.QUANTITY, skill=3, text="How far?", dimension=Dimension.LENGTH)
    metric = fields_of(width, 1, response=None, us_units=False).boxes[0]
    us = fields_of(width, 1, response=None, us_units=True).boxes[0]

    assert metric.units[0] == metric.unit == "mm"
    assert us.units[0] == us.unit == "in"
    assert set(metric.units) == set(us.units)


def test_a_refused_response_is_shown_as_it_was_typed():
    fields = fields_as_sent(WAIT, 1, sent=MultiDict({"item-wait": "soon", "item-wait-unit": "h"}), fault="no")

    assert (fields.boxes[0].typed, fields.boxes[0].unit, fields.fault) == ("soon", "h", "no")


@pytest.mark.parametrize(
    ("dimension", "hint", "metric", "inch"),
    [
        (Dimension.PRESSURE, "bar", "bar", "psi"),
        (Dimension.PRESSURE, "Pa", "Pa", "inH2O"),
        (Dimension.DURATION, "h or min", "h", "h"),
        (Dimension.VOLUME_FLOW, "L/min or m³/h", "L/min", "cfh"),
        (Dimension.LENGTH, "mm, cm or in", "mm", "in"),
        (Dimension.LENGTH, "m", "m", "ft"),
        (Dimension.FRACTION, "ppm", "ppm", "ppm"),
        (Dimension.PRESSURE, "", "Pa", "inH2O"),
    ],
)
def test_an_empty_box_has_the_unit_beside_it_that_the_item_is_told_in(dimension, hint, metric, inch):
    asked = Item(
        id="much", kind=ItemKind.QUANTITY, skill=7, text="How much?", dimension=dimension, unit_hint=hint
    )
    for us_units, unit in ((False, metric), (True, inch)):
        (box,) = fields_of(asked, 1, response=None, us_units=us_units).boxes
        assert box.unit == unit


def test_what_was_typed_keeps_its_own_unit():
    asked = Item(
        id="p", kind=ItemKind.QUANTITY, skill=7, text="?", dimension=Dimension.PRESSURE, unit_hint="bar"
    )
    (box,) = fields_of(asked, 1, response="700 mbar", us_units=False).boxes

    assert (box.typed, box.unit) == ("700", "mbar")
