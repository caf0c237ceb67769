"""Cells of tables that stand as blocks on a phone bring the words of their heads."""

from bs4 import BeautifulSoup

from trainer.web.table_heads import headed

ROWS = """
<tr><th scope="row">Pit <details><summary>More</summary><p>trance</p></details></th><td class="number">3</td></tr>
<tr><th scope="row">Riser</th><td>4</td></tr>
"""


def test_every_cell_has_the_head_of_its_column_in_every_row():
    rows = BeautifulSoup(headed(ROWS, ["Scenario", "#Score"]), "html.parser").find_all("tr")
    assert [[cell["data-head"] for cell in row.find_all(["th", "td"])] for row in rows] == [
        ["Scenario", "Score"],
        ["Scenario", "Score"],
    ]


def test_a_head_of_a_persons_own_words_cannot_leave_its_attribute():
    [cell] = BeautifulSoup(headed("<tr><td>1</td></tr>", ['" onclick="x']), "html.parser").find_all("td")
    assert cell["data-head"] == '" onclick="x'
    assert not cell.has_attr("onclick")


def test_tags_that_only_begin_like_a_row_or_a_cell_are_left_alone():
    assert (
        headed("<tr><td><track><thing></td></tr>", ["One"])
        == '<tr><td data-head="One"><track><thing></td></tr>'
    )
