"""The link that opens a set-up on the bench, for pages that show one which somebody has answered for."""

from flask import url_for

from trainer.domain.set_up import SetUp
from trainer.services.bench_set_up import values_of
from trainer.set_up_files.addresses import address_of


def bench_link(set_up: SetUp) -> str:
    """Where the set-up lies on the bench."""
    return f"{url_for('bench.set_up')}?{address_of(values_of(set_up))}"
