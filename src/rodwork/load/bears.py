"""What one fixing of a joint bears in daily use: the maker's figures first, then what is published, else nothing.

Three ways to a working load, each named in the result:
- Eurocode 5: kmod R / gamma_M, and over 1.5 for the load's own factor;
- a mean at failure that was published: over 5; a characteristic value: over 4. That is our own rule; the Wood
  Handbook's averages are 4.5 to 5.7 times the loads that the NDS allows;
- a working load that the maker entered: as it stands.
"""

from dataclasses import dataclass, replace
from math import hypot

from rodwork.catalogue.fasteners import Fastener, fastener
from rodwork.load import american, dowel_corner
from rodwork.load import eurocode5 as ec5
from rodwork.load.boards import BoardFigures, figures_of
from rodwork.load.held import tested_for
from rodwork.load.shelf import G_CONTENTS
from rodwork.model.demand import Contents, Tested
from rodwork.model.feature import Bore
from rodwork.model.figure import Figure, Standing, least_sure
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.rod import Rod, RodCabinet

OVER = {"working load": 1.0, "characteristic": 4.0, "mean of tests": 5.0}
NDS_COVERS = {"birch plywood", "osb"}  # of our groups: it has no particleboard nor MDF
HEAD_LEAST = 2.0  # heads under two diameters are outside the embedment of panels, 8.3.1.3
EDGE_IS_JUDGED = "the code has no embedment for the edge of a board: that of its face is used"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bears:
    """Working loads of one fixing, N; None where nothing is known. `mode`: how it gives out across its length."""

    shear: Figure | None
    pull: Figure | None
    moment: Figure | None  # N mm, of a corner
    mode: str
    name: str
    beside: str = ""
    quadratic: bool = True

    def times(self, shear_N: float, pull_N: float) -> float | None:
        """How many times over it bears both at once; None where one that is needed is not known.

        Together: the squares add up for screws, the shares themselves for smooth nails (EN 1995-1-1, 8.27, 8.28).
        """
        shares = []
        for force, figure in ((abs(shear_N), self.shear), (abs(pull_N), self.pull)):
            if force <= 1e-6:
                continue
            if figure is None:
                return None
            shares.append(force / figure.value)
        used = hypot(*shares) if self.quadratic else sum(shares)
        return 1 / used if used > 0 else float("inf")

    @staticmethod
    def of_tested(name: str, tested: Tested | None) -> "Bears":
        """What something bears by the maker's figures alone."""
        pull = tested.pull_N if tested else None
        shear = tested.shear_N if tested else None
        return Bears(
            shear=working(shear, tested) if tested and shear is not None else None,
            pull=working(pull, tested) if tested and pull is not None else None, moment=None,
            mode="as tested", name=name,
            quadratic=False,
        )  # fmt: skip

    def needed(self, shear_N: float, pull_N: float) -> tuple[Figure, ...]:
        """The figures that a margin rests on."""
        asked = ((shear_N, self.shear), (pull_N, self.pull))
        return tuple(f for force, f in asked if abs(force) > 1e-6 and f is not None)


def working(value: float, tested: Tested) -> Figure:
    """A tested figure as a working load."""
    over = OVER[tested.basis]
    how = tested.source if over == 1 else f"{tested.source}; {tested.basis} over {over:g}, our own rule"
    return Figure(value=value / over, standing="entered", source=how)


def bears(fixing: Fixing, joint: Joint, cabinet: RodCabinet, rod: Rod) -> Bears:
    """What one fixing of a joint bears."""
    known = next((f for item in fixing.hardware if (f := fastener(item.item)) is not None), None)
    name = fixing.hardware[0].item if fixing.hardware else fixing.family
    found = Bears(shear=None, pull=None, moment=None, mode="", name=name)
    if fixing.law == "enter":
        found = _channel(fixing, joint, cabinet, rod)
    elif known is not None and known.how in ("thread", "smooth") and _straight_through(fixing, cabinet):
        found = _driven(known, name, fixing, joint, cabinet, rod)
    elif known is not None and known.how == "glued":
        found = _glued(known, name, fixing, joint, cabinet, rod)
    tested = tested_for(fixing, rod)
    if tested is None:
        return found
    return replace(
        found, mode="as tested",
        shear=working(tested.shear_N, tested) if tested.shear_N is not None else found.shear,
        pull=working(tested.pull_N, tested) if tested.pull_N is not None else found.pull,
        moment=working(tested.moment_Nmm, tested) if tested.moment_Nmm is not None else found.moment,
    )  # fmt: skip


