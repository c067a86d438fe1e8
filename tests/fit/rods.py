"""Rods for the tests of the fit, and how to change one as a maker would: other registers, other play."""

from dataclasses import replace

import numpy as np

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.fit.carcass import model_of
from rodwork.fit.linear import LinearModel
from rodwork.fit.solve import AS_DRILLED, ASSEMBLED, SIGNED, factored, poses, verdict
from rodwork.model.accuracy import Accuracy, Sigma, Spread
from rodwork.model.fixing import Play
from rodwork.model.rod import Rod
from rodwork.model.setup import Fence, Reading, Setup, SetupFeature
from rodwork.model.surface import OPPOSITE, axis_of
from tests.building import cabinet, job, rod_of

ACCURACY = assumed_accuracy()


def scaled(budget: float) -> Accuracy:
    """A shop of which every error is so many times as large."""

    def sigma(of: Sigma) -> Sigma:
        return replace(of, value=of.value * budget, low=of.low * budget, high=of.high * budget)

    return replace(
        ACCURACY,
        methods=tuple(
            replace(m, errors={k: Spread(shared=sigma(s.shared), each=sigma(s.each)) for k, s in m.errors.items()})
            for m in ACCURACY.methods
        ),
    )


def box(**changes) -> Rod:
    """Two sides, top and bottom; no back, no shelf, no edging, unless asked."""
    values = {"back": None, "openings": ("rest",), "loose_shelves": (0,), "edging": None, **changes}
    return rod_of(job(cabinet(**values)))


def with_play(rod: Rod, along: float, across: float, shape: str = "round") -> Rod:
    play = Play(along=along, across=across, shape=shape)
    return replace(
        rod,
        cabinets=tuple(
            replace(
                c, joints=tuple(replace(j, fixings=tuple(replace(f, play=play) for f in j.fixings)) for j in c.joints)
            )
            for c in rod.cabinets
        ),
    )


def changed(rod: Rod, wanted, change) -> Rod:
    """Every machined feature of which wanted(setup, entry) is true goes to a set-up of its own, changed by `change`."""
    setups: list[Setup] = []
    for setup in rod.setups:
        chosen = tuple(e for e in setup.features if e.feature is not None and wanted(setup, e))
        rest = tuple(e for e in setup.features if e not in chosen)
        if rest:
            setups.append(replace(setup, features=rest))
        if chosen:
            setups.append(change(replace(setup, id=f"{setup.id}x", features=chosen)))
    return replace(rod, setups=tuple(setups))


def from_the_other_side(rod: Rod, parts: set[str], axis: int, joints: str = "") -> Rod:
    """Machining of these parts set out from the opposite surface on one axis of the part."""

    def turned(reading: Reading | None, entry: SetupFeature) -> Reading | None:
        if reading is None or axis_of(reading.from_surface) != axis:
            return reading
        size = rod.cabinets[0].part[entry.part].size[axis]
        return replace(
            reading,
            from_surface=OPPOSITE[reading.from_surface],
            word="other",
            mm=round(size - reading.mm, 6),
            line=None,
        )

    def change(setup: Setup) -> Setup:
        entries = tuple(replace(e, along=turned(e.along, e), across=turned(e.across, e)) for e in setup.features)
        fence = setup.fence
        if fence is not None and entries[0].across is not None and entries[0].across != setup.features[0].across:
            fence = Fence(id=f"{fence.id}x{parts}", mm=entries[0].across.mm)
        return replace(setup, features=entries, fence=fence)

    return changed(rod, lambda s, e: e.part in parts and joints in str(e.feature), change)


def own_fence(rod: Rod, parts: set[str]) -> Rod:
    """Machining of these parts at a fence setting of their own, of the same figure."""
    return changed(
        rod, lambda s, e: e.part in parts and s.fence is not None,
        lambda s: replace(s, fence=Fence(id=f"{s.fence.id}own", mm=s.fence.mm)),
    )  # fmt: skip


def model(rod: Rod, accuracy=ACCURACY, **kw) -> LinearModel:
    return model_of(rod, rod.cabinets[0].name, accuracy, **kw)


def found(rod: Rod, errors: dict[str, float], weights=ASSEMBLED) -> dict[str, float]:
    """Outputs by name, and the give, where the errors of these keys are as said and all others nought."""
    m = model(rod)
    z = m.z_of({key: errors[key] for key in errors if key in m.source_at})
    missing = [key for key in errors if key not in m.source_at]
    assert not missing, (missing, sorted(m.source_at))
    out = dict(zip(m.outputs, poses(factored(m, weights), z).outputs[0], strict=True))
    out["give"] = float(verdict(factored(m, SIGNED), z).give_mm[0])
    return out


def drilled(rod: Rod, errors: dict[str, float]) -> dict[str, float]:
    return found(rod, errors, AS_DRILLED)


def lips(out: dict[str, float], *, fronts: bool = False) -> np.ndarray:
    """Every lip of outer faces, or of front edges."""
    return np.array([v for k, v in out.items() if k.startswith("lip|") and k.endswith("front") == fronts])


def length(part: str) -> str:
    return f"each size|{part}|length"


def width(part: str) -> str:
    return f"each size|{part}|width"
