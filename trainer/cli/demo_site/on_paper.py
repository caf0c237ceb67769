"""A module on paper: its sheets are printed, answered by hand, and keyed in as far as time allowed."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from random import Random
from uuid import UUID, uuid5

from trainer.cli.demo_site.beliefs import Apprentice, as_typed, temper_of
from trainer.cli.demo_site.cast import Player, at
from trainer.domain.attempts import LARGEST_SEED
from trainer.domain.core_results import CoreResults
from trainer.domain.people import Acting
from trainer.scenario_files import scenario_from_document
from trainer.services import keying, paper
from trainer.services.keying import HandingIn
from trainer.services.paper import Printing
from trainer.services.site import Site
from trainer.storage.paper import PaperSheet, list_scenarios

_BLANK_SHEETS = 3
_AN_ANSWER = timedelta(seconds=20)
_IDS = UUID("c6f5b1de-93c0-4c52-8f6c-7c8d6a0e9b42")  # namespace of ids that repeat with the seed


@dataclass
class PaperSet:
    """The sheets of one assignment, printed and keyed in by one instructor.

    Of those who sit it the first has a sheet with a name, the second mislaid theirs and took a blank one, the
    third's sheet is keyed in by half; whoever else there is has a sheet with a name that nobody has begun.
    """

    instructor: Acting
    assignment_id: UUID
    sitting: Sequence[Player]
    seed: int
    core: CoreResults
    _paper_set_id: UUID = field(init=False)

    def print_sheets(self, site: Site) -> None:
        """Prints a sheet for each by name, and some that are blank."""
        dice = Random(f"{self.seed}:paper")  # of its own: what is drawn on screens stays as it is
        self._paper_set_id = paper.print_sheets(
            replace(site, new_seed=lambda: dice.randrange(LARGEST_SEED + 1)),
            self.instructor,
            assignment_id=self.assignment_id,
            printing=Printing(
                paper_set_id=uuid5(_IDS, f"{self.seed}:set"),
                person_ids=tuple(each.acting.person_id for each in self.sitting),
                blank_count=_BLANK_SHEETS,
            ),
        )

    def key_in(self, site: Site, *, sat_on: date, week: float) -> None:
        """Keys in two sheets and hands them in, and half of a third; the answers are those of that week."""
        sheets = paper.set_page(site, self.instructor, paper_set_id=self._paper_set_id).sheets
        named = {each.person_id: each for each in sheets if each.person_id is not None}
        blank = next(each for each in sheets if each.person_id is None)
        first, second, third = self.sitting[:3]
        for player, sheet in ((first, named[first.acting.person_id]), (second, blank)):
            site = self._keyed(site, player, sheet, week=week)
            handing_in = HandingIn(person_id=player.acting.person_id, sat_on=sat_on)
            keying.hand_in_sheet(site, self.instructor, code=sheet.code, handing_in=handing_in)
        self._keyed(site, third, named[third.acting.person_id], week=week, share=0.5)

    def _keyed(
        self, site: Site, player: Player, sheet: PaperSheet, *, week: float, share: float = 1.0
    ) -> Site:
        """Keys in what somebody wrote, or the first share of it; returns the site when that is done."""
        apprentice = Apprentice(temper_of(player.name, seed=self.seed), seed=self.seed)
        with site.database.reading() as work:
            drawn = list_scenarios(work, sheet_id=sheet.sheet_id)
        for number, each in enumerate(drawn[: round(share * len(drawn))], start=1):
            scenario = scenario_from_document(each.drawn)
            for item_id, response in apprentice.answers(scenario, week=week, core=self.core).items():
                site = at(site, site.now() + _AN_ANSWER)
                raw = as_typed(scenario.item(item_id), response)
                keying.keep_keyed(site, self.instructor, code=sheet.code, at=(number, item_id), raw=raw)
        return site
