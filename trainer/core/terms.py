"""Trade words that the core's formulas branch on; one enumeration each, spelt as people and files do."""

from enum import StrEnum


class MaterialGroup(StrEnum):
    """Groups of pipe material that share a tolerance for oxygen at the root."""

    CARBON_STEEL = "carbon steel"
    AUSTENITIC_STAINLESS = "austenitic stainless"
    DUPLEX = "duplex"
    SUPER_DUPLEX = "super duplex"
    NICKEL_ALLOY = "nickel alloy"
    CHROMIUM_MOLYBDENUM = "chromium-molybdenum"
    TITANIUM = "titanium"


class InletEnd(StrEnum):
    """What the purge gas leaves the hose through, inside the dammed section."""

    OPEN_TUBE = "open tube"
    RAG = "rag"
    DIFFUSER = "diffuser"


class PurgeModel(StrEnum):
    """How the gas in the section is taken to mix: the layered column or one of its limits."""

    LAYERED = "layered"
    UNSTIRRED = "unstirred layers"
    PERFECT_MIXING = "perfect mixing"
    DISPLACEMENT = "displacement"


class Fan(StrEnum):
    """How a space is ventilated while gas escapes into it."""

    NONE = "none"
    BLOWS_IN = "blows in"
    DRAWS_OUT = "draws out"


class RootGrade(StrEnum):
    """Oxidation of the root as the eye ranks it, cleanest first."""

    BRIGHT = "bright"
    STRAW = "straw"
    GOLD = "gold"
    BROWN = "brown"
    VIOLET = "violet"
    BLUE = "blue"
    GREY = "grey"
    BLACK = "black"
    SUGARED = "sugared"
