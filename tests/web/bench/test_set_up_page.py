"""A set-up on the bench by its form and its address, without scripts."""

from urllib.parse import parse_qs, urlsplit

import pytest
from visitors import Visitor

from trainer.set_up_files.starting_points import NAMES, US_EDITION


@pytest.fixture
def open_bench(app):
    def opened(query=""):
        return Visitor(app).open_page(f"/bench/set-up?{query}")

    return opened


def figure(page, label):
    term = next(each for each in page.soup.find_all("dt") if each.get_text(strip=True) == label)
    return " ".join(term.find_next_sibling("dd").get_text(" ").split())


def part_names(page, path="section.path"):
    boxes = page.soup.find_all("input", id=lambda each: each and each.endswith(".name"))
    rows = {box["name"]: box["value"] for box in boxes}
    return [name for box, name in rows.items() if box.rpartition(".")[0].rpartition(".")[0] == path]


def test_the_page_opens_with_a_worked_set_up(open_bench):
    page = open_bench()
    assert page.status == 200
    assert "bright" in figure(page, "Oxygen at strike")
    assert page.control("Purge flow")["value"] == "15"


@pytest.mark.parametrize("edition", ["", US_EDITION])
@pytest.mark.parametrize("name", NAMES)
def test_each_starting_point_is_worked_out_and_its_own_address_is_short(open_bench, name, edition):
    page = open_bench(f"v=1&start={name}{edition}")
    assert page.status == 200
    assert figure(page, "Oxygen at strike") != "–"
    assert page.link("Purge card to print") == f"/bench/set-up/card?v=1&start={name}{edition}"


def test_what_the_form_sends_leads_to_an_address_of_what_differs(app):
    page = Visitor(app).open_page("/bench/set-up")
    sent = page.sending("Work it out", **{"Purge flow": "20", "Time from gas on to the arc": ""})
    answer = Visitor(app).client.get(sent.action, query_string=sent.data)
    assert answer.status_code == 303
    assert parse_qs(urlsplit(answer.location).query, keep_blank_values=True) == {
        "v": ["1"], "start": ["shop"], "flow.purge": ["20 L/min"], "wait": [""],
    }  # fmt: skip


def test_a_changed_set_up_is_worked_out_anew(app):
    page = (
        Visitor(app).open_page("/bench/set-up").submit("Work it out", **{"Time from gas on to the arc": "1"})
    )
    assert page.status == 200
    assert "beyond its limit" in figure(page, "Oxygen at strike")


def test_what_is_typed_wrongly_is_named_at_its_field_and_kept(app):
    page = Visitor(app).open_page("/bench/set-up").submit("Work it out", **{"Purge flow": "12 kg"})
    assert page.status == 422
    assert page.control("Purge flow")["value"] == "12 kg"
    assert "kg" in page.error_for("Purge flow")
    assert "Nothing can be worked out yet" in page.soup.text


def test_parts_that_contradict_are_told_at_the_field(open_bench):
    page = open_bench("v=1&start=shop&vent.height=1")
    assert page.status == 422
    assert "reaches outside the bore" in page.error_for("Height of the vent, 0 lowest to 1 highest")


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("v=1&start=shop&colour=red", "Not read, since no set-up has it: colour"),
        ("v=7&start=shop", "made for another version of the bench (7)"),
        ("v=1&start=attic&flow.purge=15+L/min", "no starting point called 'attic'"),
        ("v=1&start=shop&dams.99.kind=foam", "dams.99.kind"),
        ("v=1&start=shop&section.path=x", "section.path"),
    ],
)
def test_a_strange_address_says_what_of_it_was_not_read(open_bench, query, said):
    page = open_bench(query)
    assert page.status in (200, 422)
    assert said in " ".join(page.soup.text.split())


@pytest.mark.parametrize(
    "query",
    [
        "v=1&start=shop&flow.purge=" + "9" * 500, "v=1&dams.1.kind=foam", "v=1&start=shop&wait=%00",
        "v=1&section.path.3.part=tee&section.path.3.branch.7.part=cap", "&".join(f"a{n}=1" for n in range(900)),
        "v=1&start=shop&against=%25%25%25", "v=1&start=shop&against=v%3D1%26flow.purge%3Dmuch", "do=out:dams.9",
        "do=add:nothing", "do=before:section.path.x", "v=1&start=shop&do=out:section.path.0.branch.0",
        "v=1&start=shop&material=cheese&joint.taped=nan&arc.passes=1e9", "units=furlongs", "flow.purge-unit=L/min",
    ],
)  # fmt: skip
def test_nothing_that_an_address_can_hold_breaks_the_page(app, query):
    one = Visitor(app)
    assert one.open_page(f"/bench/set-up?{query}").status in (200, 422)
    for part in ("results", "help", "filling"):
        assert one.client.get(f"/bench/set-up/{part}?{query}").status_code == 200
    assert one.open_page(f"/bench/set-up/card?{query}").status in (200, 422)


