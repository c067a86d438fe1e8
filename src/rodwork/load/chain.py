"""The chain of the load, from what stands inside to the wall: a link with no figure is open, and nothing is made up.

Each link's margin is how many times over it bears what comes to it in the worst state. A chain with an open link
says that it hangs on a guess, whatever its other links bear.
"""

from rodwork.load.bears import Bears, bears
from rodwork.load.contents import contents_kg
from rodwork.load.held import named_in
from rodwork.load.hung_by import hung_by
from rodwork.load.shelves import reactions
from rodwork.model.figure import Figure, least_sure
from rodwork.model.fixing import Joint
from rodwork.model.loading import Chain, JointLoad, Link, ShelfLoad, WallForce
from rodwork.model.rod import Rod, RodCabinet

GUESS = "HANGS ON A GUESS"
BITS = {"split batten": "split batten", "fixing rail": "rail", "brackets": "hanging bracket", "screws": ""}
TO_CARCASS = "hanging joint to the carcass"  # all of it: what joins the batten, the rail or the back to the box


def chain_of(
    cabinet: RodCabinet,
    rod: Rod,
    shelves: tuple[ShelfLoad, ...],
    joints: tuple[JointLoad, ...],
    worst: WallForce,
    fixing: tuple[Figure, Figure] | None,
    kind: str,
) -> Chain:
    """Every link, from the shelf to the wall. `fixing`: working pull and shear of one fixing in that wall, or None."""
    links = [
        *_shelf(shelves), *_pins(cabinet, rod), *_joints(joints), *_hung(cabinet, rod, worst),
        *_bit(cabinet, rod, worst), _in_wall(worst, fixing, kind),
    ]  # fmt: skip
    return Chain(links=tuple(links), verdict=_verdict(tuple(links), contents_kg(cabinet)))


def _verdict(links: tuple[Link, ...], kg: float) -> str:
    if any(link.margin is None for link in links):
        return GUESS
    weakest = min(links, key=lambda link: link.margin or 0.0)
    times = weakest.margin or 0.0
    unsure = (
        "" if weakest.standing not in ("from memory", "judgement", "practice") else ", by a figure that is not firm"
    )
    if times < 1:
        return f"TOO MUCH FOR ITS WEAKEST LINK: {weakest.name}, {times:.1f} times over{unsure}"
    return f"weakest link {times:.1f} times over: {weakest.name}{unsure}"


def _shelf(shelves: tuple[ShelfLoad, ...]) -> list[Link]:
    if not shelves:
        return []
    unknown = next((s for s in shelves if s.strong is None), None)
    worst = unknown or min(shelves, key=lambda s: s.strong or 0.0)
    ask = worst.asks[0] if worst.asks else ""
    return [
        Link(
            name=worst.name, carries=f"{worst.contents_kg + worst.own_kg:.0f} kg", margin=worst.strong,
            standing=worst.stiffness.standing if worst.stiffness else None,
            source="its strength by EN 1995-1-1", asks=ask if worst.strong is None else "",
        )
    ]  # fmt: skip


def _pins(cabinet: RodCabinet, rod: Rod) -> list[Link]:
    """The pins of the loose shelf that presses most on them."""
    item = next((h.item for h in cabinet.hardware if "pin" in h.item.split()), None)
    pushes = [
        push / 2
        for p in cabinet.parts
        if p.role == "loose shelf"
        for held, push, _ in reactions(p, cabinet, rod)
        if held.by == "on pins"
    ]
    if not pushes or item is None:
        return []
    tested = named_in(item, rod)
    return [_link_of("pins", max(pushes), 0.0, Bears.of_tested(item, tested))]


def _joints(joints: tuple[JointLoad, ...]) -> list[Link]:
    if not joints:
        return []
    unknown = next((j for j in joints if j.margin is None), None)
    worst = unknown or min(joints, key=lambda j: j.margin or 0.0)
    return [
        Link(
            name=worst.name, carries=f"{worst.shear_N + worst.pull_N:.0f} N", margin=worst.margin,
            standing=worst.bears.standing if worst.bears else None, source=worst.bears.source if worst.bears else "",
            asks=worst.asks,
        )
    ]  # fmt: skip


