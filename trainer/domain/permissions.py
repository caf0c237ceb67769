"""Who may do what to whose things: one map from each permission to its alternatives; missing means denied.

A permission is asked twice. `may_open` asks whether a page is for such a person at all, before anything is
looked up; a no answers "not allowed". `permits` asks about one thing; a no answers as if there were none.
Nothing outside this module compares roles.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum, auto
from uuid import UUID

from trainer.domain.errors import Missing, NotAllowed
from trainer.domain.people import Acting, OrganisationKind, Role


class Permission(StrEnum):
    """What can be asked for, named for the act."""

    USE_ACCOUNT = auto()
    READ_OWN_RECORD = auto()
    GIVE_SHARE = auto()
    END_SHARE = auto()
    PRACTISE = auto()
    TAKE_ASSESSMENT = auto()
    ANSWER_ATTEMPT = auto()
    READ_ATTEMPT = auto()
    TEACH = auto()
    MANAGE_CLASS = auto()
    MANAGE_MODULE = auto()
    MANAGE_OWN_JOB = auto()
    ASSIGN_MODULE = auto()
    PRINT_ON_PAPER = auto()
    READ_ANSWER_KEY = auto()
    KEY_IN_SHEET = auto()
    READ_RESULTS = auto()
    OVERRIDE_SCORE = auto()
    GRADE_EXPLANATION = auto()
    RECORD_OBSERVATION = auto()
    AWARD_QUALIFICATION = auto()
    CONFIRM_QUALIFICATION = auto()
    SUSPEND_QUALIFICATION = auto()
    REVOKE_QUALIFICATION = auto()
    READ_QUALIFICATION = auto()
    READ_EVIDENCE = auto()
    LIST_SHARED_PEOPLE = auto()
    FIND_WHO_CAN = auto()
    MANAGE_PEOPLE = auto()
    ADD_EMPLOYER = auto()
    CHANGE_POLICY = auto()
    READ_LEDGER = auto()


@dataclass(frozen=True, kw_only=True)
class Thing:
    """What a permission is asked about: the organisation it belongs to, the person it is about, and the
    employers that see that person's record today."""

    organisation_id: UUID | None = None
    person_id: UUID | None = None
    shared_with: frozenset[UUID] = frozenset()
    is_evidence: bool = False  # stands behind a qualification, which is what a share shows


Who = Callable[[Acting], bool]
Whose = Callable[[Acting, Thing], bool]


@dataclass(frozen=True)
class Alternative:
    """One way to hold a permission: such a person, and every one of these about the thing."""

    who: Who
    whose: tuple[Whose, ...] = ()

    def holds(self, acting: Acting, *, thing: Thing | None) -> bool:
        """Whether this way is open; where the thing matters, none given means no."""
        if not self.who(acting):
            return False
        return all(thing is not None and whose(acting, thing) for whose in self.whose)


def may_open(permission: Permission, *, acting: Acting) -> bool:
    """Whether a page that asks for the permission is for such a person at all."""
    return any(each.who(acting) for each in _ALTERNATIVES.get(permission, ()))


def permits(permission: Permission, *, acting: Acting, thing: Thing | None = None) -> bool:
    """Whether the permission is held for this thing."""
    return any(each.holds(acting, thing=thing) for each in _ALTERNATIVES.get(permission, ()))


def require(
    permission: Permission, *, acting: Acting, thing: Thing | None = None, what: str = "thing"
) -> None:
    """Raises NotAllowed where the role forbids it, Missing where only this thing is out of reach."""
    if not may_open(permission, acting=acting):
        raise NotAllowed(f"not allowed: {permission.value}")
    if not permits(permission, acting=acting, thing=thing):
        raise Missing(what)


def role_fits(role: Role, *, kind: OrganisationKind) -> bool:
    """Whether such an organisation has such a role."""
    return role in _ROLES_OF_KIND[kind]


def may_sign_as_instructor(roles: frozenset[Role]) -> bool:
    """Whether these roles, held on one day, gave the authority to observe, award and withdraw."""
    return Role.INSTRUCTOR in roles


def administers(role: Role) -> bool:
    """Whether the role manages an organisation's people; each organisation keeps one who does."""
    return role is Role.ADMINISTRATOR


# What the first person of a new organisation may do: manage its people, and the work that it is there for.
FIRST_ROLES = {
    OrganisationKind.TRAINING_PROVIDER: (Role.ADMINISTRATOR, Role.INSTRUCTOR),
    OrganisationKind.EMPLOYER: (Role.ADMINISTRATOR, Role.EMPLOYER),
}

_ROLES_OF_KIND = {
    OrganisationKind.TRAINING_PROVIDER: frozenset({Role.APPRENTICE, Role.INSTRUCTOR, Role.ADMINISTRATOR}),
    OrganisationKind.EMPLOYER: frozenset({Role.EMPLOYER, Role.ADMINISTRATOR}),
}


def _anybody(acting: Acting) -> bool:  # noqa: ARG001
    return True


def _apprentice(acting: Acting) -> bool:
    return Role.APPRENTICE in acting.roles