def _straight_through(fixing: Fixing, cabinet: RodCabinet) -> bool:
    """Whether it is driven square through one board into the other: what the formulas are for.

    A head in a keyhole, or a screw in an inclined pocket, is neither.
    """
    halves = (*fixing.halves, *fixing.others)
    cut = [x for h in halves if h.feature for x in cabinet.part[h.part].features if x.id == h.feature]
    return fixing.law in ("line", "none") and all(isinstance(x, Bore) for x in cut)


def _boards(joint: Joint, cabinet: RodCabinet, rod: Rod) -> tuple[BoardFigures, BoardFigures]:
    host, guest = (cabinet.part[p] for p in joint.parts)
    return (
        figures_of(rod.boards[host.board], host.size[2]), figures_of(rod.boards[guest.board], guest.size[2])
    )  # fmt: skip


def _design(
    value: float, standing: Standing, source: str, boards: tuple[BoardFigures, ...], cabinet: RodCabinet
) -> Figure | None:
    """A characteristic value of Eurocode 5 as a working load; None where a board may not stand there."""
    contents = cabinet.asked.contents or Contents()
    kmods = [b.factors.kmod_of(cabinet.asked.room, contents.lasts) if b.factors else None for b in boards]
    if any(k is None for k in kmods):
        return None
    kmod = 1.0
    for k in kmods:
        kmod *= k or 0.0
    kmod **= 1 / len(kmods)  # of two boards the square root of both, 2.3.2.1 (2.6)
    judged = [b.factors_source.standing for b in boards if b.factors_source is not None]
    return Figure(
        value=kmod * value / ec5.GAMMA_CONNECTION / G_CONTENTS, standing=least_sure(standing, *judged), source=source
    )


def _embedment(board: BoardFigures, thickness: float, d: float) -> float | None:
    """In the face of a panel that Eurocode 5 covers; None for one that it does not."""
    if board.group == "birch plywood" and board.density is not None:
        return ec5.embedment_plywood(board.density.value, d)
    return ec5.embedment_particleboard(thickness, d) if board.group in ("particleboard", "osb") else None


def _driven(f: Fastener, name: str, fixing: Fixing, joint: Joint, cabinet: RodCabinet, rod: Rod) -> Bears:
    """A screw or nail through the host into the guest's end."""
    host, guest = _boards(joint, cabinet, rod)
    host_part = cabinet.part[joint.parts[0]]
    t1 = _through(fixing, cabinet) or host_part.size[2]
    t2 = f.length_mm - t1
    d = f.diameter_mm
    smooth = f.how == "smooth"
    if min(d, t1, t2) <= 0 or f.tensile is None or f.head is None:
        return Bears(shear=None, pull=None, moment=None, mode="", name=name)
    effective = d if smooth else ec5.screw_diameter(d * (f.root.value if f.root else 0.65))
    fh1, fh2 = _embedment(host, host_part.size[2], effective), _embedment(guest, guest_thickness(joint), effective)
    pull = _withdrawal(f, t2, guest)
    shear, mode = None, ""
    if fh1 is not None and fh2 is not None and f.head.value >= HEAD_LEAST:
        My = ec5.yield_moment(effective, f.tensile.value)
        johansen = ec5.single_shear(t1, t2, fh1, fh2, effective, My)
        source = f"EN 1995-1-1, 8.6, mode {johansen.mode}, no rope; {EDGE_IS_JUDGED}"
        shear = _design(johansen.N, "judgement", source, (host, guest), cabinet)
        mode = f"{ec5.MODE_WORDS[johansen.mode]} ({johansen.mode})"
    return Bears(
        shear=shear, pull=pull, moment=None, mode=mode, name=name, beside=_american(f, t1, t2, host, guest),
        quadratic=not smooth,
    )  # fmt: skip


def guest_thickness(joint: Joint) -> float:
    """Of the board whose end or edge is worked."""
    return joint.contact.width


