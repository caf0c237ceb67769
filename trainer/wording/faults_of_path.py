"""Faults of a spool in words: its parts, and the points that lie on them."""

from collections.abc import Mapping

from trainer.domain.quantities import Dimension

PATH_WORDS: Mapping[str, str] = {
    "beside-path": (
        "%(value)s stands beside section.path, whose parts say how long and how steep they are; leave it out"
    ),
    "part-kind-missing": "missing; say what the part is: %(known)s",
    "part-name-missing": "missing; each %(kind)s needs a name of its own, such as riser",
    "part-name-twice": (
        "'%(name)s' stands for %(first)s already, and each name means one part; choose another"
    ),
    "part-size-missing": "missing; %(article)s %(kind)s needs %(needs)s%(usual)s",
    "part-size-not-of-kind": "%(given)s does not belong to %(article)s %(kind)s; accepted there: %(known)s",
    "path-starts-without-run": (
        "a path begins with a run, which gives it its direction, and this is %(article)s %(value)s"
    ),
    "run-turns": (
        "a run of %(value)s does not go on from a part that ends at %(before)s; put an elbow between them, or"
        " leave the slope out"
    ),
    "elbow-cannot-turn": (
        "%(value)s does not turn the path from %(before)s to %(after)s of slope;"
        " accepted from %(low)s to %(high)s"
    ),
    "bend-too-sharp": (
        "%(value)s is less than half the bore of %(bore)s, so that the bend crosses itself;"
        " accepted from %(least)s"
    ),
    "reducer-changes-nothing": (
        "%(value)s is the bore that the reducer begins with; give another, or make it a run"
    ),
    "tee-length-too-short": (
        "%(value)s ends inside the crossing; a tee with a bore of %(bore)s is accepted from %(least)s"
    ),
    "tee-outlet-too-short": (
        "%(value)s from the run's centre line ends inside the run of bore %(bore)s; accepted from %(least)s"
    ),
    "outlet-wider-than-run": "%(value)s is wider than the tee's run, which is %(bore)s; accepted up to that",
    "outlet-not-square": (
        "%(value)s does not stand at right angles to the tee's run, which slopes %(before)s; accepted from"
        " %(low)s to %(high)s"
    ),
    "cap-not-last": "a cap closes the path, and parts come after it; put it last",
    "along-without-at": (
        "%(value)s tells how far along a part, and no part is named; add 'at', or leave it out"
    ),
    "at-without-path": "'%(value)s' names a part of a spool, and there is no section.path; leave it out",
    "no-such-part": "'%(value)s' is no part of the path; accepted: %(known)s",
    "vent-and-vents": "a spool has either one 'vent' or a list of 'vents'; keep one of them",
    "vents-without-path": (
        "a list of vents belongs to a spool with a section.path; give the one vent as 'vent'"
    ),
}  # fmt: skip

PATH_FACTS: Mapping[str, Dimension] = {
    "before_deg": Dimension.ANGLE, "after_deg": Dimension.ANGLE, "low_deg": Dimension.ANGLE,
    "high_deg": Dimension.ANGLE, "least_m": Dimension.LENGTH, "usual_m": Dimension.LENGTH,
}  # fmt: skip


def path_facts(facts: Mapping[str, str]) -> dict[str, str]:
    """What the words of a path's faults need beside the facts themselves."""
    more = {"article": "an" if facts.get("kind", facts.get("value", ""))[:1] == "e" else "a"}
    more["given"] = facts.get("value") or f"'{facts.get('key', '')}'"
    more["usual"] = f"; a long-radius one of this size has {facts['usual']}" if "usual" in facts else ""
    return more
