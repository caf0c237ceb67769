"""What own jobs say in our words, around what their instructor typed: whole sentences, to be translated.

A place that is filled in holds an amount, the name of a figure in braces, a word of a result, or the points
that were typed. A published job keeps its sentences: one that is changed here stays in `ALL` as it was, too.
"""

from trainer.core.terms import RootGrade
from trainer.domain.own_jobs import OWN_ANSWER, SHARES_TOLD

NOT_A_STANDARD = "From simulation, not from a standard: the analyser at the joint decides."
NO_SOURCE = "Common practice, no source."
OWN_NOTE = "The instructor's own words."

ASK_WAIT = "How long after the gas goes on may you strike the arc? To the nearest half minute."
VOLUME_CHANGE = "One volume change"
TIME_TO_TARGET = "Time to the oxygen wanted"
EXPECTED_AND_SAFE = "%(expected)s; at the conservative end %(safe)s"

ASK_FLOW = "Which of these flows is the least that has the root down to %(target)s after %(wait)s?"
MORE_FLOW = "More flow is always surer: it costs gas and presses on the bead."
ROOT_WITH_FLOW = "Oxygen at the root after %(wait)s with %(flow)s"
AT_MOST = f"At most %(target)s is wanted. {NOT_A_STANDARD}"

ASK_HOLES = (
    "Which height do you choose for the inlet, and which for the vent? 0 is the lowest point of the "
    "bore, 1 the highest."
)
INLET = "Inlet"
VENT = "Vent"
ANY_PAIR = (
    "Any pair of holes purges alike: gas gathers on one side, and a vent on that side lets it out "
    "while the air stays."
)
LOW_AND_HIGH = "Time to the oxygen wanted, inlet low and vent high"
HIGH_AND_LOW = "Inlet high and vent low"
HEAVY_AND_LIGHT = f"Heavy gas in low and air out high, light gas the reverse. {NOT_A_STANDARD}"

ASK_TRACE = "This is how oxygen at the root comes down. How long after gas on has it reached %(target)s?"
ALONG_THE_TRACE = "Go along at %(target)s until the line is met, then down to the time"
POWERS_OF_TEN = "The axis of oxygen goes in powers of ten."

ASK_COLOUR = "The arc is struck %(wait)s after the gas goes on. How does the root come out?"
COLOURS = {grade: grade.value.capitalize() for grade in RootGrade}
OTHER_COLOUR = "It comes out %(grade)s: that takes another amount of oxygen than there is."
ROOT_AFTER = "Oxygen at the root %(wait)s after gas on"
COLOUR_FOLLOWS = (
    "The colour follows from oxygen and material; the owner's samples and the procedure decide what passes."
)

ASK_LASTS = "The gauge shows %(pressure)s. How far does the supply go?"
ASK_LASTS_AS_READ = "The gauge shows as you read it. How far does the supply go?"
TO_SPARE = "To the end, with gas to spare above %(stop)s"
ANYTHING_DOES = "Anything on the gauge does for one joint."
SHORT_LATE = "It runs short while the joint is welded or cools"
DRY_UNDER_ARC = "It must run dry under the arc: work out what the purge and the hold take."
SHORT_EARLY = "It runs short before the purge is over and an arc is struck"
AS_GOOD_AS_EMPTY = "A gauge like this is an empty cylinder: work out what is in it."
LAST_BARS = "To the end, since the last %(stop)s do as well as all that went before"
TO_THE_LAST_BAR = "Gas is gas to the last bar: what is left keeps air and moisture out of the cylinder."
GAS_ABOVE = "Gas in the supply above %(stop)s"
GAS_ABOVE_SUM = "V = V_water · (p - p_stop) / 1 bar, for real gas at its temperature"
GAS_NEEDED = "Gas that the joint takes"
GAS_NEEDED_SUM = "V = Q_purge · t_purge + Q_hold · t_hold"
OF_WHICH_BEFORE = "%(needed)s, of which %(before)s before the arc"
GAS_FOR_ALL_OF_IT = (
    "Contents and need at 15 °C and 1 bar. No joint is begun without the gas for all of it: common "
    "practice, no source."
)

ASK_GAUGE = (
    "With these flows and times: what does the gauge have to show at least before the joint is begun? "
    "To the nearest half bar (7 psi)."
)
GAS_AS_PRESSURE = "Gas of the joint as pressure in the cylinders, and what has to stay in them"
GAS_AS_PRESSURE_SUM = "p = V_joint / V_water · 1 bar + p_stop, for real gas at its temperature"
GAS_OF_JOINT = "V_joint = %(needed)s"
HIGH_END = "Read flow and time to 3 % each and take the high end."

ASK_PRESSURE = "The contents gauge stands like this. What does it show?"
SMALL_DIVISION = "A small division is %(division)s; look square at the dial"

