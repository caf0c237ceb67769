"""Questions about the purge itself: how long, how fast, from where to where, and what comes of it."""

from collections.abc import Mapping
from typing import Any

from trainer import units
from trainer.core.terms import RootGrade
from trainer.domain.quantities import Dimension
from trainer.scenario_files.own_jobs import usual_words
from trainer.scenario_files.own_jobs.parts import Question, Written, figure, item
from trainer.wording.filled_in import filled_in

_CLEAR = 1.05


def purge_time(question: Question) -> Written:
    """How long until the arc."""
    volume, at, change, changes, expected, safe = map(
        question.named, ("volume", "flow", "change", "changes", "expected", "safe")
    )
    more = {
        "kind": "quantity",
        "sets": ["wait"],
        "unit_hint": "min",
        "result": "time to target",
        "outcome": "root oxygen",
        "limit": question.told("target.oxygen"),
        "fails_above": True,
        "more_is_safer": True,
        "nearest": "30 s",
        "solution": [
            {
                "what": usual_words.VOLUME_CHANGE,
                "formula": "t1 = V / Q",
                "numbers": f"V = {{{volume}}}, Q = {{{at}}}",
                "result": f"{{{change}}}",
            },
            {
                "what": usual_words.TIME_TO_TARGET,
                "formula": "t = n · t1",
                "numbers": f"{{{changes}}} · {{{change}}}",
                "result": filled_in(
                    usual_words.EXPECTED_AND_SAFE, expected=f"{{{expected}}}", safe=f"{{{safe}}}"
                ),
                "rule": usual_words.NOT_A_STANDARD,
            },
        ],
    }
    return Written(
        item=item(question, text=usual_words.ASK_WAIT, skill=6, more=more),
        figures={
            volume: figure("section volume", unit="L", digits=3),
            at: figure("true flow", unit="L/min"),
            change: figure("one volume change", unit="min"),
            changes: figure("volume changes to target"),
            expected: figure("time to target", unit="min"),
            safe: figure("time to target", unit="min", end="upper"),
        },
    )


def flow(question: Question) -> Written:
    """The least of some flows that is done in time: the sheet's own and the wrong ones."""
    beliefs = {each.answer: each.belief for each in question.asked.wrong}
    own = question.told("flow.purge")
    offered = sorted({own, *beliefs}, key=lambda each: units.parse(each, Dimension.VOLUME_FLOW))
    names = [question.named(f"at_{place}") for place in range(1, len(offered) + 1)]
    wait, target = question.told("wait"), question.told("target.oxygen")
    options = []
    for place, (amount, name) in enumerate(zip(offered, names, strict=True)):
        when = [{"of": name, "result": "root oxygen", "below": target, "clear": _CLEAR}]
        if place:
            when.append({"of": names[place - 1], "result": "root oxygen", "above": target, "clear": _CLEAR})
        belief = beliefs.get(amount, usual_words.MORE_FLOW)
        options.append({"text": amount, "belief": belief, "when": when, "sets": {"flow.purge": amount}})
    figures = [question.named(f"root_{place}") for place in range(1, len(offered) + 1)]
    steps = [
        {
            "what": filled_in(usual_words.ROOT_WITH_FLOW, wait=wait, flow=amount),
            "result": f"{{{name}}}",
        }
        for amount, name in zip(offered, figures, strict=True)
    ]
    steps[-1]["rule"] = filled_in(usual_words.AT_MOST, target=target)
    more = {
        "kind": "choice",
        "sets": ["flow.purge"],
        "count": len(options),
        "option": options,
        "solution": steps,
    }
    text = filled_in(usual_words.ASK_FLOW, target=target, wait=wait)
    return Written(
        item=item(question, text=text, skill=5, more=more),
        figures={
            name: figure("root oxygen", of=of, unit="%") for name, of in zip(figures, names, strict=True)
        },
        variants={
            name: {"flow": {"purge": amount}, "wait": wait}
            for name, amount in zip(names, offered, strict=True)
        },
    )


