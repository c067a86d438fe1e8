"""What the settings list says, sorted by cabinet and board, and the void that its numbers make."""

from collections.abc import Iterator
from typing import NamedTuple

from rodwork.model.feature import Feature, Groove, Keyhole
from rodwork.model.setup import Setup, SetupFeature
from rodwork.setout.proving.stand import LIES, Point, Stand, along_axis


class Entry(NamedTuple):
    """One line of the settings list: the setting, and the board done at it."""

    setup: Setup
    done: SetupFeature


class Settings:
    """What the settings list says about one cabinet: by feature id, and by the board that is sawn."""

    __slots__ = ("machined", "sawn")

    def __init__(self) -> None:
        self.machined: dict[str, list[Entry]] = {}
        self.sawn: dict[str, list[Entry]] = {}


_last: list[tuple[tuple[Setup, ...], dict[str, Settings]]] = []


def by_cabinet(setups: tuple[Setup, ...]) -> dict[str, Settings]:
    """The settings list by cabinet; the last one is remembered, since every cabinet of a job asks for it."""
    if _last and _last[0][0] is setups:
        return _last[0][1]
    by_name: dict[str, Settings] = {}
    for setup in setups:
        for done in setup.features:
            settings = by_name.get(done.cabinet)
            if settings is None:
                settings = by_name[done.cabinet] = Settings()
            key, table = (done.part, settings.sawn) if done.feature is None else (done.feature, settings.machined)
            table.setdefault(key, []).append(Entry(setup, done))
    _last[:] = [(setups, by_name)]
    return by_name


class Void:
    """A bore or groove as the settings have it: its walls on the board, and which way it goes in."""

    __slots__ = ("at", "axis", "bears", "entry", "feature", "high", "into", "low", "stand")

    def __init__(self, stand: Stand, feature: Feature, entry: Entry, bears: str, low: Point, high: Point) -> None:
        self.stand = stand
        self.feature = feature
        self.entry = entry
        self.bears = bears
        self.low = low
        self.high = high
        self.at: Point = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)
        self.axis, far = LIES[bears]
        c = stand.looks(bears) if bears in stand.slope else stand.columns[self.axis]
        self.into: Point = (-c[0], -c[1], -c[2]) if far or bears in stand.slope else c

    def mouth(self) -> Point:
        """The middle of the mouth, in the cabinet."""
        return self.stand.in_cabinet(self.at)

    def openings(self) -> tuple[Point, Point]:
        """Where a bore right through its board comes in and comes out, in the cabinet.

        Over a housing it comes out at the bottom of that: no depth is set for it, so the part's own is taken.
        """
        deep = self.feature.depth
        (x, y, z), (a, b, c) = self.mouth(), self.into
        return (x, y, z), (x + a * deep, y + b * deep, z + c * deep)


def read(stand: Stand, feature: Feature, entry: Entry) -> Void | None:
    """The void that a maker gets who sets the printed numbers; None where they do not fix one."""
    done, raw = entry.done, entry.setup.stage == "before edging"
    if done.bears not in LIES:
        return None
    if isinstance(feature, Keyhole):
        return _keyhole(stand, feature, entry, raw)
    if done.bears in stand.slope:
        return _on_slope(stand, feature, entry, raw)
    walls: list[tuple[float, float] | None] = [None, None, None]
    mouth = stand.coordinate(done.bears, 0.0, raw)
    walls[LIES[done.bears][0]] = (mouth, mouth)
    for reading in (done.along, done.across):
        if reading is None or reading.from_surface not in LIES:
            continue
        axis = LIES[reading.from_surface][0]
        if walls[axis] is not None:
            return None
        a = stand.coordinate(reading.from_surface, reading.mm, raw)
        b = a if reading.end_mm is None else stand.coordinate(reading.from_surface, reading.end_mm, raw)
        walls[axis] = (a, b) if a <= b else (b, a)
    if done.along is None and isinstance(feature, Groove) and feature.both_ends == ("open", "open"):
        run = along_axis(feature.along)
        if run is not None and walls[run.axis] is None:
            walls[run.axis] = (0.0, stand.size[run.axis])
    x, y, z = walls
    if x is None or y is None or z is None:
        return None
    return Void(stand, feature, entry, done.bears, (x[0], y[0], z[0]), (x[1], y[1], z[1]))


def _on_slope(stand: Stand, feature: Feature, entry: Entry, raw: bool) -> Void | None:
    """In a bevelled end one number runs along the end, the other along the slope from the arris of a face."""
    done = entry.done
    bears, point, run = done.bears or "", None, None
    for reading in (done.along, done.across):
        if reading is None or reading.from_surface not in LIES or reading.end_mm is not None:
            return None
        if LIES[reading.from_surface][0] == 2:
            point = stand.on_slope(bears, reading.from_surface, reading.mm)
        else:
            run = LIES[reading.from_surface][0], stand.coordinate(reading.from_surface, reading.mm, raw)
    if point is None or run is None or run[0] == LIES[bears][0]:
        return None
    at = list(point)
    at[run[0]] = run[1]
    return Void(stand, feature, entry, bears, (at[0], at[1], at[2]), (at[0], at[1], at[2]))


def _keyhole(stand: Stand, feature: Keyhole, entry: Entry, raw: bool) -> Void | None:
    """A keyhole stands where its second number, the screw's home, puts it; the first is its entry bore's."""
    done, at = entry.done, list[float | None]((None, None, None))
    at[LIES[done.bears or ""][0]] = stand.coordinate(done.bears or "", 0.0, raw)
    for reading in (done.along, done.across):
        if reading is None or reading.from_surface not in LIES:
            return None
        home = reading.mm if reading.end_mm is None else reading.end_mm
        at[LIES[reading.from_surface][0]] = stand.coordinate(reading.from_surface, home, raw)
    x, y, z = at
    if x is None or y is None or z is None:
        return None
    return Void(stand, feature, entry, done.bears or "", (x, y, z), (x, y, z))


def read_all(stands: dict[str, Stand], settings: Settings) -> Iterator[tuple[str, Void]]:
    """Every void that the settings make in its own board, as it would come out."""
    for stand in stands.values():
        for feature in stand.part.features:
            entries = settings.machined.get(feature.id)
            if entries and entries[0].done.part == stand.part.id:
                void = read(stand, feature, entries[0])
                if void is not None:
                    yield feature.id, void
