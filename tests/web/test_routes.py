"""Every route × every role × signed out × strangers from other organisations, against one explicit table.

What a route answers to those whom it is for depends on what is sent: here every form is sent empty. To all
others there are three answers: sign in first (303), not a page for this role (403), no such thing (404).
"""

from dataclasses import asdict
from typing import Any
from uuid import uuid4

import pytest
from flask import Flask, url_for
from furnishing import Things
from werkzeug.routing import Rule

from trainer.web.access import stamp_of

COLUMNS = (
    "apprentice", "second_apprentice", "instructor", "employer", "admin",
    "other_apprentice", "other_instructor", "other_employer", "other_admin", "employer_admin",
)  # fmt: skip

# Things belong to the apprentice of the first training centre; `employer` sees that record, nobody else does.
TABLE = {
    "account.act_in": "303 303 303 404 303 404 404 404 404 404",
    "account.change_password": "200 200 200 200 200 200 200 200 200 200",
    "account.do_change_password": "422 422 422 422 422 422 422 422 422 422",
    "account.do_end_own_share": "422 404 404 404 404 404 404 404 404 404",
    "account.do_sign_in": "422 422 422 422 422 422 422 422 422 422",
    "account.end_own_share": "200 404 404 404 404 404 404 404 404 404",
    "account.give_own_share": "422 422 422 422 422 422 422 422 422 422",
    "account.invitation": "200 200 200 200 200 200 200 200 200 200",
    "account.keep_preferences": "422 422 422 422 422 422 422 422 422 422",
    "account.own_account": "200 200 200 200 200 200 200 200 200 200",
    "account.own_record": "200 200 200 200 200 200 200 200 200 200",
    "account.sign_in": "302 302 302 302 302 302 302 302 302 302",
    "account.sign_out": "303 303 303 303 303 303 303 303 303 303",
    "account.sign_out_elsewhere": "303 303 303 303 303 303 303 303 303 303",
    "account.take_up_invitation": "422 422 422 422 422 422 422 422 422 422",
    "admin.add_employer": "403 403 403 403 422 403 403 403 422 403",
    "admin.add_person": "403 403 403 403 422 403 403 403 422 422",
    "admin.added": "403 403 403 403 302 403 403 403 302 302",
    "admin.change_policy": "403 403 403 403 422 403 403 403 422 422",
    "admin.do_end_role": "403 403 403 403 422 403 403 403 404 404",
    "admin.employers": "403 403 403 403 200 403 403 403 200 403",
    "admin.end_role": "403 403 403 403 200 403 403 403 404 404",
    "admin.give_role": "403 403 403 403 422 403 403 403 404 404",
    "admin.invite_again": "403 403 403 403 303 403 403 403 404 404",
    "admin.ledger_state": "403 403 403 403 200 403 403 403 200 200",
    "admin.people": "403 403 403 403 200 403 403 403 200 200",
    "admin.person": "403 403 403 403 200 403 403 403 404 404",
    "admin.policy_in_force": "403 403 403 403 200 403 403 403 200 200",
    "apprentice.assignments": "200 200 403 403 403 200 403 403 403 403",
    "apprentice.attempt": "302 404 403 403 403 404 403 403 403 403",
    "apprentice.before_hand_in": "200 404 403 403 403 404 403 403 403 403",
    "apprentice.before_start": "200 404 403 403 403 404 403 403 403 403",
    "apprentice.choose_practice": "200 200 403 403 403 200 403 403 403 403",
    "apprentice.go_on": "303 404 403 403 403 404 403 403 403 403",
    "apprentice.hand_in": "400 404 403 403 403 404 403 403 403 403",
    "apprentice.keep_item": "303 404 403 403 403 404 403 403 403 403",
    "apprentice.result": "200 404 200 200 404 404 404 404 404 404",
    "apprentice.scenario": "200 404 403 403 403 404 403 403 403 403",
    "apprentice.set_up": "200 404 200 200 404 404 404 404 404 404",
    "apprentice.start": "303 404 403 403 403 404 403 403 403 403",
    "apprentice.start_practice": "422 422 403 403 403 422 403 403 403 403",
    "apprentice.today": "200 200 403 403 403 200 403 403 403 403",
    "employer.attempt": "403 403 403 200 403 403 403 404 403 403",
    "employer.confirm": "403 403 403 422 403 403 403 404 403 403",
    "employer.people": "403 403 403 200 403 403 403 200 403 403",
    "employer.person": "403 403 403 200 403 403 403 404 403 403",
    "employer.qualification": "403 403 403 200 403 403 403 404 403 403",
    "employer.who_can": "403 403 403 200 403 403 403 200 403 403",
    "instructor.add_members": "403 403 422 403 403 403 404 403 403 403",
    "instructor.apprentice": "403 403 200 403 403 403 404 403 403 403",
    "instructor.apprentices": "403 403 200 403 403 403 200 403 403 403",
    "instructor.assign": "403 403 422 403 403 403 404 403 403 403",
    "instructor.attempt": "403 403 200 403 403 403 404 403 403 403",
    "instructor.award": "403 403 422 403 403 403 404 403 403 403",
    "instructor.choose_evidence": "403 403 200 403 403 403 404 403 403 403",
    "instructor.confirm": "403 403 422 403 403 403 404 403 403 403",
    "instructor.do_end_share": "403 403 422 403 403 403 404 403 403 403",
    "instructor.do_override": "403 403 422 403 403 403 404 403 403 403",
    "instructor.do_grade": "403 403 422 403 403 403 404 403 403 403",
    "instructor.end_share": "403 403 200 403 403 403 404 403 403 403",
    "instructor.give_share": "403 403 422 403 403 403 404 403 403 403",
    "instructor.grade": "403 403 200 403 403 403 404 403 403 403",
    "instructor.items": "403 403 200 403 403 403 200 403 403 403",
    "instructor.lift": "403 403 422 403 403 403 404 403 403 403",
    "instructor.list_classes": "403 403 200 403 403 403 200 403 403 403",
    "instructor.list_modules": "403 403 200 403 403 403 200 403 403 403",
    "instructor.make_class": "403 403 422 403 403 403 422 403 403 403",
    "instructor.make_module": "403 403 422 403 403 403 422 403 403 403",
    "instructor.module": "403 403 200 403 403 403 404 403 403 403",
    "instructor.new_module": "403 403 200 403 403 403 200 403 403 403",
    "instructor.new_observation": "403 403 200 403 403 403 404 403 403 403",
    "instructor.new_share": "403 403 200 403 403 403 404 403 403 403",
    "instructor.override": "403 403 200 403 403 403 404 403 403 403",
    "instructor.change_own_job": "403 403 200 403 403 403 404 403 403 403",
    "instructor.do_send_own_job": "403 403 422 403 403 403 422 403 403 403",
    "instructor.do_send_own_job_version": "403 403 422 403 403 403 404 403 403 403",
    "instructor.list_own_jobs": "403 403 200 403 403 403 200 403 403 403",
    "instructor.make_own_job": "403 403 422 403 403 403 422 403 403 403",
    "instructor.new_own_job": "403 403 200 403 403 403 200 403 403 403",
    "instructor.own_job": "403 403 200 403 403 403 404 403 403 403",
    "instructor.own_job_file": "403 403 200 403 403 403 404 403 403 403",
    "instructor.own_job_version": "403 403 200 403 403 403 404 403 403 403",
    "instructor.publish_own_job": "403 403 303 403 403 403 404 403 403 403",
    "instructor.save_own_job": "403 403 422 403 403 403 404 403 403 403",
    "instructor.send_own_job": "403 403 200 403 403 403 200 403 403 403",
    "instructor.send_own_job_version": "403 403 200 403 403 403 404 403 403 403",
    "instructor.withdraw_own_job": "403 403 303 403 403 403 404 403 403 403",
    "instructor.answer_key": "403 403 200 403 403 403 404 403 403 403",
    "instructor.before_hand_in_sheet": "403 403 200 403 403 403 404 403 403 403",
    "instructor.do_print": "403 403 422 403 403 403 404 403 403 403",
    "instructor.find_sheet": "403 403 422 403 403 403 422 403 403 403",
    "instructor.hand_in_sheet": "403 403 422 403 403 403 404 403 403 403",
    "instructor.keep_scenario": "403 403 303 403 403 403 404 403 403 403",
    "instructor.key_in": "403 403 200 403 403 403 200 403 403 403",
    "instructor.key_scenario": "403 403 200 403 403 403 404 403 403 403",
    "instructor.keying": "403 403 302 403 403 403 404 403 403 403",
    "instructor.paper_set": "403 403 200 403 403 403 404 403 403 403",
    "instructor.print_on_paper": "403 403 200 403 403 403 404 403 403 403",
    "instructor.worksheets": "403 403 200 403 403 403 404 403 403 403",
    "instructor.qualification": "403 403 200 403 403 403 404 403 403 403",
    "instructor.record_observation": "403 403 422 403 403 403 404 403 403 403",
    "instructor.remove_member": "403 403 303 403 403 403 404 403 403 403",
    "instructor.retire_module": "403 403 303 403 403 403 404 403 403 403",
    "instructor.revoke": "403 403 422 403 403 403 404 403 403 403",
    "instructor.suspend": "403 403 422 403 403 403 404 403 403 403",
    "instructor.to_grade": "403 403 200 403 403 403 200 403 403 403",
    "instructor.today": "403 403 200 403 403 403 200 403 403 403",
    "instructor.training_class": "403 403 200 403 403 403 404 403 403 403",
    "bench.one_foot": "200 200 200 200 200 200 200 200 200 200",
    "bench.card": "200 200 200 200 200 200 200 200 200 200",
    "bench.filling": "200 200 200 200 200 200 200 200 200 200",
    "bench.results": "200 200 200 200 200 200 200 200 200 200",
    "bench.set_up": "200 200 200 200 200 200 200 200 200 200",
    "bench.what_helps": "200 200 200 200 200 200 200 200 200 200",
    "bench.start": "200 200 200 200 200 200 200 200 200 200",
    "public.choose_language": "400 400 400 400 400 400 400 400 400 400",
    "public.home": "302 302 302 302 302 302 302 302 302 302",
    "public.how_sure": "200 200 200 200 200 200 200 200 200 200",
    "public.verified": "200 200 200 200 200 200 200 200 200 200",
    "public.verify": "200 200 200 200 200 200 200 200 200 200",
}

