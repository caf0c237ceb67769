"""What is said of a response after marking: whole sentences, so that they can be said in any language.

A place that is filled in holds a number, a sentence of the scenario, or several of them.
"""

UNANSWERED = "Not answered."

AS_CALCULATED = "This is what the core gives for this set-up."
NOT_AS_CALCULATED = "The core gives another answer for this set-up."
AS_INSTRUCTED = "This is the instructor's answer."
NOT_AS_INSTRUCTED = "The instructor's answer is another one."

READ_CLOSELY = "Read as closely as the scale allows."
READ_TOO_HIGH = "Too high."
READ_TOO_LOW = "Too low."

IN_BAND = "Inside the band that the uncertainty of the sum allows."
SAFE = "%(ratio)s times the answer: safe, but it costs time, gas or effort."
LITTLE_LEFT = "%(ratio)s times the answer: on the unsafe side, with little left in hand."
FAILS = "%(ratio)s times the answer: on the unsafe side, and your own set-up fails with it."
NOTHING_SAFE = "Nothing at all: safe, but it costs time, gas or effort."
NOTHING_LITTLE_LEFT = "Nothing at all: on the unsafe side, with little left in hand."
NOTHING_FAILS = "Nothing at all: on the unsafe side, and your own set-up fails with it."

FROM_OWN_VALUES = "Worked from your own earlier values."
FROM_RIGHT_VALUES = (
    "Worked from the right set-up, because with your own earlier values no purge time gets there."
)

PLACED_WELL = "Every effect of this placement stays inside its limit."

MISSED = "Missed: %(why)s"
NO_HAZARD = "Not a hazard: %(why)s"
ON_EMPTY_GROUND = "Marks where nothing lies: %(count)s; each counts as a false alarm."
ALL_HAZARDS = "Every hazard found, and nothing innocent marked."

OUT_OF_ORDER = "%(before)s comes before %(after)s: %(why)s"
LEAVE_OUT = "Better left out: %(step)s."
IN_ORDER = "Every step that has to come before another does."

PUT_RIGHT = "It was this: %(cause)s. It was put right in time."
STILL_FAULTY = "The reading was low enough, but the cause is still there: %(cause)s."
TOO_EARLY = "The arc was struck before the oxygen was proven. It was this: %(cause)s."
CALLED = "It was stopped and handed on. It was this: %(cause)s."
NOT_READY = "It was ended before all was done that has to come first. It was this: %(cause)s."
LOST = "The time ran out. It was this: %(cause)s."
OPEN = "It was handed in before it came to an end. It was this: %(cause)s."
TOLD_NOTHING = "Could tell nothing new when it was done: %(steps)s."
HELPED_NOTHING = "Could not help with what was still possible then: %(steps)s."

ALL = (
    UNANSWERED, AS_CALCULATED, NOT_AS_CALCULATED, AS_INSTRUCTED, NOT_AS_INSTRUCTED,
    READ_CLOSELY, READ_TOO_HIGH, READ_TOO_LOW, IN_BAND,
    SAFE, LITTLE_LEFT, FAILS, NOTHING_SAFE, NOTHING_LITTLE_LEFT, NOTHING_FAILS, FROM_OWN_VALUES,
    FROM_RIGHT_VALUES, PLACED_WELL, MISSED, NO_HAZARD, ON_EMPTY_GROUND, ALL_HAZARDS, OUT_OF_ORDER,
    LEAVE_OUT, IN_ORDER, PUT_RIGHT, STILL_FAULTY, TOO_EARLY, CALLED, NOT_READY, LOST, OPEN, TOLD_NOTHING,
    HELPED_NOTHING,
)  # fmt: skip
