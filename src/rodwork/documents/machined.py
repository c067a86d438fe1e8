"""What is machined in each board, by its printed settings: the one source of every number on a drawing.

A drawing places a bore where its printed numbers say, never where the model has it, so that the paper and the
settings cannot disagree.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, singledispatch
from math import asin, degrees, sqrt

from rodwork.documents.annotate import capital, figure, listed
from rodwork.model.feature import (
    ArcSlot,
    Bore,
    Channel,
    Cutout,
    Feature,
    Groove,
    Keyhole,
    Pocket,
    Rebate,
    Slot,
    Undercut,
    noun_of,
    through,
)
from rodwork.model.fixing import Joint
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.setup import Reading, Setup, SetupFeature
from rodwork.model.slope import on_the_slope
from rodwork.model.surface import OPPOSITE, Surface, axis_of, level
from rodwork.model.words import cabinet_words

Span = tuple[float, float]
_EQUAL = 0.01  # mm: two figures that print alike


@dataclass(frozen=True, kw_only=True)
class Work:
    """One bore or groove of one board, with the setting it is made at and the two numbers printed for it."""

    part: Part
    feature: Feature
    setup: Setup
    bears: Surface
    along: Reading
    across: Reading
    joint: Joint | None
    family: str | None
    is_counterbore: bool  # a counterbore: it shares its middle with a bore that goes further
    raw_by: float  # mm that the edging adds outside the raw edge its numbers are from; nought after edging

    @cached_property
    def span(self) -> dict[int, Span]:
        """Where it lies on the finished board: by part axis, from and to, as its printed numbers place it."""
        return {axis_of(r.from_surface): self._placed(r) for r in (self.along, self.across)}

    def _placed(self, reading: Reading) -> Span:
        start = level(reading.from_surface, self.part.size)
        sign = -1.0 if start > 0 else 1.0
        outside = self.part.edging.at(reading.from_surface) * self.raw_by
        end = reading.mm if reading.end_mm is None else reading.end_mm
        steep = self.steep if axis_of(reading.from_surface) == 2 else 1.0
        a, b = (start + sign * (outside + mm / steep) for mm in (reading.mm, end))
        return (min(a, b), max(a, b))

    @property
    def steep(self) -> float:
        """How much longer a number runs on the slope of a bevelled end than across the thickness; 1 on a square one."""
        return on_the_slope(self.part, self.bears, 1.0)

    @property
    def middle(self) -> dict[int, float]:
        """The middle of it on each of its two axes, mm in the board."""
        return {axis: (a + b) / 2 for axis, (a, b) in self.span.items()}

    @property
    def bore(self) -> Bore | None:
        """The bore it is, or None."""
        return self.feature if isinstance(self.feature, Bore) else None

    @property
    def groove(self) -> Groove | None:
        """The groove or rebate it is, or None."""
        return self.feature if isinstance(self.feature, Groove) else None

    @property
    def reach(self) -> float:
        """How far below the surface its deepest point lies, the point of the bit included, mm."""
        return _reach(self.feature)

    @property
    def right_through(self) -> bool:
        """Whether it goes through the whole thickness of the board."""
        return through(self.feature)

    def reading_from(self, axis: int) -> Reading | None:
        """The printed number along this axis of the board."""
        return next((r for r in (self.along, self.across) if axis_of(r.from_surface) == axis), None)

    @property
    def line(self) -> float | None:
        """Where the line is that another board stands on, from this board's own datum; None: it has no line.

        Only the board worked on its face has one, and only if it lies on the board.
        """
        at = self.across.line
        if at is None or self.bears not in ("face_side", "back_side"):
            return None
        return at if _EQUAL < at < self.part.size[axis_of(self.across.from_surface)] - _EQUAL else None

    def runs_through(self, reading: Reading) -> bool:
        """Whether a groove goes from one edge of the board to the other, so that no number is needed."""
        if reading.end_mm is None:
            return False
        a, b = self._placed(reading)
        return a <= _EQUAL and b >= self.part.size[axis_of(reading.from_surface)] - _EQUAL

    @property
    def thing(self) -> str:
        """What a maker calls it, in the plural for bores: "dowel bores", "back groove"."""
        if self.groove is not None:
            return self._channel()
        if self.is_counterbore:
            return "counterbores"
        named = {
            "shelf_pin": "shelf-pin bores", "pilot": "pilot bores", "clearance": "clearance bores",
            "hinge": "hinge bores", "handle": "handle bores", "hanging": "bracket bores",
            "clothes_rail": "socket bores",
        }  # fmt: skip
        if self.feature.role == "pilot" and self.joint is None:
            return "runner bores"
        if self.feature.role in named:
            return named[self.feature.role]
        things = f"{noun_of(self.feature)}s"
        return f"{self.family} {things}" if self.family and noun_of(self.feature) not in self.family else things

    def _channel(self) -> str:
        kind = "rebate" if isinstance(self.feature, Rebate) else "groove"
        if self.joint is None or self.joint.contact.place.startswith("back"):
            return f"{'bottom' if self.part.role.startswith('drawer') else 'back'} {kind}"
        if any(f.law == "enter" and f.others for f in self.joint.fixings):
            return f"tongue {kind}"
        return "housing"

    @property
    def size_words(self) -> str:
        """Diameter or width: "8", "6 wide", "4 x 60"; a countersink with it."""
        return _size_words(self.feature)

    @property
    def depth_words(self) -> str:
        """How deep: "12 deep", "right through"."""
        return "right through" if self.right_through else f"{figure(self.feature.depth)} deep"


@singledispatch
def _reach(feature: Feature) -> float:
    """How far below its surface the deepest point of a feature lies, mm."""
    return feature.depth


@_reach.register
def _(bore: Bore) -> float:
    return bore.depth + (0.0 if bore.through else bore.tip)


@_reach.register
def _(pocket: Pocket) -> float:
    slope = abs(pocket.into[2])
    return pocket.depth * slope + pocket.diameter / 2 * sqrt(1 - slope * slope)


@singledispatch
def _size_words(feature: Feature) -> str:
    """The size of a feature as it is written beside its name."""
    raise ValueError(f"{feature.id}: no words yet for a {feature.kind}")


@_size_words.register
def _(bore: Bore) -> str:
    sunk = f", countersunk to {figure(bore.countersink.diameter)}" if bore.countersink else ""
    return f"{figure(bore.diameter)}{sunk}"


@_size_words.register
def _(pocket: Pocket) -> str:
    return f"{figure(pocket.diameter)} at {figure(round(degrees(asin(abs(pocket.into[2]))), 1))} degrees"


@_size_words.register
def _(channel: Channel) -> str:
    return f"{figure(channel.width)} wide"


@_size_words.register
def _(cut: Cutout) -> str:
    rounded = f", corners to {figure(cut.end_radius)}" if cut.end_radius else ""
    return f"{figure(cut.length)} x {figure(cut.width)}{rounded}"


@_size_words.register
def _(slot: Slot) -> str:
    return f"{figure(slot.width)} x {figure(slot.length)}"


@_size_words.register
def _(slot: ArcSlot) -> str:
    return f"{figure(slot.thickness)} x {figure(round(slot.length, 1))}"


@_size_words.register
def _(slot: Undercut) -> str:
    return f"{figure(slot.thickness)} x {figure(round(slot.length, 1))}, {figure(slot.root_width)} at its floor"


@_size_words.register
def _(keyhole: Keyhole) -> str:
    return f"{figure(keyhole.entry_diameter)} and {figure(keyhole.slot_width)} wide"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToLine:
    """An edge that runs askew, and the setting that saws it to a line between two marks."""

    edge: Surface
    setup: Setup

    @property
    def words(self) -> str:
        """Where the line runs: "676.7 at the left edge to 1366.8 at the right edge, both from the bottom end"."""
        return self.setup.first_off.removeprefix("the line runs from ")


class Works:
    """Every machining of a job, found by cabinet and board. Built once: its cost is that of the settings."""

    def __init__(self, rod: Rod) -> None:
        """Read the settings of the job."""
        self.rod = rod
        self._joints = {cabinet.name: _joints_by_feature(cabinet) for cabinet in rod.cabinets}
        self._features = {
            (cabinet.name, part.id): {f.id: f for f in part.features}
            for cabinet in rod.cabinets
            for part in cabinet.parts
        }
        found: dict[tuple[str, str], list[Work]] = defaultdict(list)
        self._again: dict[tuple[str, str], list[str]] = defaultdict(list)
        self._odd: dict[tuple[str, str], list[str]] = defaultdict(list)
        self._to_lines: dict[tuple[str, str], list[ToLine]] = defaultdict(list)
        for setup in rod.setups:
            for row in setup.features:
                if row.feature is not None:
                    found[row.cabinet, row.part].append(self._work(setup, row))
                    continue
                if setup.stage != "before edging":
                    self._again[row.cabinet, row.part].append(setup.id)
                elif not sawn_square(setup):
                    self._odd[row.cabinet, row.part].append(setup.id)
                reading = row.along or row.across
                if reading is not None and reading.end_mm is not None:
                    cut = ToLine(edge=OPPOSITE[reading.from_surface], setup=setup)
                    self._to_lines[row.cabinet, row.part].append(cut)
        self._found = {key: tuple(_with_counterbores(works)) for key, works in found.items()}

    def of(self, cabinet: RodCabinet, part: Part) -> tuple[Work, ...]:
        """Everything set out on this board, in the order of the settings."""
        return self._found.get((cabinet.name, part.id), ())

    def to_lines(self, cabinet: RodCabinet, part: Part) -> tuple["ToLine", ...]:
        """The edges of this board that are sawn askew."""
        return tuple(self._to_lines.get((cabinet.name, part.id), ()))

    def sawn_again(self, cabinet: RodCabinet, part: Part) -> tuple[str, ...]:
        """The settings at which it is sawn to size once its lippings are on."""
        return tuple(self._again.get((cabinet.name, part.id), ()))

    def sawn_askew(self, cabinet: RodCabinet, part: Part) -> tuple[str, ...]:
        """The settings at which it is bevelled or sawn to a line, once it is sawn to size."""
        return tuple(self._odd.get((cabinet.name, part.id), ()))

    def by_feature(self, cabinet: RodCabinet, part_id: str) -> dict[str, Work]:
        """The same, by the id of the bore or groove."""
        return {w.feature.id: w for w in self._found.get((cabinet.name, part_id), ())}

    def feature(self, cabinet: RodCabinet, part_id: str, feature_id: str) -> Feature:
        """A bore or groove by its id, set out or bored in place."""
        return self._features[cabinet.name, part_id][feature_id]

    def _work(self, setup: Setup, row: SetupFeature) -> Work:
        part = self.rod.cabinet[row.cabinet].part[row.part]
        feature = self._features[row.cabinet, row.part][str(row.feature)]
        joint, family = self._joints[row.cabinet].get(feature.id, (None, None))
        if row.bears is None or row.along is None or row.across is None:
            raise ValueError(f"setting {setup.id} gives no two numbers for {feature.id}")
        edging = self.rod.edgings.get(part.edging_name or "")
        raw = 0.0
        if feature.stage == "before edging" and edging is not None and edging.adds:
            raw = (edging.adds - edging.mills) / edging.adds
        return Work(
            part=part, feature=feature, setup=setup, bears=row.bears, along=row.along, across=row.across,
            joint=joint, family=family, is_counterbore=False, raw_by=raw,
        )  # fmt: skip


def _joints_by_feature(cabinet: RodCabinet) -> dict[str, tuple[Joint | None, str | None]]:
    found: dict[str, tuple[Joint | None, str | None]] = {}
    for joint in cabinet.joints:
        for fixing in joint.fixings:
            for half in (*fixing.halves, *fixing.others):
                if half.feature is not None:
                    found[half.feature] = (joint, fixing.family)
    return found


def _with_counterbores(works: Sequence[Work]) -> Iterable[Work]:
    """The works, those marked that share their middle with a narrower bore through the same surface."""
    narrowest: dict[object, float] = {}
    for w in works:
        if w.bore:
            key = _middle_key(w)
            narrowest[key] = min(narrowest.get(key, w.bore.diameter), w.bore.diameter)
    for w in works:
        if w.bore and w.bore.diameter > narrowest[_middle_key(w)] + _EQUAL:
            w = replace(w, is_counterbore=True)
        yield w


def _middle_key(w: Work) -> object:
    return (w.bears, tuple(sorted((axis, round(mid, 2)) for axis, mid in w.middle.items())))


def sawn_square(setup: Setup) -> bool:
    """Whether a setting of the saw is a plain cut against the fence: no bevel, no line between two marks."""
    return not setup.tilt and setup.fence is not None


def words_of(part: Part) -> dict[Surface, str]:
    """The cabinet word of each surface of a board."""
    return cabinet_words(part.role, part.pose.rotation)


def settings_words(works: Iterable[Work]) -> str:
    """The settings these are made at: "settings S9 and S13"."""
    ids = list(dict.fromkeys(w.setup.id for w in works))
    return f"setting{'s' if len(ids) > 1 else ''} {listed(ids)}"


def from_words(reading: Reading) -> str:
    """Where a number is taken from: "from the FRONT edge"."""
    return f"from the {capital(reading.word)}"


def cabinet_marks(part: Part) -> tuple[str, ...]:
    """The marks of the cabinets that a board is of, copy by copy: "G1" and "G2"."""
    return tuple(mark.partition("-")[0] for mark in part.marks)


def marks_words(marks: Sequence[str], most: int = 3) -> str:
    """Marks as a line of text: "G1-LS and G2-LS"; a long row of copies as "G1-LS to G8-LS"."""
    if len(marks) <= most:
        return listed(list(marks))
    return (
        f"{marks[0]} to {marks[-1]}" if _in_a_row(marks) else f"{', '.join(marks[:most])} and {len(marks) - most} more"
    )


def runs_words(ids: Sequence[str]) -> str:
    """All of them, three and more that count up by one as a run: "S11 to S13, S24 and S26"."""
    runs: list[list[str]] = []
    for name in ids:
        if runs and _in_a_row([*runs[-1], name]):
            runs[-1].append(name)
        else:
            runs.append([name])
    return listed([text for run in runs for text in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else run)])


def _in_a_row(marks: Sequence[str]) -> bool:
    """Whether the marks differ only in one number that counts up by one."""
    pieces = [re.split(r"(\d+)", mark) for mark in marks]
    if len({len(p) for p in pieces}) != 1:
        return False
    moving = [n for n in range(len(pieces[0])) if len({p[n] for p in pieces}) > 1]
    if len(moving) != 1 or not pieces[0][moving[0]].isdigit():
        return False
    numbers = [int(p[moving[0]]) for p in pieces]
    return numbers == list(range(numbers[0], numbers[0] + len(numbers)))