PUBLIC = {
    "account.sign_in", "account.do_sign_in", "account.invitation", "account.take_up_invitation",
    "bench.card", "bench.filling", "bench.results", "bench.set_up", "bench.what_helps",
    "public.choose_language", "public.home", "public.how_sure", "bench.start", "bench.one_foot",
    "public.verify", "public.verified", "static",
}  # fmt: skip

# These change what the visitor is, so they come last.
LAST = ("account.sign_out_elsewhere", "account.act_in", "account.sign_out")

WORKED_ON = {
    "apprentice.attempt", "apprentice.scenario", "apprentice.go_on", "apprentice.keep_item",
    "apprentice.before_hand_in", "apprentice.hand_in",
}  # fmt: skip


KEYED_IN = {
    "instructor.keying", "instructor.key_scenario", "instructor.keep_scenario",
    "instructor.before_hand_in_sheet", "instructor.hand_in_sheet",
}  # fmt: skip
GRADED = {"instructor.grade", "instructor.do_grade"}


def address(app: Flask, rule: Rule, values: dict[str, Any]) -> str:
    worked_on = rule.endpoint in WORKED_ON
    known = {
        **values,
        "attempt_id": values["open_attempt_id"] if worked_on else values["passed_attempt_id"],
        "item_id": values["item_id"] if worked_on else values["passed_item_id"],
        "number": 1,
        "token": values["invitation"],
    }
    if rule.endpoint in KEYED_IN:
        known["code"] = values["sheet_code"]
    if rule.endpoint in GRADED:
        known |= {"attempt_id": values["waiting_attempt_id"], "item_id": values["explanation_id"]}
    with app.test_request_context():
        return url_for(rule.endpoint, **{name: known[name] for name in rule.arguments})


