"""The Rod, drafted: boards with their machining and marks, joints, and settings for the whole job."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from math import acos, degrees

from rodwork.geometry.vec import Vec
from rodwork.model.fixing import Item, Joint
from rodwork.model.job import Cabinet, Corners, Job
from rodwork.model.machining import Machining
from rodwork.model.meeting import Carcass
from rodwork.model.panel import Panel, Part
from rodwork.model.rod import Asked, BoardStock, EdgingStock, Heading, Proof, Rod, RodCabinet
from rodwork.model.run import CabinetRun
from rodwork.model.sawing import Matched
from rodwork.setout.fittings import fitting_machining
from rodwork.setout.marks import marks
from rodwork.setout.pins import pin_machining
from rodwork.setout.settings import BoardWork, settings
from rodwork.setout.turn import first_like
from rodwork.setout.weights import weighed

_PANEL_FIELDS = tuple(f.name for f in fields(Panel))
CORNERS: dict[Corners, str] = {
    "through": "sides through", "between": "top and bottom through", "under the top": "top through",
    "mitred": "all four mitred",
}  # fmt: skip
_UNPROVEN = Proof(largest_gap_mm=0.0, largest_spread_in_a_row_mm=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One cabinet as carcass and joints have made it."""

    cabinet: Cabinet
    carcass: Carcass
    joints: tuple[Joint, ...]
    machining: tuple[Machining, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeRun:
    """One run as carcass and joints have made it: its place on the wall, and the boards that belong to no cabinet."""

    run: CabinetRun
    mark: str
    notes: str | None
    size: Vec
    carcass: Carcass
    joints: tuple[Joint, ...]
    machining: tuple[Machining, ...]


def draft(job: Job, made: tuple[Made, ...], runs: tuple[MadeRun, ...] = ()) -> Rod:
    """The Rod of a job, before its proof and its checks. The boards of a run stand in an entry of its name."""
    cabinets: list[RodCabinet] = []
    work: list[BoardWork] = []
    edgings = {
        e.name: EdgingStock(thickness=e.thickness_mm, adds=e.adds_mm, mills=e.mills_mm, price_per_m=e.price_per_m,
                            lipping=e.lipping)
        for e in job.edgings.values()
    }  # fmt: skip
    every: tuple[Made | MadeRun, ...] = (*made, *runs)
    for one in every:
        by_part = _by_part(one)
        cabinets.append(_of_run(one, by_part) if isinstance(one, MadeRun) else _cabinet(one, by_part))
        work += [
            BoardWork(
                cabinet=cabinets[-1].name, panel=p, machining=by_part[p.id],
                mills_mm=edgings[p.edging_name].mills if p.edging_name else 0.0,
                sawn_again=p.edging_name is not None and edgings[p.edging_name].comes_off > 0,
            )
            for p in one.carcass.panels
        ]  # fmt: skip
    rod = Rod(
        job=job.name, step=job.shop.step_mm, shop=job.shop, heading=_heading(job),
        boards={
            b.name: BoardStock(material=b.material, thickness=b.thickness_mm, actual=b.actual_mm, grain=b.grain,
                               sheet=b.sheet_mm, price=b.price, density_kg_m3=b.density_kg_m3, grade=b.grade,
                               declared=b.declared)
            for b in job.boards.values()
        },
        edgings=edgings,
        cabinets=tuple(cabinets), setups=settings(work, job.shop.step_mm), findings=(),
        walls=job.walls, tested=job.tested, measured=job.measured,
        sawing=replace(job.sawing, matched=(*job.sawing.matched, *_matched(made, cabinets))),
        surveys=job.surveys,
        runs=tuple(r.run for r in runs),
    )  # fmt: skip
    return weighed(rod)


def _by_part(one: Made | MadeRun) -> dict[str, tuple[Machining, ...]]:
    panels = {p.id: p for p in one.carcass.panels}
    out: dict[str, list[Machining]] = {p: [] for p in panels}
    fitted = fitting_machining(one.carcass.fitting_bores, panels)
    for m in (*one.machining, *pin_machining(one.carcass.pin_rows, panels), *fitted):
        out[m.part].append(m)
    return {p: tuple(ms) for p, ms in out.items()}


def _matched(made: tuple[Made, ...], cabinets: Sequence[RodCabinet]) -> Iterator[Matched]:
    """Fronts that come out of one piece, by the marks of every copy."""
    for one, cabinet in zip(made, cabinets, strict=False):  # the boards of runs stand behind them
        for n, fronts in enumerate(one.carcass.matched, 1):
            for copy in range(cabinet.count):
                marks = tuple(cabinet.part[front].marks[copy] for front in fronts.fronts)
                yield Matched(name=f"fronts {n} of {cabinet.name} {copy + 1}", marks=marks, run=fronts.run)


def _cabinet(one: Made, by_part: dict[str, tuple[Machining, ...]]) -> RodCabinet:
    c = one.cabinet
    return RodCabinet(
        name=c.name, count=c.count, size=(c.width_mm, c.height_mm, c.depth_mm), asked=_asked(one),
        hardware=(*_pins(c, one.carcass.shelf_pins), *one.carcass.fittings),
        parts=_parts(one.carcass, c.mark, c.count, by_part), joints=one.joints, proof=_UNPROVEN,
        doors=one.carcass.doors, drawers=one.carcass.drawers, finish=c.finish,
        footing=one.carcass.footing, brackets=one.carcass.brackets,
        clothes_rails=one.carcass.clothes_rails,
    )  # fmt: skip


def _of_run(one: MadeRun, by_part: dict[str, tuple[Machining, ...]]) -> RodCabinet:
    asked = Asked(
        style="run", corners="", back=None, void=0.0, openings=(), kg_per_m2=None, notes=one.notes
    )  # fmt: skip
    return RodCabinet(
        name=one.run.name, count=1, size=one.size, asked=asked, hardware=one.carcass.fittings,
        parts=_parts(one.carcass, one.mark, 1, by_part), joints=one.joints, proof=_UNPROVEN,
    )  # fmt: skip


def _parts(carcass: Carcass, mark: str, count: int, by_part: dict[str, tuple[Machining, ...]]) -> tuple[Part, ...]:
    """Every board with its marks and its machining, and the first board of the cabinet that it is the same as."""
    parts: list[Part] = []
    firsts: list[tuple[Panel, tuple[Machining, ...]]] = []
    named = {p.id: p for p in carcass.panels}
    for panel in carcass.panels:
        cuts = by_part[panel.id]
        same_as = first_like(panel, cuts, firsts)
        if same_as is None:
            firsts.append((panel, cuts))
        on = named.get(panel.glued_on or "")
        parts.append(
            Part(
                **{name: getattr(panel, name) for name in _PANEL_FIELDS},
                marks=marks(mark, 1, count, panel, on), same_as=same_as, features=tuple(m.feature for m in cuts),
            )
        )  # fmt: skip
    return tuple(parts)


def _pins(cabinet: Cabinet, number: int) -> tuple[Item, ...]:
    return (Item(item=f"shelf pin {cabinet.pins.diameter_mm:g} mm", count=number),) if number else ()


def _under_slope(one: Made) -> str:
    """How the top slopes, where it does."""
    roof, top = one.cabinet.roof, next((p for p in one.carcass.panels if p.role == "top"), None)
    if roof is None or top is None:
        return ""
    return f", the top falling {degrees(acos(abs(top.pose.rotation[2][2]))):.1f} degrees to the {roof.falls}"


def _asked(one: Made) -> Asked:
    c = one.cabinet
    return Asked(
        style=c.kind, corners=CORNERS[c.sides] + _under_slope(one),
        back=c.back.style if c.back else None, void=c.back.void_mm if c.back else 0.0,
        openings=one.carcass.openings, kg_per_m2=c.contents.kg_per_m2 if c.contents else None, notes=c.notes,
        contents=c.contents, hanging=c.hanging, room=c.room, sag=c.sag, alcove=c.alcove,
    )  # fmt: skip


def _heading(job: Job) -> Heading:
    return Heading(
        letter=job.letter, date=job.date, customer=job.customer, address=job.address, notes=job.notes,
        paper=job.paper, units=job.units,
    )  # fmt: skip
