"""A wall unit on its wall: forces at its fixings by equilibrium, shut, open, loaded forward, with one fixing missing.

    pull at the line of fixings = W x (middle of the weight to the wall) / (line above the bottom back edge)
    shear there = W, push of the foot on the wall = the pull
Source: statics; the standards for wall units and their attachment (EN 14749, EN 15939) leave the wall and its
anchors out, and so does this: what one fixing in that wall bears is the maker's to enter.
"""

from rodwork.geometry.vec import Vec
from rodwork.load.bears import working
from rodwork.load.chain import chain_of
from rodwork.load.hung_by import hung_by, on_the_wall
from rodwork.load.masses import Mass, board_masses, content_masses, drawer_contents, together
from rodwork.load.row import shares_N
from rodwork.model.demand import Wall
from rodwork.model.figure import Figure
from rodwork.model.loading import FixingForce, HangingLoad, JointLoad, ShelfLoad, WallForce
from rodwork.model.rod import Rod, RodCabinet

FROM_TOP_MM = 60.0  # where no fixing is drawn and none is said; common practice, no source
FROM_SIDE_MM = 60.0
LIFT_MM = 5.0  # over the thickness of a split batten, to lift the cabinet on; common practice, no source
APART_MM = 400.0
LEVEL = Figure(
    value=196.2, standing="second-hand",
    source="about 20 kg on one cavity plug, a third of the pull at which board gave: one trade page, weak; "
    "a level to warn at, no capacity",
)  # fmt: skip
WORDS = (
    "Fix into masonry or studs. Plaster and plasterboard carry nothing themselves.",
    "Look at the wall before you drill, and test a screw and plug in it; where the base is not known, have it tested "
    "by somebody competent (BS 8539 is the code of practice for anchors).",
    "Two people hang it. Take doors and shelves out first, and screw it through when it is level.",
)
OF_KIND = {
    "dot and dab": "Dot and dab: the plug must bridge the gap and grip the block behind; the dabs carry nothing.",
    "aerated block": "Aerated block: use plugs made for it; ordinary plugs turn in it.",
    "lath and plaster": "Lath and plaster: find the studs; laths and plaster carry nothing.",
    "timber stud": "Timber studs: screw into the middle of the studs, or on a batten across two of them.",
    "metal stud": "Metal studs are thin: spread the load, or back the board with timber before it is closed.",
    "plasterboard": "Plasterboard alone: take the load to studs or to masonry.",
    "unknown": "Nobody has said what the wall is. Find out before anything is made to hang on it.",
}


def wall_of(cabinet: RodCabinet, rod: Rod) -> tuple[str, Wall]:
    """The name and the facts of its wall; a kind of wall that nothing more is known of, or an unknown one."""
    name = cabinet.asked.hanging.wall if cabinet.asked.hanging else None
    if name is not None and name in rod.walls:
        return name, rod.walls[name]
    kind = name if name in OF_KIND or name in ("brick", "dense block") else "unknown"
    return kind or "unknown", Wall(kind=kind or "unknown", gap_mm=None, studs_mm=None, fixing=None)  # type: ignore[arg-type]


def hanging_load(
    cabinet: RodCabinet, rod: Rod, shelves: tuple[ShelfLoad, ...], joints: tuple[JointLoad, ...]
) -> HangingLoad | None:
    """What hangs on the wall and how; None for a cabinet that stands."""
    asked = cabinet.asked.hanging
    if asked is None:
        return None
    name, wall = wall_of(cabinet, rod)
    places, down = fixing_places(cabinet, wall)
    states = tuple(_state(cabinet, places, down, *how) for how in _states(cabinet))
    worst = max(states, key=lambda s: s.pull_N)
    missing = _one_missing(worst, places, cabinet, down)
    bears = None
    if wall.fixing is not None and wall.fixing.pull_N is not None and wall.fixing.shear_N is not None:
        bears = (working(wall.fixing.pull_N, wall.fixing), working(wall.fixing.shear_N, wall.fixing))
    words = (
        *WORDS,
        *_of_batten(cabinet),
        *_of_brackets(cabinet),
        *((OF_KIND[wall.kind],) if wall.kind in OF_KIND else ()),
    )
    return HangingLoad(
        wall=name, kind=wall.kind, style=asked.style, at_mm=places, down_mm=down, states=states, one_missing=missing,
        level_N=LEVEL if bears is None else None, words=words,
        chain=chain_of(cabinet, rod, shelves, joints, worst, bears, wall.kind),
    )  # fmt: skip


def _of_batten(cabinet: RodCabinet) -> tuple[str, ...]:
    """What to know of a split batten that is drawn. Lift room: 45 degrees engage by their own thickness."""
    half = on_the_wall(cabinet)
    if half is None:
        return ()
    room = half.size[2] + LIFT_MM
    return (
        f"Rip both halves of the batten from one strip, blade at 45; the wall's high edge stands away from the wall. "
        f"Leave {room:.0f} of lift room above the cabinet. Screw the packer up too, and the cabinet down to it.",
    )


