"""The twelve skills: what one person can be good at. Content and modules name them by number."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Skill:
    """One skill: its number, a short name, and what somebody good at it can do."""

    number: int
    name: str
    what: str


SKILLS = tuple(
    Skill(number=number, name=name, what=what)
    for number, (name, what) in enumerate(
        (
            ("Does it need a purge?", "Decide from material and service, and say what skipping it costs."),
            ("Gas", "Choose the backing gas for the material, and know what must not be used."),
            ("Dams", "Choose the dam, its place and thickness, and how it comes out again."),
            ("Inlet and vent", "Place inlet and vent so that no pocket of air is left."),
            ("Flow and pressure", "Set purge and hold flow so that the bead is not blown out."),
            ("Purge time", "Work out how long the purge takes before the arc may be struck."),
            ("Supply", "Say whether the supply lasts, and what the job costs in gas."),
            ("Ready or wait", "Read the analyser and the test plate, and decide to go or to wait."),
            ("During and after", "Hold the purge through root and hot pass, close the bead, stop in time."),
            ("Diagnosis", "Find out why the oxygen will not come down."),
            ("Air to breathe", "Keep people out of gas in rooms, pits, vessels and pipes."),
            ("Pressure, cold, heat, fire", "Handle cylinders, dewars, hot foam and the fire watch."),
        ),
        start=1,
    )
)


def skill(number: int) -> Skill:
    """The skill of that number; raises KeyError."""
    found = next((each for each in SKILLS if each.number == number), None)
    if found is None:
        raise KeyError(number)
    return found