def routes(app: Flask) -> list[Rule]:
    """All routes, those that read first, those that change the visitor last."""
    known = [each for each in app.url_map.iter_rules() if each.endpoint != "static"]
    order = {name: place for place, name in enumerate(LAST, start=1)}
    return sorted(
        known, key=lambda each: ("POST" in each.methods, order.get(each.endpoint, 0), each.endpoint)
    )


def test_every_route_stands_in_the_table_and_the_table_names_no_other(app):
    assert {each.endpoint for each in routes(app)} == set(TABLE)


def test_every_view_carries_a_stamp_and_public_ones_are_listed(app):
    stamps = {name: stamp_of(view) for name, view in app.view_functions.items()}

    assert [name for name, stamp in stamps.items() if stamp is None] == []
    assert {name for name, stamp in stamps.items() if stamp == "public"} == PUBLIC


def test_a_view_without_a_stamp_opens_for_nobody(app, visit_as):
    app.add_url_rule("/forgotten", "forgotten", lambda: "secret")

    assert visit_as("apprentice").client.get("/forgotten").status_code == 403


@pytest.mark.parametrize("who", COLUMNS)
def test_each_role_gets_what_the_table_says_and_no_reading_writes(who, app, visit_as, things: Things):
    one = visit_as(who)
    values = {name: str(value) for name, value in asdict(things).items()}
    expected, found = {}, {}
    for rule in routes(app):
        path = address(app, rule, values)
        page = one.post(path) if "POST" in rule.methods else one.open_page(path, follow=False)
        expected[rule.endpoint] = int(TABLE[rule.endpoint].split()[COLUMNS.index(who)])
        found[rule.endpoint] = page.status

    assert found == expected


