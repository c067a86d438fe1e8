"""Things to do, each tried on the same assemblies, ranked by what it gains and by minutes."""

from dataclasses import dataclass, replace

import numpy as np

from rodwork.fit.arrays import Array
from rodwork.fit.forecast import Asked, Few, Forecast, eased_between
from rodwork.fit.kernel import NOTHING
from rodwork.fit.solve import goes_together, poses
from rodwork.model.dry_fit import Remedy, word_of

BETWEEN_MM = 0.3
MOST = 3
# minutes are guesses of the order of the work; common practice, no source
MINUTES = {"size": 5.0, "square": 10.0, "bevel": 10.0, "across": 10.0, "stop": 10.0, "marks": 15.0, "depth": 5.0}
TEACHES = {
    ("size", "shared"): "saw all that must agree at one setting, and check the first off",
    ("size", "each"): "saw the boards of a pair together, one on the other",
    ("square", "shared"): "true the stop of the saw to the blade by the five-cut test",
    ("square", "each"): "hold every board hard against the stop, and brush the dust away",
    ("bevel", "shared"): "prove the blade on two offcuts held to a square, and set it by that",
    ("bevel", "each"): "hold every board flat on the saw",
    ("across", "shared"): "bore a test corner and set the fence by it",
    ("across", "each"): "clamp the jig at every hole, and use a sharp bit in a good bush",
    ("stop", "shared"): "set the stops by a test corner",
    ("stop", "each"): "bore from pins in the holes already bored, not from the stop alone",
    ("marks", "each"): "mark both boards together with a knife, not one after the other",
    ("marks", "shared"): "mark from one rod",
    ("depth", "shared"): "set the depth on an offcut",
    ("depth", "each"): "use a stop collar",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What came of a try: the chance, and the lip that the worst place passes 5 times in 100."""

    chance: float
    lip_mm: float


def tried(asked: Asked, z: Array, near: Few | None = None) -> Tried:
    """Judge and assemble; `near`: the same assemblies under other errors or with other play."""
    goes = goes_together(asked.signed, z, asked.ease_mm, near.judged if near else NOTHING)
    lips = [at for name, at in asked.model.output_at.items() if name.startswith("lip|")]
    lip = (
        np.abs(poses(asked.assembled, z, near.posed if near else NOTHING).outputs[:, lips])
        if lips
        else np.zeros((1, 1))
    )
    return Tried(
        chance=float(goes.mean()), lip_mm=float(np.quantile(lip, 0.95, axis=0).max()),
    )  # fmt: skip


def remedies(asked: Asked, found: Forecast, few: Few, feel_mm: float) -> tuple[Remedy, ...]:
    """At most three things to do, what gains most first; none where nothing would be seen of it.

    Each is tried on a few of the assemblies, against the same few as they are; what it gains there is put upon the
    chance of all of them, which is what is printed.
    """
    now = tried(asked, few.z, few)
    chance = found.chance(asked.ease_mm)
    candidates = [
        (TEACHES[p[1], p[2]], p[0], MINUTES[p[1]], tried(asked, few.z * _halved(asked, p), few))
        for p in _largest(asked, found)
    ]
    if asked.model.row_between.any():
        easier = f"let the first and the last of each row find the place, and ease those between by {BETWEEN_MM:g}"
        candidates.append((easier, "", 5.0, tried(eased_between(asked, BETWEEN_MM), few.z, few)))
    whole = replace(now, chance=chance)
    out = []
    for do, tool, minutes, few_then in candidates:
        then = replace(few_then, chance=min(max(chance + few_then.chance - now.chance, 0.0), 1.0))
        if gains := _gains(whole, then, feel_mm):
            what = f"{do} ({tool})" if tool else do
            out.append(Remedy(do=what, gains=gains, minutes=minutes, chance=then.chance, lip_mm=then.lip_mm))
    return tuple(sorted(out, key=lambda r: (-round(r.chance, 2), r.lip_mm, r.minutes))[:MOST])


def _largest(asked: Asked, found: Forecast) -> list[tuple[str, str, str]]:
    """What costs the fit most, and what moves the worst lip most, by parameter."""
    shares: dict[tuple[str, str, str], float] = {}
    lips: dict[tuple[str, str, str], float] = {}
    at = [i for name, i in asked.model.output_at.items() if name.startswith("lip|")]
    ready = asked.assembled
    moves = ready.model.out_q[at] @ ready.to_pose + ready.model.out_z[at]
    worst = moves[int(np.argmax((moves**2).sum(axis=1)))] ** 2 if at else np.zeros(len(asked.model.sources))
    for source, share, moved in zip(asked.model.sources, found.by_source, worst, strict=True):
        p = source.parameter
        shares[p], lips[p] = shares.get(p, 0.0) + float(share), lips.get(p, 0.0) + float(moved)
    by_fit, by_lip = (sorted(d, key=lambda p, d=d: -d[p])[:3] for d in (shares, lips))  # type: ignore[misc]
    return [p for p in dict.fromkeys((*by_fit, *by_lip)) if (p[1], p[2]) in TEACHES]


def _halved(asked: Asked, parameter: tuple[str, str, str]) -> Array:
    return np.array([0.5 if s.parameter == parameter else 1.0 for s in asked.model.sources])


def _gains(now: Tried, then: Tried, feel_mm: float) -> str:
    """In words: the chance first, then the lip, where what is printed of either gets better; nothing where neither."""
    said = []
    more = round(100 * then.chance) - round(100 * now.chance)
    if more > 0:
        was, will = word_of(now.chance), word_of(then.chance)
        said.append(f'"{was}" becomes "{will}"' if was != will else f"{more:d} more in 100 go together")
    if round(then.lip_mm, 1) < round(now.lip_mm, 1):
        felt = ", which no finger finds" if then.lip_mm < feel_mm <= now.lip_mm else ""
        said.append(f"the worst lip falls from {now.lip_mm:.1f} to {then.lip_mm:.1f}{felt}")
    return "; ".join(said)
