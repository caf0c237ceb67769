"""A job as its page shows it: the scenario as apprentices meet it, each key beside its item, and the run."""

from dataclasses import dataclass, replace

from flask_babel import gettext
from markupsafe import Markup

from trainer.domain.own_job_dangers import dangers_of
from trainer.domain.scenario import Item, Scenario
from trainer.domain.unfolding import unfold
from trainer.services.job_previews import WRITTEN
from trainer.services.own_jobs import JobPage
from trainer.web import responses
from trainer.web.access import site
from trainer.web.answers import ItemResult
from trainer.web.figures import caution_shown
from trainer.web.preferences import reads_us_units
from trainer.web.responses import ItemFields
from trainer.web.results import ScenarioView, scenario_view
from trainer.web.scenario_drawing import drawing_of
from trainer.web.unfoldings import unfolding_view
from trainer.wording.cautions import CautionWords


@dataclass(frozen=True, kw_only=True)
class PreviewItem:
    """One item with its controls, and its key in words."""

    fields: ItemFields
    key: ItemResult
    wrong: tuple[tuple[str, str], ...]  # what is wrong, and the belief behind it


@dataclass(frozen=True, kw_only=True)
class PreviewView:
    """What the page of a job shows of its scenario."""

    scenario: Scenario
    drawing: Markup
    items: tuple[PreviewItem, ...]
    keyed: ScenarioView
    dangers: tuple[tuple[str, CautionWords], ...]  # by code: what happens on the job with every key given


def preview_view(page: JobPage) -> PreviewView | None:
    """The scenario of a job, ready for its page; None where nothing can be drawn any more."""
    if page.preview is None:
        return None
    scenario, keyed = page.preview.scenario, page.preview.keyed
    view = scenario_view(keyed, policy=site().content.policy)
    view = replace(view, items=tuple(_in_words(each) for each in view.items))
    return PreviewView(
        scenario=scenario,
        drawing=drawing_of(scenario, placed={}, marked=()),
        items=tuple(
            PreviewItem(
                fields=_fields(keyed.scenario, item, number),
                key=key,
                wrong=_wrong(keyed.scenario, item),
            )
            for number, (item, key) in enumerate(zip(scenario.items, view.items, strict=True), start=1)
        ),
        keyed=view,
        dangers=tuple((each.code, caution_shown(each)) for each in dangers_of(keyed.run)),
    )


def _in_words(key: ItemResult) -> ItemResult:
    """What stands for an answer that has no key, in the reader's language."""
    return replace(key, yours=gettext(WRITTEN)) if key.rubric else key


def _fields(answered: Scenario, item: Item, number: int) -> ItemFields:
    fields = responses.fields_of(item, number, response=None, us_units=reads_us_units())
    if item.diagnosis is None:
        return fields
    unfolding = unfold(answered, item=answered.item(item.id), steps=())
    return replace(fields, unfolding=unfolding_view(item, unfolding))


def _wrong(answered: Scenario, item: Item) -> tuple[tuple[str, str], ...]:
    """The options that are wrong with their beliefs, and the beliefs behind wrong amounts and places."""
    answer = answered.answers[item.id]
    texts = {each.id: each.text for each in item.options}
    options = tuple(
        (texts[each], belief) for each, belief in (answer.misconceptions or {}).items() if each in texts
    )
    traps = answer.rule.traps if answer.rule is not None else ()
    effects = answer.placement or ()
    return (
        *options,
        *(("", each.misconception) for each in traps),
        *(("", each.misconception) for each in effects),
    )
