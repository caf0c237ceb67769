"""What contradicts itself in pipe and section."""

from collections.abc import Iterator

from trainer.core.errors import UnknownSize
from trainer.domain.known_parts import size_of
from trainer.domain.nearest_sizes import nearest_names
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import Pipe, SetUp
from trainer.domain.set_up_fault import SetUpFault


def pipe_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """The pipe named twice, or a size that no table has."""
    pipe = set_up.pipe
    if pipe is None:
        return
    if pipe.nps is not None and pipe.dn is not None:
        yield SetUpFault(path="pipe.dn", code="two-size-names", value=pipe.dn)
    by_size = pipe.nps or pipe.dn or pipe.schedule
    if by_size is not None and (pipe.outside_diameter_m is not None or pipe.wall_m is not None):
        yield SetUpFault(path="pipe", code="sized-twice")
    elif _wall_fills(pipe):
        yield SetUpFault(
            path="pipe.wall", code="wall-fills-pipe", value=pipe.wall_m, dimension=Dimension.LENGTH
        )
    else:
        yield from _unknown_size(pipe)


def _wall_fills(pipe: Pipe) -> bool:
    if pipe.outside_diameter_m is None or pipe.wall_m is None:
        return False
    return 2.0 * pipe.wall_m >= pipe.outside_diameter_m


def _unknown_size(pipe: Pipe) -> Iterator[SetUpFault]:
    try:
        size_of(pipe)
    except UnknownSize as error:
        key, name = ("nps", pipe.nps) if pipe.nps is not None else ("dn", pipe.dn)
        nearest = nearest_names(error.schedule or name or "", known=error.known)
        facts = {
            "size": f"{key.upper()} {name}",
            "known": ", ".join(error.known),
            "nearest": " and ".join(nearest),
        }
        if error.schedule is None:
            yield SetUpFault(path=f"pipe.{key}", code="unknown-size", value=name, facts=facts)
        else:
            yield SetUpFault(path="pipe.schedule", code="unknown-schedule", value=error.schedule, facts=facts)
