"""Who may open what, and whose things they may touch; what no row names is denied."""

from dataclasses import replace
from uuid import UUID

import pytest

from trainer.domain.errors import Missing, NotAllowed
from trainer.domain.people import Acting, OrganisationKind, Role
from trainer.domain.permissions import (
    FIRST_ROLES,
    Permission,
    Thing,
    administers,
    may_open,
    may_sign_as_instructor,
    permits,
    require,
    role_fits,
)

HERE, ELSEWHERE, EMPLOYER = (UUID(int=number) for number in (1, 2, 3))
ME, OTHER = UUID(int=11), UUID(int=12)


def acting(*roles: Role, organisation_id: UUID = HERE, kind: OrganisationKind | None = None) -> Acting:
    return Acting(
        person_id=ME,
        organisation_id=organisation_id,
        organisation_kind=kind or OrganisationKind.TRAINING_PROVIDER,
        roles=frozenset(roles),
    )


WHO = {
    "nobody": acting(),
    "apprentice": acting(Role.APPRENTICE),
    "instructor": acting(Role.INSTRUCTOR),
    "administrator": acting(Role.ADMINISTRATOR),
    "employer": acting(Role.EMPLOYER, organisation_id=EMPLOYER, kind=OrganisationKind.EMPLOYER),
    "employer's administrator": acting(
        Role.ADMINISTRATOR, organisation_id=EMPLOYER, kind=OrganisationKind.EMPLOYER
    ),
    "instructor elsewhere": acting(Role.INSTRUCTOR, organisation_id=ELSEWHERE),
}

WHOSE = {
    "own": Thing(organisation_id=HERE, person_id=ME),
    "own elsewhere": Thing(organisation_id=ELSEWHERE, person_id=ME),
    "other": Thing(organisation_id=HERE, person_id=OTHER),
    "other elsewhere": Thing(organisation_id=ELSEWHERE, person_id=OTHER),
    "shared": Thing(organisation_id=HERE, person_id=OTHER, shared_with=frozenset({EMPLOYER})),
    "shared evidence": Thing(
        organisation_id=HERE, person_id=OTHER, shared_with=frozenset({EMPLOYER}), is_evidence=True
    ),
    "shared with another": Thing(
        organisation_id=HERE, person_id=OTHER, shared_with=frozenset({ELSEWHERE}), is_evidence=True
    ),
    "organisation": Thing(organisation_id=HERE),
}

EVERYBODY = set(WHO)
INSTRUCTORS = {"instructor", "instructor elsewhere"}
ADMINISTRATORS = {"administrator", "employer's administrator"}

MAY_OPEN = {
    Permission.USE_ACCOUNT: EVERYBODY,
    Permission.READ_OWN_RECORD: EVERYBODY,
    Permission.GIVE_SHARE: EVERYBODY,
    Permission.END_SHARE: EVERYBODY,
    Permission.PRACTISE: {"apprentice"},
    Permission.TAKE_ASSESSMENT: {"apprentice"},
    Permission.ANSWER_ATTEMPT: {"apprentice"},
    Permission.READ_ATTEMPT: EVERYBODY,
    Permission.TEACH: INSTRUCTORS,
    Permission.MANAGE_CLASS: INSTRUCTORS,
    Permission.MANAGE_MODULE: INSTRUCTORS,
    Permission.MANAGE_OWN_JOB: INSTRUCTORS,
    Permission.PRINT_ON_PAPER: INSTRUCTORS,
    Permission.READ_ANSWER_KEY: INSTRUCTORS,
    Permission.KEY_IN_SHEET: INSTRUCTORS,
    Permission.ASSIGN_MODULE: INSTRUCTORS,
    Permission.READ_RESULTS: INSTRUCTORS,
    Permission.OVERRIDE_SCORE: INSTRUCTORS,
    Permission.GRADE_EXPLANATION: INSTRUCTORS,
    Permission.RECORD_OBSERVATION: INSTRUCTORS,
    Permission.AWARD_QUALIFICATION: INSTRUCTORS,
    Permission.CONFIRM_QUALIFICATION: INSTRUCTORS | {"employer"},
    Permission.SUSPEND_QUALIFICATION: INSTRUCTORS,
    Permission.REVOKE_QUALIFICATION: INSTRUCTORS,
    Permission.READ_QUALIFICATION: EVERYBODY,
    Permission.READ_EVIDENCE: EVERYBODY,
    Permission.LIST_SHARED_PEOPLE: {"employer"},
    Permission.FIND_WHO_CAN: {"employer"},
    Permission.MANAGE_PEOPLE: ADMINISTRATORS,
    Permission.ADD_EMPLOYER: {"administrator"},
    Permission.CHANGE_POLICY: ADMINISTRATORS,
    Permission.READ_LEDGER: ADMINISTRATORS,
}

