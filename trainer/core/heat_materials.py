"""What heat does to the materials of ropes, tapes, hoses and dams: the first harm counts as the limit."""

from trainer.core.errors import UnknownName
from trainer.core.tables import table_rows

_CELSIUS_ZERO_K = 273.15


def heat_materials() -> tuple[str, ...]:
    """The materials whose behaviour in heat is known.

    Returns:
        [text] names, as data/dam_materials.csv spells them

    Example:
        >>> "polypropylene" in heat_materials()
        True

    Reference: data/dam_materials.csv.
    """
    return tuple(dict.fromkeys(row["material"] for row in table_rows("dam_materials")))


def material_limit_k(material: str) -> float:
    """Temperature at which a material first comes to harm: softens, melts, decomposes or catches fire.

    T = the lowest of its known effects

    Args:
        material [text]: one of `heat_materials`
    Returns:
        [K] temperature
    Raises:
        UnknownName: for a material that the table does not hold
    Valid: approximate, without any margin; the maker's sheet goes first.

    Example:
        >>> round(material_limit_k("polyester") - 273.15)
        268

    Reference: data/dam_materials.csv; pslc.ws table citing Hilado, Flammability Handbook for Plastics, 1998.
    """
    effects_c = [
        float(row["temperature_c"]) for row in table_rows("dam_materials") if row["material"] == material
    ]
    if not effects_c:
        raise UnknownName("material", material, known=heat_materials())
    return min(effects_c) + _CELSIUS_ZERO_K
