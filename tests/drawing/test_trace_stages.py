"""The stages of a purge across its trace: numbered, named where there is room, and told in words."""

from xml.etree.ElementTree import fromstring

from tests.drawing.set_ups import described, parts, words
from trainer.core.terms import RootGrade
from trainer.drawing.reader import Reader
from trainer.drawing.trace_plot import TraceMarks, trace_plot
from trainer.drawing.trace_stages import StageMark

TRACE = [(t * 10.0, 0.2 * 0.9**t + 1e-5, 0.2 * 0.9**t + 1e-5, 0.2 * 0.9**t + 1e-5) for t in range(61)]
STAGES = (
    StageMark(words="purge", starts_s=0.0, ends_s=300.0),
    StageMark(words="line out", starts_s=300.0, ends_s=330.0),
    StageMark(words="hold", starts_s=330.0, ends_s=None),
)


def plotted(stages=STAGES, words=None):
    reader = Reader() if words is None else Reader(words=words)
    marks = TraceMarks(stages=stages)
    return fromstring(trace_plot(TRACE, marks=marks, grade_of=lambda _: RootGrade.BRIGHT, reader=reader))


def test_a_line_stands_where_each_stage_follows_another():
    lines = parts(plotted(), "stage")
    # 600 s over the 552 units from 112 to 664: 300 s lie at 388, 330 s at 415.6.
    assert [float(each.get("x1")) for each in lines] == [388.0, 415.6]
    assert all(each.get("x1") == each.get("x2") for each in lines)


def test_a_stage_is_named_where_there_is_room_and_numbered_where_there_is_less():
    found = words(plotted())
    assert {"1 purge", "2", "3 hold"} <= set(found)
    assert "2 line out" not in found
    crowded = tuple(StageMark(words="purge", starts_s=10.0 * n, ends_s=10.0 * (n + 1)) for n in range(40))
    assert not {"17", "17 purge"} & set(words(plotted(crowded)))


def test_who_does_not_see_the_plot_is_told_the_stages():
    assert (
        "Stages: 1 purge from 0.0 minutes, 2 line out from 5.0 minutes, 3 hold from 5.5 minutes."
        in described(plotted())
    )
    assert "goes from" in described(plotted())
    assert "falls from" in described(plotted(()))


def test_stages_beyond_the_trace_are_left_out_and_none_draws_nothing():
    late = (*STAGES, StageMark(words="purge", starts_s=900.0, ends_s=None))
    assert len(parts(plotted(late), "stage")) == 2
    assert not parts(plotted(()), "time line")


def test_the_kind_goes_through_the_translator():
    assert "1 <purge>" in words(plotted(words=lambda text: text if "{" in text else f"<{text}>"))
