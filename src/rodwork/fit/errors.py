"""What may be off on a board: its surfaces, and where its machining lies, as linear forms over named sources.

A surface is off outwards by half of what the size is off; an end also by its squareness and bevel. Machining set off a
surface follows that surface at that place, and adds the error of the setting (one fence is one error, however many
boards share it; one stop is one error) and its own scatter. Forms are {key: mm of error per mm (or mrad) of source}.

A bevelled end is measured over its long point, and there a stop touches it; its slope goes through that arris, and is
off by the angle times the way from it. What is set out along a slope follows the arris of slope and face.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import cos, radians, sin
from typing import Literal

from rodwork.fit.linear import Source
from rodwork.geometry.vec import Vec, dot
from rodwork.model.accuracy import Accuracy, ErrorKind, Method
from rodwork.model.panel import Part
from rodwork.model.rod import Rod
from rodwork.model.setup import Reading, Setup, SetupFeature
from rodwork.model.slope import bevel_at, from_arris, outward_of, reckoned_outwards
from rodwork.model.surface import Surface, axis_of, level, outward

PER_MRAD = 1e-3
MEASURED_PRIOR_MM = 5.0  # a board that was measured: its own size is believed, not the habit of the saw
BATTEN = "batten on the line"
HAND, EDGING = "held by hand", "edging"
Off = dict[str, float]
Which = Literal["shared", "each"]

SAID: Mapping[ErrorKind, tuple[str, str]] = {
    "size": ("the setting of {}", "{}, board by board"),
    "square": ("how square the stop of {} stands", "{}, how square each end comes"),
    "bevel": ("how upright the blade stands, {}", "{}, how upright each end comes"),
    "across": ("the setting of the fence, {}", "{}, hole by hole off the fence"),
    "stop": ("the setting of the stops, {}", "{}, hole by hole along the stops"),
    "marks": ("marking, {}", "{}, mark by mark"),
    "depth": ("the setting of the depth, {}", "{}, depth by depth"),
}
TILTED = ("how true the tilt of the blade is, {}", "{}, how true the tilt of each end comes")


@dataclass(slots=True)
class Errors:
    """The errors of one cabinet; keys are without its name, so that two that are equal have the same errors drawn.

    `sources` fills as forms are asked for.
    """

    rod: Rod
    cabinet: str
    accuracy: Accuracy
    measured: frozenset[tuple[str, str]] = frozenset()  # (part, "length" | "width" | "thickness")
    sources: dict[str, Source] = field(default_factory=dict)
    _at: dict[tuple[str, str], tuple[Setup, SetupFeature]] = field(default_factory=dict)
    _saws: dict[tuple[str, str], Setup] = field(default_factory=dict)
    _methods: dict[str, Method] = field(default_factory=dict)
    _fences: dict[str, str] = field(default_factory=dict)
    _known: dict[tuple[str, str], Off] = field(default_factory=dict)  # by (part, dimension or surface): never changed

    def __post_init__(self) -> None:
        for setup in self.rod.setups:
            if setup.fence is not None and setup.fence.id not in self._fences:
                said = _said_of(setup, setup.fence.mm)
                again = sum(said == other.split("#")[0] for other in self._fences.values())
                self._fences[setup.fence.id] = f"{said}#{again + 1}" if again else said
            for entry in setup.features:
                if entry.cabinet != self.cabinet:
                    continue
                if entry.feature is not None:
                    self._at[entry.part, entry.feature] = (setup, entry)
                else:
                    self._saws[entry.part, "length" if entry.along is not None else "width"] = setup

    def part(self, part: str) -> Part:
        """A board of the cabinet."""
        return self.rod.cabinet[self.cabinet].part[part]

    def is_set_up(self, part: str, feature: str | None) -> bool:
        """Whether machining is done at a setting; what is bored in place is not."""
        return feature is not None and (part, feature) in self._at

    def size(self, part: str, dimension: str) -> Off:
        """By how much a finished size is off: "length", "width" or "thickness"."""
        if dimension == "thickness":
            return self._thickness(part)
        ends: tuple[Surface, Surface] = (
            ("left_end", "right_end") if dimension == "length" else ("face_edge", "far_edge")
        )
        out = dict(self._sawn(part, dimension))
        for surface in ends:
            _merge(out, self._edged(part, surface))
        return out

    def surface(self, part: str, surface: Surface, at: Vec) -> Off:
        """How far a surface stands outside where it belongs, square to it, at a point of the part frame."""
        if axis_of(surface) == 2:
            return _times(self._thickness(part), 0.5)
        board = self.part(part)
        bevel = bevel_at(board, surface)
        out = self._point(part, surface, at)
        if not bevel:
            if axis_of(surface) == 0:
                _merge(out, self._lean(part, surface, bevel), (at[2] - board.size[2] / 2) * PER_MRAD)
            return out
        upright = cos(radians(bevel))
        deep = at[2] if bevel > 0 else board.size[2] - at[2]
        out = _times(out, upright)
        _merge(out, self._thickness(part), -0.5 * sin(radians(abs(bevel))))  # the slope goes through the long arris
        _merge(out, self._lean(part, surface, bevel), -deep / upright * PER_MRAD)
        return out

    def datum(self, part: str, worked: Surface, surface: Surface, at: Vec) -> Off:
        """How far off the place lies that numbers are taken from, outwards as slope.py's `reckoned_outwards` says.

        `worked`: the surface that is worked on. On a slope numbers run along it from its arris with a face; what is
        taken from a bevelled end elsewhere is taken from its long point.
        """
        board = self.part(part)
        if axis_of(surface) == 2 and bevel_at(board, worked):
            return self._arris(part, worked, surface, at)
        return self._point(part, surface, at) if bevel_at(board, surface) else self.surface(part, surface, at)

    def _arris(self, part: str, end: Surface, face: Surface, at: Vec) -> Off:
        """How far the arris of an end and a face lies out along the end: it lies in both surfaces, wherever they are.

        With unit normals n of the end and m of the face, v along the end away from the face, and the arris off by a:
        n . a and m . a are what the surfaces are off, so that m . a = (n . a)(n . m) + (v . a)(v . m).
        """
        board = self.part(part)
        out_of_end, out_of_face = outward_of(board, end), outward(face)
        away = -dot(out_of_face, from_arris(board, end, face))
        out = _times(self.surface(part, face, at), 1.0 / away)
        on_arris = (at[0], at[1], level(face, board.size))
        _merge(out, self.surface(part, end, on_arris), -dot(out_of_end, out_of_face) / away)
        return out

    def machining(self, part: str, feature: str, at: Vec, way: Vec, own: str = "") -> Off:
        """How far machining lies off along a direction of the part frame, at a point of the part frame.

        `own` tells two places of one channel apart.
        """
        setup, entry = self._at[part, feature]
        kind: ErrorKind = "marks" if setup.stop == "marks" else "stop"
        out: Off = {}
        readings: tuple[tuple[Reading | None, ErrorKind], ...] = (
            (entry.across, "across"),
            (entry.along if setup.stop != () else None, kind),
        )
        for reading, of in readings:
            if reading is None:
                continue
            bears = entry.bears or reading.from_surface
            along_way = dot(reckoned_outwards(self.part(part), bears, reading.from_surface), way)
            if along_way:  # most readings lie square to the way that is asked
                _merge(out, self._reading(setup, entry, reading, at, of, own), along_way)
        return out

    def depth(self, part: str, feature: str) -> Off:
        """By how much machining is too deep."""
        setup, _ = self._at[part, feature]
        return {
            **self._shared(setup.tool, "depth", f"{setup.tool}|{setup.cutter}|{setup.depth}"),
            **self._each(setup.tool, "depth", f"{part}|{feature}"),
        }

    def by_hand(self, joint: str, place: str) -> Off:
        """How far off flush a board is held while it is fixed in place."""
        return self._each(HAND, "marks", f"{joint}|{place}")

    def _reading(self, setup: Setup, entry: SetupFeature, reading: Reading, at: Vec, kind: ErrorKind, own: str) -> Off:
        """Off against the way that the number runs."""
        part, worked = entry.part, entry.bears or reading.from_surface
        out = self.datum(part, worked, reading.from_surface, at)
        if kind == "across":
            if setup.stands_on == BATTEN:
                _merge(out, self._line(part, reading, at), -1.0)
            if setup.fence is not None:
                _merge(out, self._shared(setup.tool, kind, self._fence(setup)), -1.0)
        elif kind == "stop":
            _merge(out, self._shared(setup.tool, kind, f"{setup.tool}|{reading.word}|{reading.mm:g}"), -1.0)
        _merge(out, self._each(setup.tool, kind, f"{part}|{entry.feature}|{own}"), -1.0)
        return out

    def _line(self, part: str, reading: Reading, at: Vec) -> Off:
        """A line is marked at both edges of the board, and the batten lies between the two marks."""
        width = self.part(part).size[1] if axis_of(reading.from_surface) == 0 else self.part(part).size[0]
        share = min(max(at[1 if axis_of(reading.from_surface) == 0 else 0] / width, 0.0), 1.0)
        out: Off = {}
        for edge, weight in (("near", 1.0 - share), ("far", share)):
            key = f"{part}|line {reading.from_surface} {reading.line:g}|{edge}"
            _merge(out, self._each(BATTEN, "marks", key), weight)
        return out

    def _fence(self, setup: Setup) -> str:
        """The fence by what it is set to, not by its number, which an edit elsewhere may shift."""
        assert setup.fence is not None
        return self._fences[setup.fence.id]

    def _sawn(self, part: str, dimension: str) -> Off:
        found = self._known.get((part, dimension))
        if found is None:
            found = self._known[part, dimension] = self._sawn_anew(part, dimension)
        return found

    def _sawn_anew(self, part: str, dimension: str) -> Off:
        setup = self._saws.get((part, dimension))
        if setup is None or setup.fence is None:
            return {}
        out = self._shared(setup.tool, "size", self._fence(setup))
        prior = MEASURED_PRIOR_MM if (part, dimension) in self.measured else None
        return {**out, **self._each(setup.tool, "size", f"{part}|{dimension}", prior)}

    def _point(self, part: str, surface: Surface, at: Vec) -> Off:
        """An edge or end as a stop finds it, out along its axis: its size, edging, and squareness, which turns both
        ends the same way."""
        axis = axis_of(surface)
        out = _times(self._sawn(part, ("length", "width")[axis]), 0.5)
        _merge(out, self._edged(part, surface))
        setup = self._saws.get((part, "length"))
        if axis == 0 and setup is not None and setup.fence is not None:
            y = (at[1] - self.part(part).size[1] / 2) * PER_MRAD
            turn = y if surface == "right_end" else -y
            _merge(out, self._shared(setup.tool, "square", self._fence(setup)), turn)
            _merge(out, self._each(setup.tool, "square", f"{part}|{surface}"), turn)
        return out

    def _lean(self, part: str, surface: Surface, bevel: float) -> Off:
        """The angle of a blade, upright or tilted so far: it leans every end sawn at that tilt alike."""
        setup = self._saws.get((part, ("length", "width")[axis_of(surface)]))
        if setup is None or setup.fence is None:
            return {}
        of, said = (setup.tool, None) if not bevel else (f"{setup.tool}|tilt {abs(bevel):g}", TILTED)
        return {
            **self._source(setup.tool, "bevel", "shared", of, said=said),
            **self._source(setup.tool, "bevel", "each", f"{part}|{surface}", said=said),
        }

    def _thickness(self, part: str) -> Off:
        found = self._known.get((part, "thickness"))
        if found is None:
            found = self._known[part, "thickness"] = self._thickness_anew(part)
        return found

    def _thickness_anew(self, part: str) -> Off:
        board = self.part(part).board
        stock = self.rod.boards.get(board)
        as_sold = stock is None or stock.actual == stock.thickness
        method = "sheet as sold" if as_sold else "sheet as measured"
        prior = MEASURED_PRIOR_MM if (part, "thickness") in self.measured else None
        return {
            **self._shared(method, "size", board),
            **self._each(method, "size", f"{part}|thickness", prior),
        }

    def _edged(self, part: str, surface: Surface) -> Off:
        board = self.part(part)
        stock = self.rod.edgings.get(board.edging_name or "")
        if not board.edging.at(surface) or (stock is not None and stock.comes_off):
            return {}  # what is sawn to size with its lippings on is off by the saw alone
        return {
            **self._shared(EDGING, "size", str(board.edging_name)),
            **self._each(EDGING, "size", f"{part}|{surface}"),
        }

    def _shared(self, tool: str, kind: ErrorKind, of: str) -> Off:
        return self._source(tool, kind, "shared", of)

    def _each(self, tool: str, kind: ErrorKind, of: str, prior_mm: float | None = None) -> Off:
        return self._source(tool, kind, "each", of, prior_mm)

    def _source(
        self, tool: str, kind: ErrorKind, which: Which, of: str, prior_mm: float | None = None,
        said: tuple[str, str] | None = None,
    ) -> Off:  # fmt: skip
        key = f"{which} {kind}|{of}"
        source = self.sources.get(key)
        if source is None:
            method = self._method(tool)
            spread = method.error(kind)
            sigma = spread.shared if which == "shared" else spread.each
            source = self.sources[key] = Source(
                key=key, sigma=sigma.value if prior_mm is None else prior_mm, parameter=(method.name, kind, which),
                words=(said or SAID[kind])[0 if which == "shared" else 1].format(method.name),
            )  # fmt: skip
        return {key: 1.0} if source.sigma > 0 else {}

    def _method(self, tool: str) -> Method:
        if tool not in self._methods:
            self._methods[tool] = self.accuracy.method(tool)
        return self._methods[tool]


def _said_of(setup: Setup, fence_mm: float) -> str:
    """A fence in words; a saw's also by the surface that is held against it."""
    word = setup.registers_on if any(e.feature is None for e in setup.features) else ""
    return f"{setup.stage}|{setup.tool}|{setup.cutter}|{fence_mm:g}|{word}"


def _times(form: Off, k: float) -> Off:
    return {key: value * k for key, value in form.items()}


def _merge(into: Off, form: Off, k: float = 1.0) -> None:
    if k:
        for key, value in form.items():
            into[key] = into.get(key, 0.0) + k * value
