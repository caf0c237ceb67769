"""Two months at the school, day by day: practice, three modules, booth observations, awards and shares."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from random import Random
from uuid import UUID, uuid5

from trainer.cli.demo_site.beliefs import Apprentice, as_typed, temper_of
from trainer.cli.demo_site.cast import CLASSES, Cast, Player, assemble, at
from trainer.cli.demo_site.courses import courses
from trainer.cli.demo_site.grades import grade_most
from trainer.cli.demo_site.on_paper import PaperSet
from trainer.cli.demo_site.school_jobs import publish, write_draft
from trainer.core.terms import MaterialGroup, RootGrade
from trainer.domain.attempts import LARGEST_SEED
from trainer.domain.core_results import CoreResults
from trainer.domain.overrides import Override
from trainer.domain.people import Term
from trainer.domain.qualifications import Observation
from trainer.domain.reasons import RefusedFor
from trainer.scenario_files import scenario_from_document
from trainer.services import assessment, grading, practice, qualifying, results, sharing, teaching
from trainer.services.assessment import HandedIn
from trainer.services.qualifying import Award
from trainer.services.sharing import Offer
from trainer.services.site import Site
from trainer.services.teaching import Giving
from trainer.storage import attempts

DAYS = 60
_MINUTE = timedelta(minutes=1)
_PRACTICE_DAYS = (4, 11, 18, 30, 44)
_PRACTICE_DIFFICULTY = (0.0, 0.2, 0.4, 0.5, 0.5)
_MODULE_DAYS = (22, 36, 48)  # taken within a week from then
_SECOND_TRY = 3  # days after a failed one
_OWN_JOB_DAY, _OWN_DRAFT_DAY = 5, 54
_PAPER_DAY = DAYS - 3  # printed, sat on the next day, and keyed in on the one after
_IDS = UUID("6f1a2f1e-5d1c-4a7e-9a6b-3f2f0d5b1c11")  # namespace of ids that repeat with the seed


@dataclass
class Progress:
    """What the history has led to so far."""

    passed: dict[UUID, list[UUID]] = field(default_factory=dict)  # person → passed assessed attempts
    done: set[tuple[UUID, UUID]] = field(default_factory=set)  # person and assignment
    failed: list[tuple[Player, HandedIn]] = field(default_factory=list)
    waiting: dict[UUID, Player] = field(default_factory=dict)  # attempts with nothing but a grade missing
    awarded: list[tuple[Player, UUID]] = field(default_factory=list)


class History:
    """Acts the two months out on a site whose clock it sets."""

    def __init__(self, site: Site, *, today: datetime, seed: int, tick: Callable[[], None]) -> None:
        self._dice = Random(f"{seed}:history")
        self._site = site
        self._start = today - timedelta(days=DAYS)
        self._seed = seed
        self._tick = tick
        self._core = CoreResults(site.content.policy)
        self._progress = Progress()

    def act_out(self) -> Cast:
        """The whole of it; returns who is in it."""
        cast = assemble(self._at(0, 8), seed=self._seed, tick=self._tick)
        players = [
            (player, Apprentice(temper_of(player.name, seed=self._seed), seed=self._seed))
            for player in cast.apprentices
        ]
        assignments = self._teach(cast)
        on_paper = self._on_paper(cast, assignments[-1])
        for day in range(1, DAYS):
            self._day(day, cast, players, assignments)
            self._evening(day, cast, on_paper)
        return cast

    def _at(self, day: int, hour: float) -> Site:
        midnight = self._start.replace(hour=0, minute=0, second=0, microsecond=0)
        return at(self._site, midnight + timedelta(days=day, hours=hour))

    def _teach(self, cast: Cast) -> list[dict[UUID, UUID]]:
        """Classes, modules and assignments; for each module the assignment of every apprentice."""
        site = self._at(0, 9)
        groups = []
        for number, name in enumerate(CLASSES):
            teacher = cast.instructors[number].acting
            class_id = teaching.make_class(site, teacher, name=name)
            members = cast.apprentices[number :: len(CLASSES)]
            for member in members:
                teaching.add_to_class(site, teacher, class_id=class_id, person_id=member.acting.person_id)
            groups.append((teacher, class_id, members))
        given: list[dict[UUID, UUID]] = []
        for day, course in zip(_MODULE_DAYS, courses(site.content.policy), strict=True):
            module_id = teaching.make_module(
                self._at(0, 10), cast.head.acting, title=course.title, blueprint=course.blueprint
            )
            due = self._at(day + 16, 0).today()
            giving = Giving(module_id=module_id, due_on=due, attempts_allowed=2)
            of_person: dict[UUID, UUID] = {}
            for teacher, class_id, members in groups:
                assigned = teaching.assign_to_class(site, teacher, giving=giving, class_id=class_id)
                of_person |= {member.acting.person_id: assigned for member in members}
            given.append(of_person)
        return given

    def _day(
        self,
        day: int,
        cast: Cast,
        players: list[tuple[Player, Apprentice]],
        assignments: list[dict[UUID, UUID]],
    ) -> None:
        for number, (player, apprentice) in enumerate(players):
            hour = 9.0 + number * 0.25
            for turn, practice_day in enumerate(_PRACTICE_DAYS):
                if day == practice_day + number % 4:
                    self._practise(self._at(day, hour), player, apprentice, turn)
                    self._tick()
            for turn, module_day in enumerate(_MODULE_DAYS):
                assigned = assignments[turn][player.acting.person_id]
                if day - module_day - number % 7 in (0, _SECOND_TRY) and self._sits(number, turn):
                    self._sit(self._at(day, hour), player, apprentice, assigned)
                    self._tick()
        if day == DAYS - 2:
            self._sign_off(cast)

    def _evening(self, day: int, cast: Cast, on_paper: PaperSet) -> None:
        """What instructors do when the class has gone home; the own job is tried at once."""
        site = self._at(day, 19)
        if day == _OWN_JOB_DAY:
            self._try_own_job(site, cast.apprentice, publish(site, cast.head.acting))
        if day == _OWN_DRAFT_DAY:
            write_draft(site, cast.instructors[1].acting)
        if day == _PAPER_DAY:
            on_paper.print_sheets(site)
        if day == _PAPER_DAY + 2:
            sat = self._at(day - 1, 12)
            on_paper.key_in(site, sat_on=sat.today(), week=(day - 1) / 7)

    def _on_paper(self, cast: Cast, assignments: dict[UUID, UUID]) -> PaperSet:
        """The sheets of the evening class for those who do not sit the last module on a screen."""
        open_to = [
            player for number, player in enumerate(cast.apprentices)
            if number % len(CLASSES) == 1 and not self._sits(number, len(_MODULE_DAYS) - 1)
        ]  # fmt: skip
        return PaperSet(
            instructor=cast.instructors[1].acting,
            assignment_id=assignments[open_to[0].acting.person_id],
            sitting=open_to,
            seed=self._seed,
            core=self._core,
        )

    def _try_own_job(self, site: Site, player: Player, family: str) -> None:
        # seeds and dice of its own: what else happens at the school stays as it would be without it
        dice = Random(f"{self._seed}:own job")
        apprentice = Apprentice(temper_of(player.name, seed=self._seed), seed=self._seed)
        attempt_id = practice.start_practice(
            replace(site, new_seed=lambda: dice.randrange(LARGEST_SEED + 1)),
            player.acting,
            family=family,
            difficulty=0.5,
        )
        self._answer(site, player, apprentice, attempt_id)

    def _sits(self, number: int, turn: int) -> bool:
        # the last module is still open for a third of the people: a list with nothing due shows nothing
        return turn < len(_MODULE_DAYS) - 1 or number % 3 != 2

    def _practise(self, site: Site, player: Player, apprentice: Apprentice, turn: int) -> None:
        families = list(site.content.families)
        family = families[(turn + self._dice.randrange(2)) % len(families)]
        attempt_id = practice.start_practice(
            site, player.acting, family=family, difficulty=_PRACTICE_DIFFICULTY[turn]
        )
        self._answer(site, player, apprentice, attempt_id)

    def _sit(self, site: Site, player: Player, apprentice: Apprentice, assignment_id: UUID) -> None:
        if (player.acting.person_id, assignment_id) in self._progress.done:
            return
        attempt_id = assessment.start_assignment(site, player.acting, assignment_id=assignment_id)
        handed_in = self._answer(site, player, apprentice, attempt_id)
        if handed_in.passed:
            self._progress.passed.setdefault(player.acting.person_id, []).append(attempt_id)
            self._progress.done.add((player.acting.person_id, assignment_id))
        elif handed_in.passed is None:
            self._progress.waiting[attempt_id] = player
            self._progress.done.add((player.acting.person_id, assignment_id))
        else:
            self._progress.failed.append((player, handed_in))

    def _answer(self, site: Site, player: Player, apprentice: Apprentice, attempt_id: UUID) -> HandedIn:
        week = (site.now() - self._start).days / 7
        clock = site.now()
        with site.database.reading() as work:
            drawn = attempts.list_drawn(work, attempt_id=attempt_id)
        for number, document in drawn:
            scenario = scenario_from_document(document)
            for item_id, response in apprentice.answers(scenario, week=week, core=self._core).items():
                clock += _MINUTE
                assessment.keep_response(
                    at(site, clock),
                    player.acting,
                    attempt_id=attempt_id,
                    scenario_no=number,
                    item_id=item_id,
                    raw=as_typed(scenario.item(item_id), response),
                )
        page = assessment.attempt_page(at(site, clock), player.acting, attempt_id=attempt_id)
        return assessment.hand_in(
            at(site, clock + _MINUTE), player.acting, attempt_id=attempt_id, token=page.hand_in_token
        )

    def _sign_off(self, cast: Cast) -> None:
        """Grades, observations, one score put right, awards, shares with the employer, one suspension."""
        site = self._at(DAYS - 2, 18)
        passed = grade_most(site, cast.instructors[0].acting, dice=self._dice)
        for attempt_id, player in self._progress.waiting.items():
            if attempt_id in passed:
                self._progress.passed.setdefault(player.acting.person_id, []).append(attempt_id)
        self._put_one_right(site, cast)
        with_enough = [
            player for player in cast.apprentices
            if len(self._progress.passed.get(player.acting.person_id, ())) >= 2
        ]  # fmt: skip
        for number, player in enumerate(with_enough):
            self._award(site, cast, player, number)
            self._tick()
        for player, _ in self._progress.awarded[: max(1, len(self._progress.awarded) - 2)]:
            offer = Offer(
                employer_id=cast.employer.acting.organisation_id,
                basis="placement at the yard",
                consent_on_file=f"consent form of {site.today():%d %b %Y}, school office",
                term=Term(starts=site.today(), ends=site.today() + timedelta(days=365)),
            )
            sharing.give_share(site, player.acting, person_id=player.acting.person_id, offer=offer)
        if len(self._progress.awarded) > 3:
            _, qualification_id = self._progress.awarded[2]
            qualifying.suspend(
                site,
                cast.head.acting,
                qualification_id=qualification_id,
                reason_given="Meter used in the booth found out of calibration; to be observed again.",
            )

    def _award(self, site: Site, cast: Cast, player: Player, number: int) -> None:
        instructor = cast.instructors[(number + 1) % len(cast.instructors)].acting
        person_id = player.acting.person_id
        observation = Observation(
            observation_id=uuid5(_IDS, f"{self._seed}:observation:{person_id}"),
            person_id=person_id,
            organisation_id=instructor.organisation_id,
            observed_by=instructor.person_id,
            observed_on=site.today(),
            material=MaterialGroup.AUSTENITIC_STAINLESS,
            gas="I1",
            outside_diameter_m=0.1683,
            oxygen_at_strike_frac=self._dice.choice((180e-6, 320e-6, 450e-6, 600e-6)),
            root_grade=self._dice.choice((RootGrade.STRAW, RootGrade.GOLD)),
            confined_space=True,
            accepted=True,
            analyser_serial=f"MW-{self._dice.randrange(1000, 9999)}",
            analyser_calibrated_until=site.today() + timedelta(days=90),
            notes="Booth 2, 6 in coupon, test plate struck before the root.",
        )
        grading.record_observation(site, instructor, observation=observation)
        award = Award(
            person_id=person_id,
            attempt_ids=tuple(self._progress.passed[person_id]),
            observation_ids=(observation.observation_id,),
            award_token=uuid5(_IDS, f"{self._seed}:award:{person_id}"),
        )
        try:
            self._progress.awarded.append((player, qualifying.award(site, instructor, award=award)))
        except RefusedFor:
            return  # not enough behind it yet: the instructor's award page says what is missing

    def _put_one_right(self, site: Site, cast: Cast) -> None:
        for _, handed_in in self._progress.failed:
            page = results.result_page(site, cast.head.acting, attempt_id=handed_in.attempt_id)
            marks = (mark for scenario in page.scenarios for mark in scenario.marks)
            mark = next((each for each in marks if 0.0 < (each.score or 0.0) < 1.0), None)
            if mark is None:
                continue
            override = Override(
                scenario_no=mark.scenario_no,
                item_id=mark.item_id,
                score_frac=1.0,
                critical_missed=mark.critical_missed,
                reason="Worked from the larger flow read aloud in the booth; the answer fits that flow.",
                of_version=page.marking.version,
            )
            grading.override_score(site, cast.head.acting, attempt_id=handed_in.attempt_id, override=override)
            return
