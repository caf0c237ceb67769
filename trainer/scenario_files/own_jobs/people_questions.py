"""Questions about people: the air that they breathe, what stands about, and what they can say in words."""

from typing import Any

from trainer.scenario_files.own_jobs.parts import Question, Written, figure, item

_AIR_RULE = (
    "Less than 19.5 % is oxygen deficient: 29 CFR 1910.146(b). Gas pools before it mixes, so the sum "
    "never lets anybody in: local codes, the permit and a meter where people breathe decide."
)
# What is written at each level of a criterion, so that two graders choose the same one.
_LEVELS = [
    "Nothing is written of it, or the opposite.",
    "It is named, without a reason or with a wrong one.",
    "It is named with its reason.",
    "It is named with its reason, and what follows from it for this job.",
]


def time_to_leave(question: Question) -> Written:
    """When everybody has to be out of the space, if the gas mixes."""
    volume, release, at_19, at_10 = map(question.named, ("volume", "release", "at_19", "at_10"))
    more = {
        "kind": "quantity",
        "sets": ["surroundings.after"],
        "unit_hint": "min",
        "result": "time to 19.5 %",
        "outcome": "nearby oxygen",
        "limit": "19.5 %",
        "fails_above": False,
        "more_is_safer": False,
        "nearest": "1 min",
        "input_uncertainties": [0.05, 0.05],
        "solution": [
            {
                "what": "Time until the mixed air is down to 19.5 %",
                "formula": "t = (V / R) · ln(y0 / 19.5 %)",
                "numbers": f"V = {{{volume}}}, R = {{{release}}}",
                "result": f"{{{at_19}}}; 10 % after {{{at_10}}}",
                "rule": _AIR_RULE,
            }
        ],
    }
    text = (
        "If the gas mixed evenly, by when must everybody be out, counted from gas on? To the nearest minute."
    )
    return Written(
        item=item(question, text=text, skill=11, more=more),
        figures={
            volume: figure("space volume", unit="m^3", digits=3),
            release: figure("release", unit="L/min"),
            at_19: figure("time to 19.5 %", unit="min"),
            at_10: figure("time to 10 %", unit="min"),
        },
    )


def fan(question: Question) -> Written:
    """What a fan must move to keep the air fit to breathe."""
    release, needed = question.named("release"), question.named("needed")
    more = {
        "kind": "quantity",
        "sets": ["surroundings.fan_flow"],
        "unit_hint": "L/min or m³/h",
        "result": "ventilation needed",
        "outcome": "steady oxygen",
        "limit": "19.5 %",
        "fails_above": False,
        "more_is_safer": True,
        "nearest": "10 L/min",
        "input_uncertainties": [0.05, 0.03],
        "solution": [
            {
                "what": "Air that holds 19.5 % against this much gas",
                "formula": (
                    "drawing out: Q = R · 20.9 / (20.9 - 19.5); blowing in: Q = R · 19.5 / (20.9 - 19.5)"
                ),
                "numbers": f"R = {{{release}}}",
                "result": f"{{{needed}}}",
                "rule": _AIR_RULE,
            }
        ],
    }
    text = (
        "How much must the fan move so that the mixed air never goes below 19.5 %? To the nearest 10 "
        "L/min, before any margin of your own."
    )
    return Written(
        item=item(question, text=text, skill=11, more=more),
        figures={
            release: figure("release", unit="L/min"),
            needed: figure("ventilation needed", unit="L/min"),
        },
    )


def hazards(question: Question) -> Written:
    """What stands about at the job: some of it hurts somebody or spoils the root, some does not."""
    asked = question.asked
    more = {
        "kind": "hazards",
        "innocent_pool": [],
        "innocent_count": 0,
        "least_hazards": len(asked.hazards),
        "object": [
            *({"hazard": each, "chance": 1.0} for each in asked.hazards),
            *({"innocent": each} for each in asked.innocents),
        ],
        "solution": [
            {
                "what": "What reaches a face or falls on somebody first; then what starves or spoils the gas",
                "rule": (
                    "29 CFR 1910.252 and 1910.253 for ventilation and cylinders; local rules, the permit "
                    "and the data sheet decide."
                ),
            }
        ],
    }
    text = "Mark everything here that can hurt somebody or spoil the root."
    return Written(item=item(question, text=text, skill=9, more=more))


def own_question(question: Question) -> Written:
    """A question of the instructor's own: the core is asked nothing, the right answer is typed."""
    asked = question.asked
    # An option is right where a result of the core holds; a pipe has a bore whatever is asked.
    always = [{"result": "bore", "above": "0.1 mm"}]
    more = {
        "kind": "choice",
        "count": 1 + len(asked.wrong),
        "option": [
            {"text": asked.right, "when": always},
            *({"text": each.answer, "belief": each.belief} for each in asked.wrong),
        ],
        "solution": [
            {"what": "The right answer is the instructor's own, not the core's", "result": asked.right}
        ],
    }
    return Written(item=item(question, text=asked.text, skill=9, more=more))


def explanation(question: Question) -> Written:
    """A few sentences, graded by an instructor."""
    criteria: list[dict[str, Any]] = [
        {"id": f"point-{place}", "text": each, "levels": _LEVELS}
        for place, each in enumerate(question.asked.criteria, start=1)
    ]
    more = {
        "kind": "explanation",
        "criterion": criteria,
        "solution": [{"what": "A good answer names: " + "; ".join(question.asked.criteria)}],
    }
    return Written(item=item(question, text=question.asked.text, skill=9, more=more))
