"""How items behaved in an organisation's attempts, for whoever teaches there."""

from trainer.domain.item_statistics import ItemStatistics, item_statistics
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, Thing, require
from trainer.services.site import Site
from trainer.storage import item_scores


def items_here(site: Site, acting: Acting) -> tuple[ItemStatistics, ...]:
    """The statistics of every item that was marked in the organisation acted in, what needs a look first."""
    here = Thing(organisation_id=acting.organisation_id)
    require(Permission.READ_RESULTS, acting=acting, thing=here, what="item")
    with site.database.reading() as work:
        scores = item_scores.list_item_scores(work, organisation_id=acting.organisation_id)
    return item_statistics(scores)
