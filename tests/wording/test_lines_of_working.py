"""What stands between the numbers of a worked solution and their result."""

import pytest

from trainer.wording.lines_of_working import line_of_working


@pytest.mark.parametrize(
    ("numbers", "result"),
    [
        ("14.3 L / 7 L/min", "2.04 min"),
        ("0.85 min · ln(20.95 % / 0.2 %)", "4.0 min; at the conservative end 5.7 min"),
        ("pi/4 · (211.6 mm)² · 0.60 m", "21.1 L"),
        ("0.7 · 11 V · 90 A / 75 mm/min", "554 J/mm"),
        ("6 min + ln(1180 ppm / 0.1 %) / k", "6.15 min"),
        ("0,85 min · 2,5", "2,1 min"),
        ("24 in - 2 · 0.12 in", "23.8 in"),
    ],
)
def test_a_sum_comes_to_about_its_result(numbers, result):
    assert line_of_working(numbers, result) == f"{numbers} ≈ {result}"


@pytest.mark.parametrize(
    ("numbers", "result"),
    [
        ("50 L at 10 bar", "397 L"),
        ("L = 2 · 9 m", "256 L, 3.2 h of purge"),
        ("A: 63.2 ppm · 1.5; 50 ppm", "the crowns really hold 75 ppm"),
        ("99.99 %, 99.996 %", "100 ppm, 40 ppm"),
        ("14 L/min · 8 min + hold · (30 min + 15 min)", "0.201 m³ of 0.546 m³"),
        ("ln(16500 ppm / 619 ppm) / (6 min - 3 min)", "the same for the root"),
        ("8000 ppm", "grey"),
        ("8000 ppm", "5 ppm"),
        ("el vaso · 3", "4 L"),
    ],
)
def test_what_is_given_leads_to_what_follows(numbers, result):
    assert line_of_working(numbers, result) == f"{numbers} → {result}"


def test_half_a_line_stands_alone():
    assert line_of_working("", "4.7 L/min") == "4.7 L/min"
    assert line_of_working("2 · 3 m", "") == "2 · 3 m"
