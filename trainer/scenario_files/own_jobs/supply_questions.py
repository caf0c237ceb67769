"""Questions about the supply, the gas in it, and the dams that keep it in."""

from typing import Any

from trainer import units
from trainer.domain.own_jobs import AskKind
from trainer.domain.quantities import Dimension
from trainer.scenario_files.own_jobs.parts import Question, Written, figure, item

_CLEAR = 1.06
# Contents gauges and how they are divided: common practice, no source.
_DIALS = (
    ("25 bar", "0.5 bar"),
    ("40 bar", "1 bar"),
    ("100 bar", "2 bar"),
    ("250 bar", "5 bar"),
    ("400 bar", "10 bar"),
)
_PLAIN = {"I1": "Ar", "I2": "He", "N1": "N"}  # what a symbol of one gas holds
_REACH_M = 3.0


def _now(question: Question) -> tuple[str, dict[str, Any]]:
    """The set-up with the supply and the times as they were told, whatever was answered before."""
    told = {"supply": {"pressure": question.told("supply.pressure")}, "wait": question.told("wait")}
    return question.named("told"), told


def supply_lasts(question: Question) -> Written:
    """How far the supply goes."""
    now, told = _now(question)
    usable = {"of": now, "result": "supply usable"}
    enough = {"of": now, "result": "gas needed", "below": usable, "clear": _CLEAR}
    short = {"of": now, "result": "gas needed", "above": usable, "clear": _CLEAR}
    early = {"of": now, "result": "gas_used.before_arc_l", "above": usable, "clear": _CLEAR}
    late = {"of": now, "result": "gas_used.before_arc_l", "below": usable, "clear": 1.2}
    stop = question.told("supply.stop_pressure")
    options = [
        {
            "text": f"To the end, with gas to spare above {stop}",
            "belief": "Anything on the gauge does for one joint.",
            "when": [enough],
        },
        {
            "text": "It runs short while the joint is welded or cools",
            "belief": "It must run dry under the arc: work out what the purge and the hold take.",
            "when": [short, late],
        },
        {
            "text": "It runs short before the purge is over and an arc is struck",
            "belief": "A gauge like this is an empty cylinder: work out what is in it.",
            "when": [early],
        },
        {
            "text": f"To the end, since the last {stop} do as well as all that went before",
            "belief": "Gas is gas to the last bar: what is left keeps air and moisture out of the cylinder.",
        },
    ]
    usable_figure, needed, before = map(question.named, ("usable", "needed", "before"))
    more = {
        "kind": "choice",
        "count": 4,
        "option": options,
        "solution": [
            {
                "what": f"Gas in the supply above {stop}",
                "formula": "V = V_water · (p - p_stop) / 1 bar, for real gas at its temperature",
                "result": f"{{{usable_figure}}}",
            },
            {
                "what": "Gas that the joint takes",
                "formula": "V = Q_purge · t_purge + Q_hold · t_hold",
                "result": f"{{{needed}}}, of which {{{before}}} before the arc",
                "rule": (
                    "Contents and need at 15 °C and 1 bar. No joint is begun without the gas for all of "
                    "it: common practice, no source."
                ),
            },
        ],
    }
    is_read = any(each.kind is AskKind.PRESSURE for each in question.sheet.asked)
    shows = "as you read it" if is_read else question.told("supply.pressure")
    text = f"The gauge shows {shows}. How far does the supply go?"
    return Written(
        item=item(question, text=text, skill=7, more=more),
        figures={
            usable_figure: figure("supply usable", of=now, unit="m^3", digits=3),
            needed: figure("gas needed", of=now, unit="m^3", digits=3),
            before: figure("gas_used.before_arc_l", of=now, unit="m^3", digits=3),
        },
        variants={now: told},
    )


def gauge_at_least(question: Question) -> Written:
    """What the gauge has to show before the joint is begun."""
    now, told = _now(question)
    needed, begin = question.named("needed"), question.named("begin")
    more = {
        "kind": "quantity",
        "sets": ["supply.pressure"],
        "unit_hint": "bar",
        "result": "supply.change_below_bar",
        "outcome": "supply usable",
        "limit": {"of": now, "result": "gas needed"},
        "fails_above": False,
        "more_is_safer": True,
        "nearest": "0.5 bar",
        "input_uncertainties": [0.03, 0.03],
        "solution": [
            {
                "what": "Gas of the joint as pressure in the cylinders, and what has to stay in them",
                "formula": "p = V_joint / V_water · 1 bar + p_stop, for real gas at its temperature",
                "numbers": f"V_joint = {{{needed}}}",
                "result": f"{{{begin}}}",
                "rule": "Read flow and time to 3 % each and take the high end.",
            }
        ],
    }
    text = (
        "With these flows and times: what does the gauge have to show at least before the joint is "
        "begun? To the nearest half bar (7 psi)."
    )
    return Written(
        item=item(question, text=text, skill=7, more=more),
        figures={
            needed: figure("gas needed", of=now, unit="m^3", digits=3),
            begin: figure("supply.change_below_bar", of=now, unit="bar", digits=3),
        },
        variants={now: told},
    )


