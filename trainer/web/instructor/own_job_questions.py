"""The words of the form: what each question is and what its wrong answers are, and hints for fields."""

from dataclasses import dataclass

from flask_babel import lazy_gettext as _l

from trainer.domain.own_jobs import AskKind


@dataclass(frozen=True, kw_only=True)
class AboutQuestion:
    """The words of one question; `wrong` is the hint for its wrong answers, empty where it has none."""

    name: str
    what: str
    wrong: str = ""


_WORDS = {
    AskKind.WAIT: (
        _l("Purge time"),
        _l("How long until the arc; the core works it out."),
        _l("A time with its unit, such as 1 min."),
    ),
    AskKind.FLOW: (
        _l("Flow"),
        _l("The least of several flows that does it in the time told. Your own flow is one of them."),
        _l("The other flows with their unit, such as 8 L/min; which one is right, the core says."),
    ),
    AskKind.LASTS: (
        _l("How far the supply goes"),
        _l("How far the supply goes; four answers are offered, the core says which is right."),
        "",
    ),
    AskKind.GAUGE: (
        _l("Least on the gauge"),
        _l("What the gauge must show before the joint is begun."),
        _l("A pressure with its unit, such as 5 bar."),
    ),
    AskKind.DAMS: (
        _l("Place of the dams"),
        _l("The dams are moved on the drawing, judged by heat and by what has to be purged."),
        "",
    ),
    AskKind.HOLES: (
        _l("Place of inlet and vent"),
        _l("Inlet and vent are moved on the drawing, judged by the oxygen that is left."),
        "",
    ),
    AskKind.TRACE: (_l("Oxygen trace"), _l("The time read off the trace of an analyser."), ""),
    AskKind.PRESSURE: (_l("Pressure gauge"), _l("A contents gauge to be read."), ""),
    AskKind.COLOUR: (
        _l("Root colour"),
        _l("How the root comes out at the time told; the core says which."),
        "",
    ),
    AskKind.GAS: (
        _l("Choice of gas"),
        _l("Which gas suits the material as it is; your own gas is one of them."),
        _l("The other gases: symbol, blank, composition, such as R1 ArH-5 or N1."),
    ),
    AskKind.HAZARDS: (
        _l("Hazards"),
        _l("Things that stand at the job, drawn; the catalogue knows which are critical."),
        "",
    ),
    AskKind.LEAVE: (
        _l("Time to leave"),
        _l("When everybody has to be out of the space."),
        _l("A time with its unit, such as 30 min."),
    ),
    AskKind.FAN: (_l("Fan"), _l("What a fan must move."), _l("A flow with its unit, such as 100 L/min.")),
    AskKind.OWN: (
        _l("A question of your own"),
        _l(
            "A question of your own. The core is asked nothing: the right answer is yours, and the "
            "result says so."
        ),
        _l("The wrong answers that are offered."),
    ),
    AskKind.EXPLANATION: (
        _l("Explanation in words"),
        _l("A few sentences, graded by you: three to five points are looked for."),
        "",
    ),
}
QUESTIONS = {
    kind: AboutQuestion(name=name, what=what, wrong=wrong) for kind, (name, what, wrong) in _WORDS.items()
}
# What is not told by the label of a field of the set-up.
HINTS = {
    "pipe.nps": _l("Such as 6 or 1 1/2, with its schedule."),
    "pipe.schedule": _l("Such as 10S or 40."),
    "pipe.outside_diameter": _l("In place of size and schedule, with the wall."),
    "joint.taped": _l("1 for all of it."),
    "gas.symbol": _l("Such as I1, argon."),
    "gas.composition": _l("Such as ArH-5; blank for a gas of one part."),
}