ASK_GAS = "Which of these gases goes behind this root without asking anybody?"
WHAT_HANGS_THERE = "What hangs on the rack is what goes in: look it up for the metal."
STRICTEST_PART = "The strictest part of a gas decides; a qualified procedure that names a gas goes before."

ASK_DAMS = "How far from the joint does each dam stand?"
LEFT_DAM = "Dam on the inlet's side"
RIGHT_DAM = "Dam on the vent's side"
CLOSER_IS_BETTER = (
    "Closer saves gas, so closer is better: the heat of the joint reaches the dam, and it leaks."
)
FURTHER_IS_SAFER = "Further is always safer: past the reach of the heat every metre only has to be purged."
DAMS_STOOD = "On this job the dams stood %(left)s and %(right)s from the joint"
HEAT_AND_VOLUME = "%(heat)s of the rise that they stand, and %(volume)s to be purged"
A_FOOT = (
    "A foot (300 mm) each side is common practice, no source; preheat, heat treatment or many passes "
    "without a pause ask for more."
)

AIR_RULE = (
    "Less than 19.5 % is oxygen deficient: 29 CFR 1910.146(b). Gas pools before it mixes, so the sum "
    "never lets anybody in: local codes, the permit and a meter where people breathe decide."
)
ASK_LEAVE = (
    "If the gas mixed evenly, by when must everybody be out, counted from gas on? To the nearest minute."
)
TIME_OF_MIXED_AIR = "Time until the mixed air is down to 19.5 %"
AT_19_AND_10 = "%(at_19)s; 10 % after %(at_10)s"

ASK_FAN = (
    "How much must the fan move so that the mixed air never goes below 19.5 %? To the nearest 10 "
    "L/min, before any margin of your own."
)
AIR_AGAINST_GAS = "Air that holds 19.5 % against this much gas"
OUT_OR_IN = "drawing out: Q = R · 20.9 / (20.9 - 19.5); blowing in: Q = R · 19.5 / (20.9 - 19.5)"

ASK_HAZARDS = "Mark everything here that can hurt somebody or spoil the root."
FIRST_A_FACE = "What reaches a face or falls on somebody first; then what starves or spoils the gas"
HAZARDS_RULE = (
    "29 CFR 1910.252 and 1910.253 for ventilation and cylinders; local rules, the permit and the data "
    "sheet decide."
)

# What is written at each level of a criterion, so that two graders choose the same one.
LEVELS = (
    "Nothing is written of it, or the opposite.",
    "It is named, without a reason or with a wrong one.",
    "It is named with its reason.",
    "It is named with its reason, and what follows from it for this job.",
)
GOOD_ANSWER = "A good answer names: %(points)s"

TYPED = frozenset({"points"})  # the places that hold what an instructor typed in words
ALL = (
    NOT_A_STANDARD, NO_SOURCE, OWN_NOTE, ASK_WAIT, VOLUME_CHANGE, TIME_TO_TARGET, EXPECTED_AND_SAFE,
    ASK_FLOW, MORE_FLOW, ROOT_WITH_FLOW, AT_MOST, ASK_HOLES, INLET, VENT, ANY_PAIR, LOW_AND_HIGH,
    HIGH_AND_LOW, HEAVY_AND_LIGHT, ASK_TRACE, ALONG_THE_TRACE, POWERS_OF_TEN, ASK_COLOUR,
    *COLOURS.values(), OTHER_COLOUR, ROOT_AFTER, COLOUR_FOLLOWS, ASK_LASTS, ASK_LASTS_AS_READ, TO_SPARE,
    ANYTHING_DOES, SHORT_LATE, DRY_UNDER_ARC, SHORT_EARLY, AS_GOOD_AS_EMPTY, LAST_BARS, TO_THE_LAST_BAR,
    GAS_ABOVE, GAS_ABOVE_SUM, GAS_NEEDED, GAS_NEEDED_SUM, OF_WHICH_BEFORE, GAS_FOR_ALL_OF_IT, ASK_GAUGE,
    GAS_AS_PRESSURE, GAS_AS_PRESSURE_SUM, GAS_OF_JOINT, HIGH_END, ASK_PRESSURE, SMALL_DIVISION, ASK_GAS,
    WHAT_HANGS_THERE, STRICTEST_PART, ASK_DAMS, LEFT_DAM, RIGHT_DAM, CLOSER_IS_BETTER, FURTHER_IS_SAFER,
    DAMS_STOOD, HEAT_AND_VOLUME, A_FOOT, AIR_RULE, ASK_LEAVE, TIME_OF_MIXED_AIR, AT_19_AND_10, ASK_FAN,
    AIR_AGAINST_GAS, OUT_OR_IN, ASK_HAZARDS, FIRST_A_FACE, HAZARDS_RULE, OWN_ANSWER, *LEVELS, GOOD_ANSWER,
    *(each for told in SHARES_TOLD.values() for each in told),
)  # fmt: skip