def pressure_gauge(question: Question) -> Written:
    """A contents gauge to be read."""
    pressure = question.told("supply.pressure")
    height_pa = units.parse(pressure, Dimension.PRESSURE)
    fitting = (each for each in _DIALS if units.parse(each[0], Dimension.PRESSURE) >= 1.15 * height_pa)
    high, division = next(fitting, _DIALS[-1])
    more = {
        "kind": "reading",
        "instrument": "pressure gauge",
        "path": "supply.pressure",
        "sets": ["supply.pressure"],
        "unit_hint": "bar",
        "low": "0 bar",
        "high": high,
        "division": division,
        "zero": 4.0,
        "solution": [
            {
                "what": f"A small division is {division}; look square at the dial",
                "result": pressure,
                "rule": "Common practice, no source.",
            }
        ],
    }
    text = "The contents gauge stands like this. What does it show?"
    return Written(item=item(question, text=text, skill=7, more=more))


def choice_of_gas(question: Question) -> Written:
    """The sheet's gas among others; which one suits the material as it is, the core says."""
    beliefs = {each.answer: each.belief for each in question.asked.wrong}
    own = " ".join(str(question.sheet.set_up.get(each, "")) for each in ("gas.symbol", "gas.composition"))
    offered = list(dict.fromkeys((own.strip(), *beliefs)))
    names = [question.named(f"gas_{place}") for place in range(1, len(offered) + 1)]
    options, variants, figures, steps = [], {}, {}, []
    for place, (gas, name) in enumerate(zip(offered, names, strict=True), start=1):
        symbol, _, composition = gas.partition(" ")
        composition = composition.strip() or _PLAIN.get(symbol, "")
        sets = {"gas.symbol": symbol, "gas.composition": composition}
        words = f"ISO 14175 - {symbol}" + (f" - {composition}" if composition else "")
        options.append(
            {
                "text": words,
                "belief": beliefs.get(
                    gas, "What hangs on the rack is what goes in: look it up for the metal."
                ),
                "when": [{"of": name, "result": "gas.verdict", "is": "recommended"}],
                "sets": sets,
            }
        )
        variants[name] = {"gas": {"symbol": symbol, "composition": composition}}
        figures[question.named(f"says_{place}")] = figure("gas.verdict", of=name)
        steps.append({"what": words, "result": f"{{{question.named(f'says_{place}')}}}"})
    steps[-1]["rule"] = (
        "The strictest part of a gas decides; a qualified procedure that names a gas goes before."
    )
    more = {
        "kind": "choice",
        "sets": ["gas.symbol", "gas.composition"],
        "count": len(options),
        "option": options,
        "solution": steps,
    }
    text = "Which of these gases goes behind this root without asking anybody?"
    return Written(item=item(question, text=text, skill=2, more=more), figures=figures, variants=variants)


def place_of_dams(question: Question) -> Written:
    """How far from the joint the dams stand: out of the heat, and no further than needed."""
    as_told, heat, volume = question.named("told"), question.named("heat"), question.named("volume")
    left, right = question.told("section.left_dam"), question.told("section.right_dam")
    longest_m = max(units.parse(each, Dimension.LENGTH) for each in (left, right))
    high = f"{max(_REACH_M, 2.0 * longest_m):g} m"
    handles = [
        {
            "id": id_,
            "label": label,
            "sets": f"section.{id_}",
            "along": along,
            "low": "30 mm",
            "high": high,
            "step": "10 mm",
        }
        for id_, label, along in (
            ("left_dam", "Dam on the inlet's side", "pipe left"),
            ("right_dam", "Dam on the vent's side", "pipe right"),
        )
    ]
    standard = ({"left_dam": each, "right_dam": each} for each in ("300 mm", "400 mm", "500 mm"))
    more = {
        "kind": "placement",
        "handle": handles,
        "effect": [
            {
                "result": "dam heat",
                "good": 1.0,
                "bad": 1.3,
                "belief": (
                    "Closer saves gas, so closer is better: the heat of the joint reaches the dam, and "
                    "it leaks."
                ),
            },
            {
                "result": "section volume",
                "good": {"of": as_told, "result": "section volume", "times": 1.8},
                "bad": {"of": as_told, "result": "section volume", "times": 6.0},
                "belief": (
                    "Further is always safer: past the reach of the heat every metre only has to be purged."
                ),
            },
        ],
        "key": [{"left_dam": left, "right_dam": right}, *standard],
        "solution": [
            {
                "what": f"On this job the dams stood {left} and {right} from the joint",
                "result": f"{{{heat}}} of the rise that they stand, and {{{volume}}} to be purged",
                "rule": (
                    "A foot (300 mm) each side is common practice, no source; preheat, heat treatment or "
                    "many passes without a pause ask for more."
                ),
            }
        ],
    }
    text = "How far from the joint does each dam stand?"
    return Written(
        item=item(question, text=text, skill=3, more=more),
        figures={
            heat: figure("dam heat", of=as_told),
            volume: figure("section volume", of=as_told, unit="L", digits=3),
        },
        variants={as_told: {"section": {"left_dam": left, "right_dam": right}}},
    )
