"""Difficulty and discrimination of items, against a published table and another library's values."""

from uuid import UUID

import pytest

from trainer.domain.item_statistics import (
    LEAST_FOR_DIFFICULTY,
    LEAST_FOR_DISCRIMINATION,
    Advice,
    ItemScore,
    advice,
    item_rest_correlation,
    item_statistics,
)

# Ten students by ten items: K. Wuensch, KR20.txt (East Carolina University, statistics help).
STUDENTS = [
    "1111110110",
    "1011011101",
    "1111011001",
    "0010001000",
    "0000010010",
    "1110111111",
    "1101110111",
    "1111111101",
    "0101111101",
    "1101101110",
]
PUBLISHED_DIFFICULTY = (0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6)  # the same table, row p
# independent library: girth 0.8.0, classical_test_statistics, each item against the rest
ITEM_REST = (
    0.705889, 0.705889, 0.0, 0.473589, 0.583874, 0.286147, -0.027445, 0.705889, -0.123613, 0.475867,
)  # fmt: skip


def scores(rows: list[str], *, times: int = 1) -> list[ItemScore]:
    """A marking for each row of rights and wrongs, the whole so many times over."""
    return [
        a_score(marking=marking, item=f"item-{place:02}", score=float(mark))
        for marking, row in enumerate(rows * times)
        for place, mark in enumerate(row)
    ]


def a_score(*, marking: int, item: str, score: float, **more) -> ItemScore:
    values = {"skill": 6, "weight": 1.0, "answered": True, "beliefs": (), "family": "long-run", **more}
    return ItemScore(marking_id=UUID(int=marking), item_id=item, score=score, **values)


def by_item(found):
    return [each for _, each in sorted((each.item_id, each) for each in found)]


def test_difficulty_agrees_with_the_published_table():
    found = by_item(item_statistics(scores(STUDENTS)))
    assert [each.difficulty_frac for each in found] == pytest.approx(PUBLISHED_DIFFICULTY)


def test_discrimination_agrees_with_another_library():
    found = [
        item_rest_correlation([int(row[place]) for row in STUDENTS], [sum(map(int, row)) - int(row[place]) for row in STUDENTS])
        for place in range(10)
    ]  # fmt: skip
    assert found == pytest.approx(ITEM_REST, abs=1e-6)


def test_the_same_answers_thirty_times_over_keep_their_discrimination():
    found = by_item(item_statistics(scores(STUDENTS, times=3)))
    assert [each.discrimination for each in found] == pytest.approx(ITEM_REST, abs=1e-6)


def test_too_few_answers_give_no_figures():
    found = item_statistics(scores(STUDENTS[: LEAST_FOR_DIFFICULTY - 1]))
    assert {(each.difficulty_frac, each.discrimination, each.advice) for each in found} == {
        (None, None, Advice.WAIT)
    }
    enough = item_statistics(scores(STUDENTS))
    assert len(STUDENTS) < LEAST_FOR_DISCRIMINATION
    assert {each.discrimination for each in enough} == {None}


def test_an_item_alone_in_its_attempts_or_always_right_has_no_discrimination():
    alone = item_statistics([a_score(marking=n, item="only", score=n % 2) for n in range(40)])
    constant = item_statistics(
        [a_score(marking=n, item=item, score=score) for n in range(40) for item, score in (("a", 1.0), ("b", n % 2))]
    )  # fmt: skip
    assert [each.discrimination for each in (*alone, *constant)] == [None, None, None]


def test_heavier_items_count_more_in_the_rest():
    pairs = [(1.0, 1.0, 0.0), (0.0, 0.0, 1.0)] * 20
    found = by_item(
        item_statistics(
            [
                each
                for marking, (own, heavy, light) in enumerate(pairs)
                for each in (
                    a_score(marking=marking, item="1 own", score=own),
                    a_score(marking=marking, item="2 heavy", score=heavy, weight=3.0),
                    a_score(marking=marking, item="3 light", score=light, weight=1.0),
                )
            ]
        )
    )
    assert found[0].discrimination == pytest.approx(1.0)


def test_answers_chosen_are_counted_the_most_frequent_first():
    safer, floor = ("more flow is always safer",), ("helium lies at the floor",)
    beliefs = [safer] * 2 + [floor] * 3 + [()] * 5
    found = item_statistics(
        [
            a_score(marking=n, item="gas", score=float(not held and n < 8), beliefs=held, answered=n != 9)
            for n, held in enumerate(beliefs)
        ]
    )[0]
    assert found.beliefs == (("helium lies at the floor", 3), ("more flow is always safer", 2))
    counts = (found.answers_count, found.right_count, found.other_count, found.unanswered_count)
    assert counts == (10, 3, 1, 1)


@pytest.mark.parametrize(
    ("difficulty", "tells", "wanted"),
    [
        (None, None, Advice.WAIT),
        (0.1, -0.4, Advice.CHECK_KEY),
        (0.97, -0.1, Advice.TOO_EASY),  # of 40 answers one wrong: chance
        (0.6, -0.1, Advice.WEAK),
        (0.1, 0.4, Advice.TOO_HARD),
        (0.1, None, Advice.TOO_HARD),
        (0.97, 0.1, Advice.TOO_EASY),
        (0.6, 0.1, Advice.WEAK),
        (0.6, 0.4, Advice.FINE),
        (0.6, None, Advice.FINE),
    ],
)
def test_what_the_figures_ask_for(difficulty, tells, wanted):
    assert advice(difficulty, tells, pairs_count=40) is wanted


@pytest.mark.parametrize(("count", "wanted"), [(60, Advice.WEAK), (80, Advice.CHECK_KEY)])
def test_a_negative_figure_is_believed_once_enough_answers_stand_behind_it(count, wanted):
    """Worked by hand: atanh(-0.2) = -0.2027 against 1.645/sqrt(57) = 0.2179 and 1.645/sqrt(77) = 0.1875."""
    assert advice(0.6, -0.2, pairs_count=count) is wanted


def test_answers_that_stood_alone_make_a_negative_figure_no_surer():
    """The figure is that of 60 pairs, (12 * 12 - 18 * 18) / (30 * 30) = -0.2, however many stood alone beside."""
    pairs = [(1.0, 1.0)] * 12 + [(1.0, 0.0)] * 18 + [(0.0, 1.0)] * 18 + [(0.0, 0.0)] * 12
    scores = [
        a_score(marking=number, item=item, score=score)
        for number, pair in enumerate(pairs)
        for item, score in zip(("asked", "beside"), pair, strict=True)
    ]
    alone = [a_score(marking=1000 + number, item="asked", score=float(number % 2)) for number in range(60)]
    asked, _ = by_item(item_statistics([*scores, *alone]))
    assert asked.discrimination == pytest.approx(-0.2)
    assert asked.advice is Advice.WEAK


def test_what_asks_for_a_look_comes_first():
    hard = [a_score(marking=n, item="z hard", score=0.0) for n in range(12)]
    fine = [a_score(marking=n, item="a fine", score=float(n % 2)) for n in range(12)]
    assert [each.item_id for each in item_statistics(fine + hard)] == ["z hard", "a fine"]