OF_HERE = {"own", "other", "shared", "shared evidence", "shared with another", "organisation"}
OF_OTHERS_HERE = OF_HERE - {"own", "organisation"}
OWN = {"own", "own elsewhere"}
ANYTHING = set(WHOSE)

# (permission, who) → the things that it holds for; whoever is not named may touch nothing.
MAY_TOUCH = {
    Permission.USE_ACCOUNT: dict.fromkeys(EVERYBODY, ANYTHING),
    Permission.READ_OWN_RECORD: dict.fromkeys(EVERYBODY, ANYTHING),
    Permission.GIVE_SHARE: {"instructor": OF_HERE | OWN, "administrator": OF_HERE | OWN},
    Permission.END_SHARE: {"instructor": OF_HERE | OWN, "administrator": OF_HERE | OWN},
    Permission.PRACTISE: {"apprentice": ANYTHING},
    Permission.TAKE_ASSESSMENT: {"apprentice": {"own"}},
    Permission.ANSWER_ATTEMPT: {"apprentice": {"own"}},
    Permission.READ_ATTEMPT: {"instructor": OF_HERE | OWN, "employer": OWN | {"shared evidence"}},
    Permission.TEACH: dict.fromkeys(INSTRUCTORS, ANYTHING),
    Permission.MANAGE_CLASS: {"instructor": OF_HERE},
    Permission.MANAGE_MODULE: {"instructor": OF_HERE},
    Permission.MANAGE_OWN_JOB: {"instructor": OF_HERE},
    Permission.PRINT_ON_PAPER: {"instructor": OF_HERE},
    Permission.READ_ANSWER_KEY: {"instructor": OF_HERE},
    Permission.KEY_IN_SHEET: {"instructor": OF_HERE},
    Permission.ASSIGN_MODULE: {"instructor": OF_HERE},
    Permission.READ_RESULTS: {"instructor": OF_HERE},
    Permission.OVERRIDE_SCORE: {"instructor": OF_OTHERS_HERE},
    Permission.GRADE_EXPLANATION: {"instructor": OF_OTHERS_HERE},
    Permission.RECORD_OBSERVATION: {"instructor": OF_OTHERS_HERE},
    Permission.AWARD_QUALIFICATION: {"instructor": OF_HERE},
    Permission.CONFIRM_QUALIFICATION: {
        "instructor": OF_OTHERS_HERE,
        "employer": {"shared", "shared evidence"},
    },
    Permission.SUSPEND_QUALIFICATION: {"instructor": OF_OTHERS_HERE},
    Permission.REVOKE_QUALIFICATION: {"instructor": OF_OTHERS_HERE},
    Permission.READ_QUALIFICATION: {
        "instructor": OF_HERE | OWN,
        "employer": OWN | {"shared", "shared evidence"},
    },
    Permission.READ_EVIDENCE: {"instructor": OF_HERE | OWN, "employer": OWN | {"shared evidence"}},
    Permission.LIST_SHARED_PEOPLE: {"employer": ANYTHING},
    Permission.FIND_WHO_CAN: {"employer": ANYTHING},
    Permission.MANAGE_PEOPLE: {"administrator": OF_HERE},
    Permission.ADD_EMPLOYER: {"administrator": ANYTHING},
    Permission.CHANGE_POLICY: {"administrator": OF_HERE},
    Permission.READ_LEDGER: {"administrator": OF_HERE},
}
# People read and share what is their own, in whatever organisation they act and whether or not it has a role
# for them.
OWN_FOR_EVERYBODY = {
    Permission.GIVE_SHARE,
    Permission.END_SHARE,
    Permission.READ_ATTEMPT,
    Permission.READ_QUALIFICATION,
    Permission.READ_EVIDENCE,
}