def _instructor(acting: Acting) -> bool:
    return Role.INSTRUCTOR in acting.roles


def _employer(acting: Acting) -> bool:
    return Role.EMPLOYER in acting.roles


def _administrator(acting: Acting) -> bool:
    return Role.ADMINISTRATOR in acting.roles


def _provider_administrator(acting: Acting) -> bool:
    return _administrator(acting) and acting.organisation_kind is OrganisationKind.TRAINING_PROVIDER


def _own(acting: Acting, thing: Thing) -> bool:
    return thing.person_id == acting.person_id


def _not_own(acting: Acting, thing: Thing) -> bool:
    return thing.person_id is not None and thing.person_id != acting.person_id


def _of_organisation(acting: Acting, thing: Thing) -> bool:
    return thing.organisation_id == acting.organisation_id


def _shared(acting: Acting, thing: Thing) -> bool:
    return acting.organisation_id in thing.shared_with


def _evidence(acting: Acting, thing: Thing) -> bool:  # noqa: ARG001
    return thing.is_evidence


_OWN = Alternative(_anybody, (_own,))
_OWN_AS_APPRENTICE = Alternative(_apprentice, (_own, _of_organisation))
_INSTRUCTOR_HERE = Alternative(_instructor, (_of_organisation,))
_INSTRUCTOR_OF_ANOTHER_PERSON = Alternative(_instructor, (_of_organisation, _not_own))
_ADMINISTRATOR_HERE = Alternative(_administrator, (_of_organisation,))
_EMPLOYER_SHARED = Alternative(_employer, (_shared,))
_EMPLOYER_SHARED_EVIDENCE = Alternative(_employer, (_shared, _evidence))

_ALTERNATIVES: Mapping[Permission, tuple[Alternative, ...]] = {
    Permission.USE_ACCOUNT: (Alternative(_anybody),),
    Permission.READ_OWN_RECORD: (Alternative(_anybody),),
    Permission.GIVE_SHARE: (_OWN, _INSTRUCTOR_HERE, _ADMINISTRATOR_HERE),
    Permission.END_SHARE: (_OWN, _INSTRUCTOR_HERE, _ADMINISTRATOR_HERE),
    Permission.PRACTISE: (Alternative(_apprentice),),
    Permission.TAKE_ASSESSMENT: (_OWN_AS_APPRENTICE,),
    Permission.ANSWER_ATTEMPT: (_OWN_AS_APPRENTICE,),
    Permission.READ_ATTEMPT: (_OWN, _INSTRUCTOR_HERE, _EMPLOYER_SHARED_EVIDENCE),
    Permission.TEACH: (Alternative(_instructor),),
    Permission.MANAGE_CLASS: (_INSTRUCTOR_HERE,),
    Permission.MANAGE_MODULE: (_INSTRUCTOR_HERE,),
    Permission.MANAGE_OWN_JOB: (_INSTRUCTOR_HERE,),
    Permission.ASSIGN_MODULE: (_INSTRUCTOR_HERE,),
    Permission.PRINT_ON_PAPER: (_INSTRUCTOR_HERE,),
    Permission.READ_ANSWER_KEY: (_INSTRUCTOR_HERE,),
    Permission.KEY_IN_SHEET: (_INSTRUCTOR_HERE,),
    Permission.READ_RESULTS: (_INSTRUCTOR_HERE,),
    Permission.OVERRIDE_SCORE: (_INSTRUCTOR_OF_ANOTHER_PERSON,),
    Permission.GRADE_EXPLANATION: (_INSTRUCTOR_OF_ANOTHER_PERSON,),
    Permission.RECORD_OBSERVATION: (_INSTRUCTOR_OF_ANOTHER_PERSON,),
    # An award to oneself is refused by the rules of qualifications, which say why.
    Permission.AWARD_QUALIFICATION: (_INSTRUCTOR_HERE,),
    Permission.CONFIRM_QUALIFICATION: (
        _INSTRUCTOR_OF_ANOTHER_PERSON,
        Alternative(_employer, (_shared, _not_own)),
    ),
    Permission.SUSPEND_QUALIFICATION: (_INSTRUCTOR_OF_ANOTHER_PERSON,),
    Permission.REVOKE_QUALIFICATION: (_INSTRUCTOR_OF_ANOTHER_PERSON,),
    Permission.READ_QUALIFICATION: (_OWN, _INSTRUCTOR_HERE, _EMPLOYER_SHARED),
    Permission.READ_EVIDENCE: (_OWN, _INSTRUCTOR_HERE, _EMPLOYER_SHARED_EVIDENCE),
    Permission.LIST_SHARED_PEOPLE: (Alternative(_employer),),
    Permission.FIND_WHO_CAN: (Alternative(_employer),),
    Permission.MANAGE_PEOPLE: (_ADMINISTRATOR_HERE,),
    Permission.ADD_EMPLOYER: (Alternative(_provider_administrator),),
    Permission.CHANGE_POLICY: (_ADMINISTRATOR_HERE,),
    Permission.READ_LEDGER: (_ADMINISTRATOR_HERE,),
}
