"""What cautions say: the danger first, then the reason, by code and by a fact where the words turn on one."""

from collections.abc import Iterator, Mapping

CAUTIONS: Mapping[str, tuple[str, str]] = {
    "asphyxiation": (
        "%(Gas)s takes the place of air: at %(oxygen)s nobody goes in without a test, a watch and a permit.",
        "people need at least %(limit_oxygen)s oxygen, and nothing about this gas warns them; nobody goes in"
        " to fetch anybody out without supplied air and the rescue plan",
    ),
    "asphyxiation/face_above_pool_m": (
        "%(Gas)s lies %(pool_depth)s deep where a face is %(face_height)s above the floor: test at the bottom"
        " before anyone goes in.",
        "unmixed, the gas that escapes stays as a layer with no oxygen in it; permit and watch come first,"
        " and nobody goes in to fetch anybody out without supplied air",
    ),
    "asphyxiation/closed_place_count": (
        "%(Gas)s collects in the %(place)s: lead the vent outside, and test before anyone goes in.",
        "the vent's gas is led into a closed place, where it takes the place of air without any warning;"
        " entry is by permit, with a meter, a watch outside and a rescue plan",
    ),
    "collects-at-ceiling": (
        "%(Gas)s lies %(pool_depth)s deep under the ceiling where a face is %(face_height)s above the floor:"
        " test high up before anyone goes in.",
        "unmixed, a gas lighter than air fills the space from the top down; permit and watch come first, and"
        " nobody goes in to fetch anybody out without supplied air",
    ),
    "inside-purged-pipe": (
        "The air in the pipe kills whoever is inside while it is purged: out, and nobody puts even"
        " the head in.",
        "purging makes it immediately dangerous to life, and a head past the opening is an entry: only by"
        " permit, with a meter, a watch outside and a rescue plan",
    ),
    "supply-could-empty-here": (
        "Air to breathe falls to %(emptied)s oxygen if the supply empties into the %(place)s: stand it"
        " outside, or ventilate and keep a meter running.",
        "it holds %(held)s of %(gas)s, and a relief that lifts or a hose that comes off lets out all of it;"
        " below %(limit_emptied)s everybody leaves, and whoever fetches somebody out needs supplied air, a"
        " watch and the rescue plan",
    ),
    "boil-off-collects": (
        "Air runs short in the %(place)s with nobody at work: boil-off alone brings it down to %(steady)s"
        " oxygen; stand the vessel outside or ventilate, and test before anyone goes in.",
        "the vessel vents %(boil_off)s day and night, and cold gas lies low at first; a meter in the room and"
        " the site's permit and rescue plan decide, not this sum",
    ),
    "enriched-air": (
        "Fire takes hold at once in air with %(fresh)s oxygen: no arc and no flame until a meter reads fresh"
        " air.",
        "above %(limit_fresh)s the air is enriched, and cloth, hair and grease burn fiercely; find and shut"
        " off the oxygen, never freshen air with it; the permit decides when work goes on",
    ),
    "gas-not-for-material": (
        "%(Gas)s spoils %(material)s: never use it there.",
        "%(why)s",
    ),
    "gas-not-for-material/procedure_count": (
        "%(Gas)s may spoil %(material)s: use it only where a qualified procedure says so.",
        "%(why)s",
    ),
    "hydrogen-burns": (
        "The purge gas can burn where it leaves: it holds %(hydrogen)s hydrogen. Keep sparks and the arc off"
        " the vent, and follow the permit and the site's rules.",
        "from about %(limit_hydrogen)s hydrogen burns once it is among air, with a flame that is hard to see",
    ),
    "gas-is-damp": (
        "The root colours from damp gas: it holds %(moisture)s of water, a frost point of %(frost)s.",
        "over %(limit_moisture)s of water oxidise the root as oxygen does, and the analyser does not show it",
    ),
    "no-purge-needed": (
        "Gas is wasted on a %(material)s root: it needs no back purge in ordinary service.",
        "carbon steel roots are welded without a purge as a rule; the procedure decides",
    ),
    "floor-above-target": (
        "The root never gets down to %(target)s: oxygen stops falling at %(floor)s, however long you wait.",
        "%(causes)s",
    ),
    "root-lost": (
        "The root is lost at %(oxygen)s oxygen: it has to come out again.",
        "that is %(oxygen_ratio)s times the limit of %(material_limit)s, and it counts as lost from"
        " %(limit_oxygen_ratio)s times",
    ),
    "oxygen-above-target": (
        "The root oxidises: at %(oxygen)s it is not ready for the arc.",
        "the target is %(target)s",
    ),
    "oxygen-comes-back": (
        "The root oxidises under the arc: it sees up to %(highest)s oxygen after the arc is struck.",
        "gas fails or air comes in while the root is hot; stop, purge again; the target is %(target)s",
    ),
    "hold-lets-air-in/bleeding": (
        "Air comes back during the weld: the root sees %(highest)s oxygen before the hold is over.",
        "the hold flow thins less what comes out of '%(bleeding)s' or in through what is open;"
        " the target is %(target)s",
    ),
    "hold-lets-air-in/highest_frac": (
        "Air comes back during the weld: the root sees %(highest)s oxygen before the hold is over.",
        "what is open lets in more air than the hold flow carries off; the target is %(target)s",
    ),
    "oxygen-rising": (
        "Air is getting in: the reading rose from %(earlier)s to %(later)s.",
        "a sound purge only falls; before you wait on, look for a line out or pinched, torn tape, a leak",
    ),
    "floor-reached": (
        "Waiting does not get you there: the reading stands at %(later)s, and the target is %(target)s.",
        "it no longer falls as a purge does; look at tape, vent, fittings, dams and gas for what brings air",
    ),
    "hold-lets-air-in": (
        "Air comes back during the weld: the hold flow ends at %(floor)s oxygen.",
        "what is open lets in more air than the hold flow carries off; the target is %(target)s",
    ),
    "supply-runs-out": (
        "The gas runs out before the joint is done: %(usable)s can be drawn and %(needed)s are needed.",
        "what has to stay in the supply is taken off",
    ),
    "change-before-next-joint": (
        "The gas runs out during the next joint: %(left)s are left after this one and %(needed)s are needed."
        " Change the supply between the joints.",
        "a change in the middle of a joint lets air in while the line is open",
    ),
    "supply-cannot-deliver": (
        "The supply cannot keep up the flow: it gives %(deliverable)s and %(flow)s are wanted.",
        "beyond that a regulator starves, and a vaporiser ices up and sends cold gas, then liquid",
    ),
    "boils-off-unused": (
        "Gas is lost between the joints: %(boils_off)s boil off and a joint takes %(needed)s.",
        "a vessel of liquid vents day and night where it stands; a smaller one or cylinders lose less",
    ),
    "hose-starves-flow": (
        "The purge starves: the hose passes %(largest)s and %(flow)s are wanted.",
        "its bore, length, kink and the regulator's pressure allow no more",
    ),
    "dam-too-close": (
        "The %(side)s dam burns or melts: it comes to %(temperature)s and stands %(dam_limit)s.",
        "that close to the arc, %(dam)s gets too hot",
    ),
    "dams-heat-up": (
        "The %(side)s dam burns or melts as the passes go on: it builds up towards %(temperature)s and stands"
        " %(dam_limit)s.",
        "an arc that hardly pauses heats the pipe further than its first pass; let the joint cool between"
        " passes, or move the dam out",
    ),
    "rope-too-short": (
        "The %(side)s dam stays in the pipe: its rope is %(rope)s long and the way out is %(way)s.",
        "what cannot be drawn out is left inside the line, and nobody goes in after it without a permit, a"
        " meter and a watch; count dams and ropes out",
    ),
    "burns-near-weld": (
        "%(Part)s burns or melts near the weld: it comes to %(temperature)s and %(material)s stands"
        " %(part_limit)s.",
        "it lies too close to the arc; smoke in the pipe spoils the root and the air, and fire starts when"
        " air comes back",
    ),
    "dead-leg": (
        "Air stays trapped in '%(part)s': vent it at that point, for by itself it needs %(time)s.",
        "a closed %(which)s point without a vent: %(gas)s passes %(side)s it, only diffusion clears it, and"
        " what comes out goes past the root",
    ),
    "high-point-crossed": (
        "Air lingers at '%(part)s': with the vent there the purge takes %(vented)s instead of %(time)s.",
        "the gas has to cross a %(which)s point without a vent: %(gas)s runs along the %(side)s of the pipe"
        " and leaves the air beside it, and what it falls into beyond is stirred instead of pushed out",
    ),
    "vent-beyond-pool": (
        "Air stays trapped: %(pocket)s of the section lies beyond the vent.",
        "%(gas)s fills the section from its own side, and what lies past the vent only empties by diffusion",
    ),
    "placement-untrusted": (
        "%(Gas)s does not settle: trust no placement of inlet and vent with it.",
        "it differs from air by %(density_difference)s in weight, which a few degrees undo",
    ),
    "vent-too-small": (
        "The tape or the bead blows out: the vent makes %(pressure)s in the section.",
        "the surface of the pool bridges an open gap only up to about %(limit_pressure)s",
    ),
    "vent-blocked": (
        "The vent is blocked: the air stays in, and the pressure of the gas finds the bead, the tape or"
        " a dam.",
        "gas leaves only where the joint is still open, and without a vent no time to purge is given;"
        " open the vent before the gas goes on",
    ),
    "blows-the-bead": (
        "The bead is blown out as the last of the joint closes: the gas presses with %(pressure)s and the"
        " pool only with %(pool_head)s.",
        "%(left_open)s of open root and the vent let the gas out no easier; lower the flow or open the vent"
        " before the tie-in",
    ),
    "blows-the-bead/build_up_s": (
        "The bead is blown out: with vent and joint shut, the gas overcomes the pool's %(pool_head)s within"
        " %(build_up)s.",
        "nothing lets the gas out, so its pressure never stops rising; open the vent before the last of the"
        " joint closes",
    ),
    "pressure-on-bead": (
        "The root is pushed in: the gas presses with %(pressure)s on the bead while you weld.",
        "from about %(limit_pressure)s the root turns flat or concave; lower the hold flow or open the vent",
    ),
    "vent-too-large": (
        "Air comes in through the vent: %(flow)s leave there and %(needed)s would keep it out.",
        "a large opening lets gas out below and air in above at the same time",
    ),
    "vent-reading-flatters": (
        "The root holds more oxygen than you read: %(root_ratio)s times what the analyser at the vent shows.",
        "the vent sees gas that has already gone past the worst place",
    ),
    "beyond-tested-range": (
        "The figures are less certain here: they lie beyond what was simulated.",
        "%(reasons)s",
    ),
    "beyond-tested-range/target_frac": (
        "The figures are less certain here: they lie beyond what was simulated.",
        "the target of %(target)s lies below %(limit_target)s, where the simulated purges were left off",
    ),
}

CAUSES = {
    "gas-carries-oxygen": "the purge gas carries oxygen itself",
    "vent-lets-air-in": "air comes in through the vent against the gas that leaves",
    "gap-lets-air-in": "air comes in through the open joint",
    "leak-lets-air-in": "a leak draws air in",
    "old-foam-lets-air-in": "air comes in along the edge of an old foam dam",
    "fallen-line-lets-air-in": "the line is out, gas runs off and air takes its place",
    "no-gas-flows": "no gas flows any more",
    "vent-blocked": "the vent is blocked and the joint closed, so that the air has no way out",
    "stages-end-first": "the stages given end before the oxygen is down",
}


def messages() -> Iterator[str]:
    """Everything that is said here, as it is handed to the translate function."""
    yield from (each for pair in CAUTIONS.values() for each in pair if each != "%(why)s")
    yield from CAUSES.values()