def _of_brackets(cabinet: RodCabinet) -> tuple[str, ...]:
    """What to know of hanging brackets that are drawn."""
    if not cabinet.brackets:
        return ()
    down = cabinet.size[1] - cabinet.brackets[0].line
    return (
        f"Screw the wall rail up level, its line {down:g} below the top of the cabinet, and hook both brackets over "
        "it. Level it by their screws, draw it to the wall, and make sure that neither hook can lift off.",
    )


def fixing_places(cabinet: RodCabinet, wall: Wall) -> tuple[tuple[float, ...], float]:
    """Where the wall fixings stand: places from the left side of the carcass, and how far below its top, mm.

    As drawn, where bores to hang by are drawn; else as many as were asked for, or one to each stud, or two and one
    more for each 400 mm; spread evenly between 60 mm from either side.
    """
    asked = cabinet.asked.hanging
    width, height, _ = cabinet.size
    drawn = [] if cabinet.brackets else _drawn(cabinet)
    down = asked.from_top_mm if asked else None
    if cabinet.brackets:
        down = height - cabinet.brackets[0].line
    if down is None:
        down = height - sum(z for _, _, z in drawn) / len(drawn) if drawn else _middle_of_batten(cabinet)
    if drawn and (asked is None or asked.fixings in (None, len(drawn))):
        return tuple(sorted(round(x, 6) for x, _, _ in drawn)), down
    n = asked.fixings if asked and asked.fixings else None
    if n is None:
        n = (
            max(2, int(width // wall.studs_mm))
            if wall.studs_mm
            else 2 + int(max(width - 2 * FROM_SIDE_MM, 0) // APART_MM)
        )
    first, last = min(FROM_SIDE_MM, width / 4), max(width - FROM_SIDE_MM, 3 * width / 4)
    return (width / 2,) if n == 1 else tuple(first + (last - first) * i / (n - 1) for i in range(n)), down


def _drawn(cabinet: RodCabinet) -> list[Vec]:
    """The middles of bores that wall fixings go through."""
    return [p.pose.to_cabinet(f.at) for p in cabinet.parts for f in p.features if f.role == "hanging"]


def _middle_of_batten(cabinet: RodCabinet) -> float:
    hung = on_the_wall(cabinet) or hung_by(cabinet)
    if hung is None:
        return FROM_TOP_MM
    low, high = hung.box
    return cabinet.size[1] - (low[2] + high[2]) / 2


def _states(cabinet: RodCabinet) -> tuple[tuple[str, bool, bool], ...]:
    """(words, opened, contents forward): a cabinet without doors or drawers has nothing to open."""
    moves = any(p.role in ("door", "drawer front") for p in cabinet.parts)
    shut = ("full and shut" if moves else "full", False, False)
    forward = ("full, what stands inside pulled to the front", False, True)
    if not moves:
        return (shut, forward)
    return (shut, ("full, open", True, False), ("full, open, what stands inside pulled to the front", True, True))


def _state(
    cabinet: RodCabinet, places: tuple[float, ...], down: float, words: str, opened: bool, forward: bool
) -> WallForce:
    masses = (
        *board_masses(cabinet, opened), *content_masses(cabinet, forward), *drawer_contents(cabinet, opened)
    )  # fmt: skip
    return wall_force(words, together(masses), places, cabinet.size[2], cabinet.size[1] - down)


def wall_force(words: str, mass: Mass, places: tuple[float, ...], depth_mm: float, line_mm: float) -> WallForce:
    """The forces of one state: `depth_mm` front of the carcass to the wall, `line_mm` foot to the line of fixings."""
    out = depth_mm - mass.y
    pull = max(mass.N * out / line_mm, 0.0)
    shears = shares_N(places, mass.N, mass.x)
    pulls = shares_N(places, pull, mass.x)
    forces = tuple(
        FixingForce(fixing=f"{n}", shear_N=s, pull_N=p)
        for n, (s, p) in enumerate(zip(shears, pulls, strict=True), 1)
    )  # fmt: skip
    return WallForce(state=words, weight_N=mass.N, out_mm=out, pull_N=pull, shear_N=mass.N, push_N=pull, forces=forces)


def _one_missing(
    worst: WallForce, places: tuple[float, ...], cabinet: RodCabinet, down: float
) -> WallForce:  # fmt: skip
    """The worst state with the fixing gone whose loss the others feel most; with one fixing alone: nothing is left."""
    if len(places) < 2:
        return WallForce(
            state="its only screw gone: it falls", weight_N=worst.weight_N, out_mm=worst.out_mm, pull_N=worst.pull_N,
            shear_N=worst.shear_N, push_N=worst.push_N, forces=(),
        )  # fmt: skip
    words, opened, forward = _states(cabinet)[-1]
    found = [_state(cabinet, (*places[:i], *places[i + 1 :]), down, words, opened, forward) for i in range(len(places))]
    return max(found, key=lambda s: max(abs(f.pull_N) + abs(f.shear_N) for f in s.forces))