def _hung(cabinet: RodCabinet, rod: Rod, worst: WallForce) -> list[Link]:
    """What joins the batten or rail to the carcass: all its joints share the weight and the pull."""
    hung = hung_by(cabinet)
    joints = [j for j in cabinet.joints if hung is not None and hung.id in j.parts]
    fixings = [(f, j) for j in joints for f in j.fixings]
    if not fixings:
        if BITS[cabinet.asked.hanging.style if cabinet.asked.hanging else "screws"] == "hanging bracket":
            return []
        own = Bears.of_tested(TO_CARCASS, named_in(TO_CARCASS, rod))  # it is not drawn: the maker's own figure, or none
        return [_link_of(TO_CARCASS, worst.shear_N, worst.pull_N, own)]
    each = [
        (bears(f, j, cabinet, rod), *_forces(j, worst.shear_N / len(fixings), worst.pull_N / len(fixings)))
        for f, j in fixings
    ]
    links = [_link_of(TO_CARCASS, shear, pull, of) for of, shear, pull in each]
    return [next((x for x in links if x.margin is None), None) or min(links, key=lambda x: x.margin or 0.0)]


def _forces(joint: Joint, weight: float, pull: float) -> tuple[float, float]:
    """(across, straight out) of one fixing: the weight is down, the pull is out from the wall."""
    out = joint.contact.out
    if abs(out[1]) > 0.9:
        return weight, pull
    return (pull, weight) if abs(out[2]) > 0.9 else ((weight**2 + pull**2) ** 0.5, 0.0)


def _bit(cabinet: RodCabinet, rod: Rod, worst: WallForce) -> list[Link]:
    """The batten's own bevel, the rail, or the bracket: only its maker or a test can say what it bears."""
    name = BITS[cabinet.asked.hanging.style if cabinet.asked.hanging else "screws"]
    if not name:
        return []
    n = 2 if name == "hanging bracket" else 1
    return [_link_of(name, worst.shear_N / n, worst.pull_N / n, Bears.of_tested(name, named_in(name, rod)))]


def _in_wall(worst: WallForce, fixing: tuple[Figure, Figure] | None, kind: str) -> Link:
    most = max(worst.forces, key=lambda f: abs(f.pull_N) + abs(f.shear_N))
    name = f"one wall screw ({kind})"
    carries = f"{most.shear_N:.0f} N down, {most.pull_N:.0f} N out"
    if fixing is None:
        ask = (
            "What one screw with its plug bears in that wall is not entered. Write pull_kn, shear_kn and source under "
            "[walls.NAME], from the plug maker's sheet for that wall or a test in it"
        )
        return Link(name=name, carries=carries, margin=None, standing=None, source="", asks=ask)
    used = abs(most.pull_N) / fixing[0].value + abs(most.shear_N) / fixing[1].value
    return Link(
        name=name, carries=carries, margin=1 / used if used > 0 else float("inf"), standing="entered",
        source=fixing[0].source, asks="",
    )  # fmt: skip


def _link_of(name: str, shear_N: float, pull_N: float, of: Bears) -> Link:
    margin = of.times(shear_N, pull_N)
    needed = of.needed(shear_N, pull_N)
    carries = f"{shear_N:.0f} N" + (f" across, {pull_N:.0f} N out" if pull_N > 0.5 else "")
    if margin is None:
        ask = (
            f"Nothing published says what a {of.name} bears. Write its figures and the source under "
            f'[tested."{of.name}"]'
        )
        return Link(name=name, carries=carries, margin=None, standing=None, source="", asks=ask)
    return Link(
        name=name, carries=carries, margin=margin,
        standing=least_sure(*(f.standing for f in needed)) if needed else "arithmetic",
        source="; ".join(dict.fromkeys(f.source for f in needed)), asks="",
    )  # fmt: skip