def test_every_permission_is_in_both_tables() -> None:
    assert set(MAY_OPEN) == set(MAY_TOUCH) == set(Permission)


@pytest.mark.parametrize("permission", Permission)
def test_a_page_opens_for_those_whom_it_is_for(permission: Permission) -> None:
    assert {who for who in WHO if may_open(permission, acting=WHO[who])} == MAY_OPEN[permission]


@pytest.mark.parametrize("who", WHO)
@pytest.mark.parametrize("permission", Permission)
def test_a_permission_holds_for_these_things_alone(permission: Permission, who: str) -> None:
    expected = set(MAY_TOUCH[permission].get(who, set()))
    if permission in OWN_FOR_EVERYBODY:
        expected |= OWN
    if who == "instructor elsewhere":
        expected |= elsewhere(MAY_TOUCH[permission].get("instructor", set()))
    assert {
        whose for whose, thing in WHOSE.items() if permits(permission, acting=WHO[who], thing=thing)
    } == expected


def elsewhere(here: set[str]) -> set[str]:
    """What an instructor of the other organisation may touch, given what one of this may."""
    return {f"{each} elsewhere" for each in ("own", "other") if each in here}


def test_a_thing_that_was_not_given_is_denied_where_it_matters() -> None:
    assert not permits(Permission.READ_ATTEMPT, acting=WHO["instructor"])
    assert permits(Permission.TEACH, acting=WHO["instructor"])


def test_a_role_of_another_day_opens_nothing() -> None:
    lapsed = replace(WHO["instructor"], roles=frozenset())
    assert not may_open(Permission.TEACH, acting=lapsed)


def test_the_wrong_role_is_told_so_and_a_thing_out_of_reach_is_not_there() -> None:
    with pytest.raises(NotAllowed):
        require(Permission.OVERRIDE_SCORE, acting=WHO["apprentice"], thing=WHOSE["own"], what="attempt")
    with pytest.raises(Missing) as missing:
        require(
            Permission.OVERRIDE_SCORE,
            acting=WHO["instructor"],
            thing=WHOSE["other elsewhere"],
            what="attempt",
        )
    assert str(missing.value) == "no such attempt"
    require(Permission.OVERRIDE_SCORE, acting=WHO["instructor"], thing=WHOSE["other"], what="attempt")


@pytest.mark.parametrize(
    ("kind", "roles"),
    [
        (OrganisationKind.TRAINING_PROVIDER, {Role.APPRENTICE, Role.INSTRUCTOR, Role.ADMINISTRATOR}),
        (OrganisationKind.EMPLOYER, {Role.EMPLOYER, Role.ADMINISTRATOR}),
    ],
)
def test_an_organisation_has_the_roles_of_its_kind(kind: OrganisationKind, roles: set[Role]) -> None:
    assert {each for each in Role if role_fits(each, kind=kind)} == roles
    assert set(FIRST_ROLES[kind]) <= roles


def test_authority_comes_from_the_roles_of_that_day() -> None:
    assert may_sign_as_instructor(frozenset({Role.INSTRUCTOR, Role.ADMINISTRATOR}))
    assert not may_sign_as_instructor(frozenset({Role.ADMINISTRATOR}))
    assert {each for each in Role if administers(each)} == {Role.ADMINISTRATOR}
