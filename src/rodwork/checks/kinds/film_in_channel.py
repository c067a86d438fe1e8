"""A board that will not go into its housing or groove when the finish is on it."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.model.feature import Groove, Rebate
from rodwork.model.finding import Finding
from rodwork.model.finish import Finish
from rodwork.model.fixing import Fixing
from rodwork.model.rod import Rod, RodCabinet

CODE = "film-in-channel"
_HAIR = 1e-6


def look(rod: Rod) -> Iterable[Finding]:
    """Every board that goes into a channel of a cabinet that is finished before it is put together."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    finish = cabinet.finish
    if finish is None or finish.when == "after assembly":
        return
    for joint in cabinet.joints:
        for fixing in joint.fixings:
            channel = cabinet.feature.get(fixing.halves[0].feature or "")
            if fixing.law != "enter" or not isinstance(channel, Groove) or isinstance(channel, Rebate):
                continue
            bare, films = _enters(cabinet, fixing), _films(finish, fixing)
            if bare + films > channel.width + _HAIR:
                yield Spot(
                    severity="fault", parts=(cabinet.part[joint.parts[0]], cabinet.part[joint.parts[1]]),
                    ids=(joint.id, channel.id),
                    what=f"{mm(bare)} mm with its finish is {mm(bare + films)}, and the channel it goes into is "
                    f"{mm(channel.width)} wide: it will not go in",
                    mend=f"make the channel {mm(bare + films + 0.1)} wide, or keep what goes in bare: finish = "
                    '{ mask = "joints and ends" }',
                    source="arithmetic",
                )  # fmt: skip


def _enters(cabinet: RodCabinet, fixing: Fixing) -> float:
    """Thickness of what goes in, bare: the board, less what is rebated off it for a tongue."""
    part = cabinet.part[fixing.halves[1].part]
    off = (cabinet.feature[o.feature] for o in fixing.others if o.part == part.id and o.feature is not None)
    return part.size[2] - sum(f.depth for f in off if isinstance(f, Rebate))


def _films(finish: Finish, fixing: Fixing) -> float:
    """What the finish takes: a tongue is cut for its groove and is bare, unless nothing is masked."""
    return 0.0 if fixing.others and finish.mask != "nothing" else finish.in_channels_mm


CHECK = Check(code=CODE, title="A finished board that will not go into its channel", look=look)
