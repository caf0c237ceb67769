"""What the form says about each question that can be asked: what it needs, and what its wrong answers are."""

from dataclasses import dataclass

from flask_babel import lazy_gettext as _l

from trainer.domain.own_jobs import LABELS, NEEDS, AskKind


@dataclass(frozen=True, kw_only=True)
class AboutQuestion:
    """The words of one question; `wrong` is the hint for its wrong answers, empty where it has none."""

    what: str
    wrong: str = ""
    needs: str = ""


_WORDS = {
    AskKind.WAIT: (
        _l("How long until the arc; the core works it out."),
        _l("A time with its unit, such as 1 min."),
    ),
    AskKind.FLOW: (
        _l("The least of several flows that does it in the time told. Your own flow is one of them."),
        _l("The other flows with their unit, such as 8 L/min; which one is right, the core says."),
    ),
    AskKind.LASTS: (
        _l("How far the supply goes; four answers are offered, the core says which is right."),
        "",
    ),
    AskKind.GAUGE: (
        _l("What the gauge must show before the joint is begun."),
        _l("A pressure with its unit, such as 5 bar."),
    ),
    AskKind.DAMS: (_l("The dams are moved on the drawing, judged by heat and by what has to be purged."), ""),
    AskKind.HOLES: (_l("Inlet and vent are moved on the drawing, judged by the oxygen that is left."), ""),
    AskKind.TRACE: (_l("The time read off the trace of an analyser."), ""),
    AskKind.PRESSURE: (_l("A contents gauge to be read."), ""),
    AskKind.COLOUR: (_l("How the root comes out at the time told; the core says which."), ""),
    AskKind.GAS: (
        _l("Which gas suits the material as it is; your own gas is one of them."),
        _l("The other gases: symbol, blank, composition, such as R1 ArH-5 or N1."),
    ),
    AskKind.HAZARDS: (_l("Things that stand at the job, drawn; the catalogue knows which are critical."), ""),
    AskKind.LEAVE: (
        _l("When everybody has to be out of the space."),
        _l("A time with its unit, such as 30 min."),
    ),
    AskKind.FAN: (_l("What a fan must move."), _l("A flow with its unit, such as 100 L/min.")),
    AskKind.OWN: (
        _l(
            "A question of your own. The core is asked nothing: the right answer is yours, and the "
            "result says so."
        ),
        _l("The wrong answers that are offered."),
    ),
    AskKind.EXPLANATION: (_l("A few sentences, graded by you: three to five points are looked for."), ""),
}
QUESTIONS = {
    kind: AboutQuestion(what=what, wrong=wrong, needs=", ".join(LABELS[path] for path in NEEDS[kind]))
    for kind, (what, wrong) in _WORDS.items()
}