def test_signed_out_every_page_that_is_not_public_leads_to_the_sign_in(app, visitor, things: Things):
    values = {name: str(value) for name, value in asdict(things).items()}
    let_in = []
    for rule in routes(app):
        if rule.endpoint in PUBLIC:
            continue
        path = address(app, rule, values)
        ask = visitor.client.post if "POST" in rule.methods else visitor.client.get
        answer = ask(path)
        if answer.status_code != 303 or not answer.headers["Location"].startswith("/account/sign-in"):
            let_in.append((rule.endpoint, answer.status_code))

    assert let_in == []


def test_signed_out_our_scripts_are_told_so_in_their_own_form(app, visitor, things: Things):
    path = f"/apprentice/attempts/{things.open_attempt_id}/scenarios/1/items/{things.item_id}"

    answer = visitor.client.post(path, headers={"Accept": "application/json"})

    assert answer.status_code == 401
    assert answer.get_json()["error"]


@pytest.mark.parametrize("who", ["apprentice", "instructor", "employer", "admin"])
def test_an_unknown_id_answers_404_like_another_organisations(who, app, visit_as, things: Things):
    one = visit_as(who)
    values = {name: str(value) for name, value in asdict(things).items()}
    unknown = {name: str(uuid4()) for name in values if name.endswith("_id") and name != "item_id"}
    wrong = {}
    for rule in routes(app):
        asks_for_id = any(name.endswith("_id") and name != "item_id" for name in rule.arguments)
        mine = TABLE[rule.endpoint].split()[COLUMNS.index(who)] not in {"403", "404"}
        if not asks_for_id or not mine:
            continue
        path = address(app, rule, {**values, **unknown})
        status = (one.post(path) if "POST" in rule.methods else one.open_page(path, follow=False)).status
        if status != 404:
            wrong[rule.endpoint] = status

    assert wrong == {}
