"""Every joint that carries something: what comes to each of its fixings by equilibrium, and its worst fixing.

What is reckoned: the pushes of shelves and bottoms at their ends, shared over the row as an elastic row does; where
a joint resists turning, its moment as a pull on the row, about the edge that it closes on. Own weight and contents,
without factors: these are in what a fixing bears.
"""

from collections import defaultdict
from dataclasses import dataclass, field
from math import sqrt

from rodwork.load.bears import Bears, bears
from rodwork.load.contents import bearing
from rodwork.load.row import shares_N
from rodwork.load.shelves import reactions
from rodwork.model.figure import Figure, least_sure
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.loading import FixingForce, JointLoad
from rodwork.model.rod import Rod, RodCabinet


@dataclass(slots=True)
class _Carried:
    """What comes to one joint: across its fixings, straight out of them, and turning, at a depth along the run."""

    shear_N: float = 0.0
    pull_N: float = 0.0
    moment_Nmm: float = 0.0
    at: list[tuple[float, float]] = field(default_factory=list)  # (force, depth from the front) of the shears and pulls


def joint_loads(cabinet: RodCabinet, rod: Rod) -> tuple[JointLoad, ...]:
    """All joints that carry something, in the order of the Rod."""
    carried = _carried(cabinet, rod)
    return tuple(_joint_load(j, carried[j.id], cabinet, rod) for j in cabinet.joints if j.id in carried)


def _carried(cabinet: RodCabinet, rod: Rod) -> dict[str, _Carried]:
    out: dict[str, _Carried] = defaultdict(_Carried)
    joints = {j.id: j for j in cabinet.joints}
    for part in bearing(cabinet):
        low, high = part.box
        for held, push, turning in reactions(part, cabinet, rod):
            for name in held.joints:
                joint, share = joints[name], push / len(held.joints)
                one = out[name]
                if abs(joint.contact.out[2]) > 0.9:  # across its end: pulled out where the board hangs, else pressed
                    hangs = joint.parts[0] == part.id and joint.contact.out[2] > 0 and cabinet.asked.style == "wall"
                    one.pull_N += share if hangs else 0.0
                else:  # along the contact, and out of it where that leans and the board hangs from it
                    out_z = joint.contact.out[2]
                    one.shear_N += share * sqrt(1 - out_z * out_z)
                    one.pull_N += share * max(-out_z, 0.0)
                one.moment_Nmm += abs(turning)
                one.at.append((share, (low[1] + high[1]) / 2))
    return dict(out)


def _joint_load(joint: Joint, carried: _Carried, cabinet: RodCabinet, rod: Rod) -> JointLoad:
    total = sum(f for f, _ in carried.at) or 1.0
    depth = sum(f * y for f, y in carried.at) / total
    fixings = _bearing_fixings(joint)
    found = {f.id: bears(f, joint, cabinet, rod) for f in fixings}
    forces = _forces(joint, fixings, carried, depth)
    name = f"{cabinet.part[joint.parts[1]].name} to {cabinet.part[joint.parts[0]].name}"
    worst, margin = _worst(forces, found)
    if worst is None:
        return JointLoad(
            joint=joint.id, name=name, shear_N=carried.shear_N, pull_N=carried.pull_N, moment_Nmm=carried.moment_Nmm,
            forces=(), governing="", bears=None, mode="", margin=None, beside="",
            asks=f"There is nothing in the joint {name} that carries. Give it a fixing.",
        )  # fmt: skip
    of = found[worst.fixing]
    needed = of.needed(worst.shear_N, worst.pull_N)
    figure, mode = None, _mode(of, worst)
    turned = _corner_times(of, carried, len(fixings))
    if turned is not None and of.moment is not None and margin is not None and turned < margin:
        margin, needed, mode = turned, (of.moment,), f"{of.name} corner turns, by published tests"
    if margin is not None and needed:
        force = (worst.shear_N**2 + worst.pull_N**2) ** 0.5
        figure = Figure(
            value=margin * force, standing=least_sure(*(f.standing for f in needed)),
            source="; ".join(dict.fromkeys(f.source for f in needed)),
        )  # fmt: skip
    return JointLoad(
        joint=joint.id, name=name, shear_N=carried.shear_N, pull_N=carried.pull_N, moment_Nmm=carried.moment_Nmm,
        forces=forces, governing=worst.fixing, bears=figure, mode=mode, margin=margin, beside=of.beside,
        asks="" if margin is not None else _asks(of, worst),
    )  # fmt: skip


def _corner_times(of: Bears, carried: _Carried, fixings: int) -> float | None:
    """How many times over a corner bears its moment, where one is published for its fixings; they share it alike."""
    if of.moment is None or not carried.moment_Nmm:
        return None
    return of.moment.value * fixings / carried.moment_Nmm


def _mode(of: Bears, worst: FixingForce) -> str:
    """How the worst fixing gives out, in words."""
    if of.pull is not None and abs(worst.pull_N) > 1e-6:
        across = abs(worst.shear_N) / of.shear.value if of.shear else 0.0
        if abs(worst.pull_N) / of.pull.value > across:
            return f"{of.name} pulls out"
    return f"{of.name} {of.mode}".strip()


def _bearing_fixings(joint: Joint) -> tuple[Fixing, ...]:
    """Where the guest lies in a channel, the channel carries; else all that is bought."""
    channels = tuple(f for f in joint.fixings if f.law == "enter")
    return channels or joint.fixings


def _forces(joint: Joint, fixings: tuple[Fixing, ...], carried: _Carried, depth: float) -> tuple[FixingForce, ...]:
    if not fixings:
        return ()
    along = max(range(3), key=lambda i: abs(joint.contact.along[i]))
    places = [f.at[along] for f in fixings]
    at = depth if along == 1 else sum(places) / len(places)
    shears, pulls = shares_N(places, carried.shear_N, at), shares_N(places, carried.pull_N, at)
    arm = joint.contact.width / 2
    turned = carried.moment_Nmm / arm / len(fixings) if carried.moment_Nmm else 0.0
    return tuple(
        FixingForce(fixing=f.id, shear_N=s, pull_N=p + turned) for f, s, p in zip(fixings, shears, pulls, strict=True)
    )


def _worst(forces: tuple[FixingForce, ...], found: dict[str, Bears]) -> tuple[FixingForce | None, float | None]:
    """The fixing with the least margin; where one is not known, that one, without a margin."""
    if not forces:
        return None, None
    times = [(found[f.fixing].times(f.shear_N, f.pull_N), f) for f in forces]
    unknown = [f for t, f in times if t is None]
    if unknown:
        return max(unknown, key=lambda f: abs(f.shear_N) + abs(f.pull_N)), None
    margin, worst = min(((t, f) for t, f in times if t is not None), key=lambda p: p[0])
    return worst, margin


def _asks(of: Bears, worst: FixingForce) -> str:
    words = []
    if abs(worst.shear_N) > 1e-6 and of.shear is None:
        words.append("shear_kn")
    if abs(worst.pull_N) > 1e-6 and of.pull is None:
        words.append("pull_kn")
    return (
        f"Nothing published says what a {of.name} bears here. Write {' and '.join(words)} and the source under "
        f'[tested."{of.name}"], from its maker\'s sheet or a test of your own'
    )