def holes(question: Question) -> Written:
    """Where the gas goes in and where the air goes out."""
    low_high, high_low = question.named("low_high"), question.named("high_low")
    after = {"of": low_high, "others": [high_low], "result": "time to target", "times": 1.4}
    handles = [
        {
            "id": id_,
            "label": label,
            "sets": f"{id_}.height",
            "along": "height",
            "low": 0.15,
            "high": 0.85,
            "step": 0.05,
        }
        for id_, label in (("inlet", usual_words.INLET), ("vent", usual_words.VENT))
    ]
    up, down = question.named("up"), question.named("down")
    more = {
        "kind": "placement",
        "handle": handles,
        "effect": [
            {
                "result": "root oxygen",
                "after": after,
                "good": question.told("target.oxygen"),
                "belief": usual_words.ANY_PAIR,
            }
        ],
        "key": [{"inlet": 0.15, "vent": 0.85}, {"inlet": 0.85, "vent": 0.15}],
        "solution": [
            {"what": usual_words.LOW_AND_HIGH, "result": f"{{{up}}}"},
            {
                "what": usual_words.HIGH_AND_LOW,
                "result": f"{{{down}}}",
                "rule": usual_words.HEAVY_AND_LIGHT,
            },
        ],
    }
    return Written(
        item=item(question, text=usual_words.ASK_HOLES, skill=4, more=more),
        figures={
            up: figure("time to target", of=low_high, unit="min"),
            down: figure("time to target", of=high_low, unit="min"),
        },
        variants={low_high: _heights(0.15, 0.85), high_low: _heights(0.85, 0.15)},
    )


def _heights(inlet: float, vent: float) -> Mapping[str, Any]:
    return {"inlet": {"height": inlet}, "vent": {"height": vent}}


def trace(question: Question) -> Written:
    """The time read off the analyser's trace."""
    target, reached = question.told("target.oxygen"), question.named("reached")
    more = {
        "kind": "reading",
        "instrument": "oxygen trace",
        "at": target,
        "unit_hint": "min",
        "division": "30 s",
        "tolerance": 1.0,
        "zero": 8.0,
        "solution": [
            {
                "what": filled_in(usual_words.ALONG_THE_TRACE, target=target),
                "result": f"{{{reached}}}",
                "rule": usual_words.POWERS_OF_TEN,
            }
        ],
    }
    text = filled_in(usual_words.ASK_TRACE, target=target)
    return Written(
        item=item(question, text=text, skill=8, more=more),
        figures={reached: figure("time to target", unit="min")},
    )


def root_colour(question: Question) -> Written:
    """What the root looks like if the arc is struck when the sheet says."""
    wait = question.told("wait")
    struck, oxygen, grade = question.named("struck"), question.named("oxygen"), question.named("grade")
    beliefs = {each.answer: each.belief for each in question.asked.wrong}
    options = [
        {
            "text": usual_words.COLOURS[each],
            "belief": beliefs.get(each.value, filled_in(usual_words.OTHER_COLOUR, grade=each.value)),
            "when": [{"of": struck, "result": "root grade", "is": each.value}],
        }
        for each in RootGrade
    ]
    more = {
        "kind": "choice",
        "count": 4,
        "option": options,
        "solution": [
            {
                "what": filled_in(usual_words.ROOT_AFTER, wait=wait),
                "result": f"{{{oxygen}}}: {{{grade}}}",
                "rule": usual_words.COLOUR_FOLLOWS,
            }
        ],
    }
    text = filled_in(usual_words.ASK_COLOUR, wait=wait)
    return Written(
        item=item(question, text=text, skill=8, more=more),
        figures={
            oxygen: figure("root oxygen", of=struck, unit="ppm"),
            grade: figure("root grade", of=struck),
        },
        variants={struck: {"wait": wait}},
    )
