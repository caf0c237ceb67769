"""Questions about the supply, the gas in it, and the dams that keep it in."""

from typing import Any

from trainer import units
from trainer.domain.own_jobs import AskKind
from trainer.domain.quantities import Dimension
from trainer.scenario_files.own_jobs import usual_words
from trainer.scenario_files.own_jobs.parts import Question, Written, figure, item
from trainer.wording.filled_in import filled_in

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
            "text": filled_in(usual_words.TO_SPARE, stop=stop),
            "belief": usual_words.ANYTHING_DOES,
            "when": [enough],
        },
        {
            "text": usual_words.SHORT_LATE,
            "belief": usual_words.DRY_UNDER_ARC,
            "when": [short, late],
        },
        {
            "text": usual_words.SHORT_EARLY,
            "belief": usual_words.AS_GOOD_AS_EMPTY,
            "when": [early],
        },
        {
            "text": filled_in(usual_words.LAST_BARS, stop=stop),
            "belief": usual_words.TO_THE_LAST_BAR,
        },
    ]
    usable_figure, needed, before = map(question.named, ("usable", "needed", "before"))
    more = {
        "kind": "choice",
        "count": 4,
        "option": options,
        "solution": [
            {
                "what": filled_in(usual_words.GAS_ABOVE, stop=stop),
                "formula": usual_words.GAS_ABOVE_SUM,
                "result": f"{{{usable_figure}}}",
            },
            {
                "what": usual_words.GAS_NEEDED,
                "formula": usual_words.GAS_NEEDED_SUM,
                "result": filled_in(
                    usual_words.OF_WHICH_BEFORE, needed=f"{{{needed}}}", before=f"{{{before}}}"
                ),
                "rule": usual_words.GAS_FOR_ALL_OF_IT,
            },
        ],
    }
    is_read = any(each.kind is AskKind.PRESSURE for each in question.sheet.asked)
    asked = filled_in(usual_words.ASK_LASTS, pressure=question.told("supply.pressure"))
    text = usual_words.ASK_LASTS_AS_READ if is_read else asked
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
                "what": usual_words.GAS_AS_PRESSURE,
                "formula": usual_words.GAS_AS_PRESSURE_SUM,
                "numbers": filled_in(usual_words.GAS_OF_JOINT, needed=f"{{{needed}}}"),
                "result": f"{{{begin}}}",
                "rule": usual_words.HIGH_END,
            }
        ],
    }
    return Written(
        item=item(question, text=usual_words.ASK_GAUGE, skill=7, more=more),
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
                "what": filled_in(usual_words.SMALL_DIVISION, division=division),
                "result": pressure,
                "rule": usual_words.NO_SOURCE,
            }
        ],
    }
    return Written(item=item(question, text=usual_words.ASK_PRESSURE, skill=7, more=more))


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
                "belief": beliefs.get(gas, usual_words.WHAT_HANGS_THERE),
                "when": [{"of": name, "result": "gas.verdict", "is": "recommended"}],
                "sets": sets,
            }
        )
        variants[name] = {"gas": {"symbol": symbol, "composition": composition}}
        figures[question.named(f"says_{place}")] = figure("gas.verdict", of=name)
        steps.append({"what": words, "result": f"{{{question.named(f'says_{place}')}}}"})
    steps[-1]["rule"] = usual_words.STRICTEST_PART
    more = {
        "kind": "choice",
        "sets": ["gas.symbol", "gas.composition"],
        "count": len(options),
        "option": options,
        "solution": steps,
    }
    written = item(question, text=usual_words.ASK_GAS, skill=2, more=more)
    return Written(item=written, figures=figures, variants=variants)


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
            ("left_dam", usual_words.LEFT_DAM, "pipe left"),
            ("right_dam", usual_words.RIGHT_DAM, "pipe right"),
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
                "belief": usual_words.CLOSER_IS_BETTER,
            },
            {
                "result": "section volume",
                "good": {"of": as_told, "result": "section volume", "times": 1.8},
                "bad": {"of": as_told, "result": "section volume", "times": 6.0},
                "belief": usual_words.FURTHER_IS_SAFER,
            },
        ],
        "key": [{"left_dam": left, "right_dam": right}, *standard],
        "solution": [
            {
                "what": filled_in(usual_words.DAMS_STOOD, left=left, right=right),
                "result": filled_in(usual_words.HEAT_AND_VOLUME, heat=f"{{{heat}}}", volume=f"{{{volume}}}"),
                "rule": usual_words.A_FOOT,
            }
        ],
    }
    return Written(
        item=item(question, text=usual_words.ASK_DAMS, skill=3, more=more),
        figures={
            heat: figure("dam heat", of=as_told),
            volume: figure("section volume", of=as_told, unit="L", digits=3),
        },
        variants={as_told: {"section": {"left_dam": left, "right_dam": right}}},
    )
