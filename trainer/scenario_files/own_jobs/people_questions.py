"""Questions about people: the air that they breathe, what stands about, and what they can say in words."""

from typing import Any

from trainer.scenario_files.own_jobs import usual_words
from trainer.scenario_files.own_jobs.parts import Question, Written, figure, item
from trainer.wording.filled_in import filled_in


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
                "what": usual_words.TIME_OF_MIXED_AIR,
                "formula": "t = (V / R) · ln(y0 / 19.5 %)",
                "numbers": f"V = {{{volume}}}, R = {{{release}}}",
                "result": filled_in(usual_words.AT_19_AND_10, at_19=f"{{{at_19}}}", at_10=f"{{{at_10}}}"),
                "rule": usual_words.AIR_RULE,
            }
        ],
    }
    return Written(
        item=item(question, text=usual_words.ASK_LEAVE, skill=11, more=more),
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
                "what": usual_words.AIR_AGAINST_GAS,
                "formula": usual_words.OUT_OR_IN,
                "numbers": f"R = {{{release}}}",
                "result": f"{{{needed}}}",
                "rule": usual_words.AIR_RULE,
            }
        ],
    }
    return Written(
        item=item(question, text=usual_words.ASK_FAN, skill=11, more=more),
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
                "what": usual_words.FIRST_A_FACE,
                "rule": usual_words.HAZARDS_RULE,
            }
        ],
    }
    return Written(item=item(question, text=usual_words.ASK_HAZARDS, skill=9, more=more))


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
        "solution": [{"what": usual_words.OWN_ANSWER, "result": asked.right}],
    }
    return Written(item=item(question, text=asked.text, skill=9, more=more))


def explanation(question: Question) -> Written:
    """A few sentences, graded by an instructor."""
    criteria: list[dict[str, Any]] = [
        {"id": f"point-{place}", "text": each, "levels": usual_words.LEVELS}
        for place, each in enumerate(question.asked.criteria, start=1)
    ]
    more = {
        "kind": "explanation",
        "criterion": criteria,
        "solution": [{"what": filled_in(usual_words.GOOD_ANSWER, points="; ".join(question.asked.criteria))}],
    }
    return Written(item=item(question, text=question.asked.text, skill=9, more=more))
