"""The page checker finds what it is there to find."""

import pytest
from page_checks import faults_of_page

GOOD = """<!doctype html><html lang="en"><head><title>Sign in – Brightroot</title></head><body><main>
<h1>Sign in</h1><form method="post" action="/x"><input type="hidden" name="csrf_token" value="t">
<label for="a">Name</label><input id="a" name="a"><fieldset><legend>Gas</legend><label><input type="radio" name="g"> I1</label></fieldset>
<button>Send</button></form><table><caption>People</caption><tr><th scope="col">Name</th></tr></table></main></body></html>"""


def test_a_page_that_is_in_order_has_no_faults():
    assert faults_of_page(GOOD) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("<main>", "<div>", "main"),
        ("<h1>Sign in</h1>", "", "h1"),
        ("<title>Sign in", "<title>Welcome", "does not start"),
        ('id="a"', 'id="b"', "no label"),
        ("<legend>Gas</legend>", "", "legend"),
        ('<input type="hidden" name="csrf_token" value="t">', "", "token"),
        ("<caption>People</caption>", "", "caption"),
        (' scope="col"', "", "scope"),
        ("<main>", '<main style="color:red">', "inline style"),
        ("<main>", "<main><script>alert(1)</script>", "inline script"),
        ("<main>", "<main><style>p{}</style>", "inline style"),
        ("<main>", '<main><p id="a"></p>', "used 2 times"),
        ("<main>", '<main><a href="#nowhere">x</a>', "no id"),
        ("<main>", "<main><svg></svg>", "drawing"),
        ("Name</label>", "{{ name }}</label>", "filled in"),
        (' lang="en"', "", "language"),
        ("<main>", '<main><img src="data:image/png;base64,x">', "elsewhere"),
        ("</h1>", "</h1><h3>Deep</h3>", "skips"),
    ],
)
def test_what_is_wrong_is_named(old, new, said):
    assert any(said in each for each in faults_of_page(GOOD.replace(old, new, 1)))