def _through(fixing: Fixing, cabinet: RodCabinet) -> float | None:
    """How much of the host a screw passes: its clearance bore, less what a plug's bore takes of it."""
    half = fixing.halves[0]
    feature = next((x for x in cabinet.part[half.part].features if x.id == half.feature), None)
    return feature.depth if isinstance(feature, Bore) else None


def _withdrawal(f: Fastener, length: float, guest: BoardFigures) -> Figure | None:
    """Out of the end of a board: published for screws in particleboard alone."""
    if f.how != "thread" or guest.group != "particleboard" or guest.weight_kg_m3 is None:
        return None
    newtons = american.particleboard_screw_withdrawal(guest.weight_kg_m3 / 1000, f.diameter_mm, length, "edge")
    source = "Wood Handbook ch. 8, screws in the edge of particleboard, average at failure over 5, our own rule"
    return Figure(value=newtons / OVER["mean of tests"], standing="from memory", source=source)


def _american(f: Fastener, t1: float, t2: float, host: BoardFigures, guest: BoardFigures) -> str:
    """The NDS figure beside it, for users of US practice: G taken from the board's weight."""
    if host.weight_kg_m3 is None or guest.weight_kg_m3 is None or not {host.group, guest.group} <= NDS_COVERS:
        return ""
    inch = american.MM_PER_IN
    newtons, mode = american.nds_lateral(
        guest.weight_kg_m3 / 1000, host.weight_kg_m3 / 1000, f.diameter_mm * (f.root.value if f.root else 1.0) / inch,
        t1 / inch, t2 / inch, 90_000.0,
    )  # fmt: skip
    return f"NDS, G from the board's weight, side grain: {newtons:.0f} N across it allowed, mode {mode}"


def _glued(f: Fastener, name: str, fixing: Fixing, joint: Joint, cabinet: RodCabinet, rod: Rod) -> Bears:
    """A dowel glued into both boards: pulled out by the bond, a corner of particleboard by its published moment."""
    host, guest = _boards(joint, cabinet, rod)
    in_face = _depth(fixing, 0, cabinet)
    in_end = max(f.length_mm - in_face, 0.0)
    held = [
        n for n in (
            dowel_corner.dowel_withdrawal(f.diameter_mm, in_face, host.group or "", "face"),
            dowel_corner.dowel_withdrawal(f.diameter_mm, in_end, guest.group or "", "end"),
        ) if n is not None
    ]  # fmt: skip
    pull = None
    if len(held) == 2 and joint.glued:
        pull = Figure(
            value=min(held) / OVER["mean of tests"], standing="second-hand",
            source=f"{dowel_corner.BOND_SOURCE}, over 5, our own rule",
        )  # fmt: skip
    corner = dowel_corner.corner_moment(f.diameter_mm, in_face, host.group or "") if joint.glued else None
    moment = None
    if corner is not None:
        moment = Figure(
            value=corner.closing_Nmm / OVER["mean of tests"], standing="second-hand",
            source=f"{dowel_corner.SOURCE}, over 5, our own rule",
        )  # fmt: skip
    return Bears(shear=None, pull=pull, moment=moment, mode="", name=name)


def _depth(fixing: Fixing, half: int, cabinet: RodCabinet) -> float:
    of = fixing.halves[half]
    feature = next((x for x in cabinet.part[of.part].features if x.id == of.feature), None)
    return feature.depth if feature is not None else 0.0


def _channel(fixing: Fixing, joint: Joint, cabinet: RodCabinet, rod: Rod) -> Bears:
    """A board that lies in a housing or groove bears on its wall; nothing published says what holds it in there."""
    host, guest = _boards(joint, cabinet, rod)
    weak = min((b.compression for b in (host, guest) if b.compression), key=lambda c: c.value, default=None)
    if weak is None or host.compression is None or guest.compression is None:
        return Bears(shear=None, pull=None, moment=None, mode="", name=fixing.family)
    newtons = weak.value * _depth(fixing, 0, cabinet) * fixing.length
    shear = _design(
        newtons, weak.standing, f"bearing on the wall of the {fixing.family}: {weak.source}", (host, guest), cabinet
    )
    return Bears(shear=shear, pull=None, moment=None, mode="gives at its wall", name=fixing.family)
