"""One's own set-up opens on the bench from a marked result, and from nowhere before that."""

from urllib.parse import parse_qsl, urlsplit

from trainer.set_up_files import read_set_up
from trainer.set_up_files.addresses import read_address
from trainer.set_up_files.flat import nested


def test_the_link_of_a_result_opens_the_set_up_that_was_answered_with(visit_as, things):
    one = visit_as("apprentice")
    path = f"/apprentice/attempts/{things.passed_attempt_id}"
    link = one.open_page(f"{path}/result").link("Try it on the bench")
    answered = read_set_up(one.client.get(f"{path}/scenarios/1/set-up.json").get_json())
    held = read_address(parse_qsl(urlsplit(link).query, keep_blank_values=True))
    assert read_set_up(nested(held.values).document) == answered
    assert one.open_page(link).heading == "A set-up on the bench"


def test_nothing_leads_from_an_attempt_that_is_not_handed_in_to_its_set_up_on_the_bench(visit_as, things):
    one = visit_as("apprentice")
    path = f"/apprentice/attempts/{things.open_attempt_id}"
    for page in (one.open_page(f"{path}/scenarios/1"), one.open_page(f"{path}/hand-in")):
        assert not [each for each in page.soup.find_all("a", href=True) if "/bench/set-up" in each["href"]]