def test_rows_are_added_inserted_and_taken_out(app):
    page = Visitor(app).open_page("/bench/set-up?v=1&start=spool-branch")
    more = page.submit("Insert a part before Part 2", **{"Purge flow": "22"})
    assert part_names(more) == ["first", "p1", "tee", "last"]
    assert more.control("Purge flow")["value"] == "22"
    fewer = more.submit("Take out Part 2")
    assert part_names(fewer) == ["first", "tee", "last"]
    grown = fewer.submit("Add a part to the branch")
    assert part_names(grown, "section.path.1.branch") == ["stand-up", "cap", "b1"]


def test_two_set_ups_stand_side_by_side_with_what_differs(open_bench):
    page = open_bench("v=1&start=shop&flow.purge=25+L/min&against=v%3D1%26start%3Dshop")
    assert page.row("Purge flow")[1:] == ["15 L/min", "25 L/min"]
    time = page.row("Time to the target")
    assert time[1] != time[2]
    assert "A and B side by side" in page.soup.text
    assert page.link("Stop comparing, back to A") == "/bench/set-up?v=1&start=shop"


def test_the_same_length_in_other_units_is_no_difference(open_bench):
    page = open_bench("v=1&start=shop&section.left_dam=0.3+m&against=v%3D1%26start%3Dshop")
    assert "The two are the same so far" in page.soup.text


def test_an_a_that_cannot_be_worked_out_is_said(open_bench):
    page = open_bench("v=1&start=shop&against=v%3D1%26start%3Dshop%26vent.height%3D1")
    assert page.status == 200
    assert "A cannot be worked out" in page.soup.text


def test_the_change_that_helps_most_comes_first_and_can_be_made(open_bench, app):
    page = open_bench("v=1&start=long-run&help=yes")
    first = page.soup.find("ol", class_="bench-changes").find("li")
    assert "Set the dams nearer: 300 mm and 300 mm" in " ".join(first.text.split())
    made = Visitor(app).open_page(first.find("a")["href"])
    assert made.control("Joint to the dam on the inlet's side")["value"] == "300"
    assert "beyond its limit" not in figure(made, "Oxygen at strike")


def test_the_gas_is_shown_in_stills_without_scripts(open_bench):
    page = open_bench("v=1&start=shop&flow=yes")
    assert len(page.soup.select("#filling .stills figure")) == 4


def test_the_units_of_an_address_are_those_that_results_are_read_in(open_bench):
    page = open_bench("v=1&start=shop-us&units=inch-pound")
    assert "ft³" in figure(page, "Gas used until the arc")
    assert "units=inch-pound" in page.link("Purge card to print")


def test_a_card_of_what_cannot_be_worked_out_leads_back_to_the_form(app):
    page = Visitor(app).open_page("/bench/set-up/card?v=1&start=shop&vent.height=1")
    assert page.heading == "A set-up on the bench"
    assert page.status == 422


def test_the_card_says_what_it_is_and_leaves_room_to_write(app):
    page = Visitor(app).open_page("/bench/set-up/card?v=1&start=shop")
    said = " ".join(page.soup.text.split())
    assert "The WPS, the permit and the site's rules decide" in said
    assert "2 min 50 s expected; plan 3 min 55 s" in said
    assert len(page.soup.find("caption", string="Readings").find_parent("table").select("tbody tr")) == 5


class TestResultsForTheScript:
    def ask(self, app, query):
        return Visitor(app).client.get(f"/bench/set-up/results?{query}").get_json()

    def test_it_gives_the_parts_and_the_short_address(self, app):
        said = self.ask(app, "v=1&start=shop&wait=4&wait-unit=min")
        assert said["address"] == "/bench/set-up?v=1&start=shop&wait=4+min"
        assert "Struck after 4\N{NO-BREAK SPACE}min" in said["live"]
        assert said["faults"] == []

    def test_a_fault_comes_with_its_field_and_no_results(self, app):
        said = self.ask(app, "v=1&start=shop&wait=soon")
        assert said["live"] is None
        assert said["results"] is None
        assert [each[0] for each in said["faults"]] == ["wait"]
