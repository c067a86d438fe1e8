"""Nailed or pinned and glued butt: nothing is machined; the glue holds, the nails hold it while it sets."""

from dataclasses import dataclass

from rodwork.joints.kind import FixingPlan, JointKind, Run, straight_in
from rodwork.joints.positions import RowSettings, across_mm, row_of
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import length, switch, text
from rodwork.model.shop import Shop

LENGTHS_MM = (16, 20, 25, 30, 40, 50, 65, 75, 90)
HOLD_BOARDS = 1.5  # a nail goes on by one and a half times what it passes; common practice, no source
LEAST_HOLD_MM = 10.0
THICK_MM = {16: 1.2, 20: 1.4, 25: 1.4, 30: 1.6, 40: 1.8, 50: 2.0, 65: 2.6, 75: 3.0, 90: 3.3}
PITCH_PITCHES = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(RowSettings):
    """What a job file may say of nails and pins."""

    size: str | None = text(
        None, r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)", "1.8x40", "diameter x length; chosen from the board if left out"
    )
    offset_mm: float | None = length(
        None, 2, 40, "across the thickness from the flush face; nearest setting to the middle if left out"
    )
    glue: bool = switch(True, "glue on the butt: without it nails draw in time")


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Nails along the run, driven through the host from its other face; every second one leans the other way."""
    if run.reach > 0:
        raise CannotBuild((), "a board in a channel is not nailed through its end", "name the channel alone")
    diameter, nail = _size(s, run)
    hold = nail - run.host_thickness
    if hold < LEAST_HOLD_MM:
        raise CannotBuild(
            ("size",), f"a nail {nail:g} long goes only {max(hold, 0):g} mm into the second board",
            f"use one of at least {run.host_thickness + LEAST_HOLD_MM:g} mm",
        )  # fmt: skip
    row = row_of(
        run, s, shop, what="nails", half=diameter / 2, pitch=PITCH_PITCHES * shop.pitch_mm, least_apart=5 * diameter,
        between=5 * diameter, shift=4 * diameter,
    )  # fmt: skip
    v = across_mm(s.offset_mm, run.guest_thickness, shop)
    item = Item(item=f"nail {diameter:g}x{nail:g}", count=1)
    play = Play(along=1.0, across=1.0, shape="round")
    return tuple(
        FixingPlan(
            u=u, v=v, length=nail, law="none", duty="draws up", host=None, guest=None, hardware=(item,), play=play,
            moves=straight_in(1.0), driven_through=True,
        )
        for u in row
    )  # fmt: skip


def _size(s: Settings, run: Run) -> tuple[float, float]:
    if s.size is not None:
        diameter, nail = (float(n) for n in s.size.split("x"))
        return diameter, nail
    wanted = run.host_thickness * (1 + HOLD_BOARDS)
    nail = next((n for n in LENGTHS_MM if n >= wanted - 1e-9), LENGTHS_MM[-1])
    return THICK_MM[nail], float(nail)


KIND = JointKind(
    name="nail", title="Nailed or pinned butt", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=(),
        registers_on="none: held flush by hand, a clamp or a corner block while it is nailed",
        support="none: nothing is machined",
        board_mm=(6.0, 30.0), glue="needed", clamps="optional", draws_up=False, at_once=False, apart=False,
        shows="nail holes on the outside", covered_by="punched in and filled, then painted",
        demands_along_mm=1.0, demands_across_mm=1.0,
    ),
    places=("corner", "fixed shelf", "divider", "planted back", "face frame"),
)  # fmt: skip
