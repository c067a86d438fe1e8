"""Is the set-out true? Every board is put together again from the printed numbers alone.

The rules that keep this honest:

1. It shares no code with the derivation: `proving/` has its own surfaces, words and arithmetic, so that a slip
   made over there is not made again over here. It imports nothing else of this project but the shapes of data.
2. It believes the settings list, which is what a maker sets the machine to, and asks whether the parts, the
   joints and the cabinet agree with it.
3. It names the cause, once. A board on the wrong hand is named, and its bores are passed over; a bore set from
   a wrong surface is not also called a gap.

It cannot prove that a point is the wanted one (the checks do), nor that a tool can bear there.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from rodwork.model.feature import Feature
from rodwork.model.rod import Proof, Rod, RodCabinet
from rodwork.model.setup import Setup
from rodwork.setout.proving import boards, clothes_rails, copies, hung, machining, pairs
from rodwork.setout.proving.gaps import gap_of, rows
from rodwork.setout.proving.lippings import lippings
from rodwork.setout.proving.meetings import Met, meetings
from rodwork.setout.proving.printed import Entry, Settings, Void, by_cabinet, read_all
from rodwork.setout.proving.stand import Stand
from rodwork.setout.proving.trouble import DUST, Cause, Trouble, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofFault:
    """One thing in which the printed numbers and the cabinet disagree.

    `part`, `joint` and `feature` are ids ("" where there is none). `message` is the whole sentence: cabinet,
    board and marks, bore or groove, setting, the cause, and what was expected and found.
    """

    cabinet: str
    part: str
    marks: tuple[str, ...]
    joint: str
    feature: str
    cause: Cause
    message: str
    expected: str
    found: str


def prove(rod: Rod) -> tuple[ProofFault, ...]:
    """Everything in which the settings list, the parts and the cabinets disagree; nothing when all is true."""
    settings = by_cabinet(rod.setups)
    faults = [_fault(name, trouble) for name, trouble in machining.shared(rod.setups)]
    faults += [_fault(c.name, t, stand=Stand(c.part[part], c)) for c, part, t in boards.marked(rod)]
    names = {c.name for c in rod.cabinets}
    for name in settings:
        if name not in names:
            faults.append(_fault(name, Trouble("wrong board", "the settings work on a cabinet that the job has not")))
    for cabinet in rod.cabinets:
        faults += _Trial(rod, cabinet, settings.get(cabinet.name) or Settings()).faults()
    return tuple(faults)


def proof_of(cabinet: RodCabinet, setups: tuple[Setup, ...]) -> Proof:
    """What a cabinet comes to when it is put together from the printed numbers, mm.

    The largest gap between two halves (the rounding of a line is in it; of a board in its groove, how far it
    fouls), and the largest spread inside a row.
    """
    settings = by_cabinet(setups).get(cabinet.name) or Settings()
    stands = {p.id: Stand(p, cabinet) for p in cabinet.parts}
    voids = dict(read_all(stands, settings))
    return _comes_to(cabinet, stands, voids)


def _comes_to(cabinet: RodCabinet, stands: dict[str, Stand], voids: dict[str, Void]) -> Proof:
    gap = max((gap_of(f, stands, voids) or 0.0 for j in cabinet.joints for f in j.fixings), default=0.0)
    spread = max((row.spread for row in rows(voids.values())), default=0.0)
    return Proof(largest_gap_mm=round(gap, 3) + 0.0, largest_spread_in_a_row_mm=round(spread, 3) + 0.0)


def _fault(
    cabinet: str, trouble: Trouble, *, stand: Stand | None = None, joint: str = "", feature: str = "", setting: str = ""
) -> ProofFault:
    where = [cabinet or "the job"]
    part = stand.part if stand else None
    if part is not None:
        where.append(f"{part.name} ({', '.join(part.marks)})" if part.marks else part.name)
    if feature or joint:
        where.append(feature or joint)
    if setting:
        where.append(f"setting {setting}")
    return ProofFault(
        cabinet=cabinet, part=part.id if part else "", marks=part.marks if part else (), joint=joint,
        feature=feature, cause=trouble.cause, message=f"{', '.join(where)}: {trouble.said()}",
        expected=trouble.expected, found=trouble.found,
    )  # fmt: skip


class _Trial:
    """One cabinet on trial: boards, then bores and grooves, then pairs, then rows, then copies.

    What is found wrong once is not tried again further on.
    """

    def __init__(self, rod: Rod, cabinet: RodCabinet, settings: Settings) -> None:
        self.rod = rod
        self.cabinet = cabinet
        self.settings = settings
        self.half_step = rod.step / 2
        self.stands = {p.id: Stand(p, cabinet) for p in cabinet.parts}
        self.met = meetings(cabinet, self.stands)
        self.voids: dict[str, Void] = {}
        self.wrong_boards: set[str] = set()
        self.wrong: set[str] = set()

    def faults(self) -> list[ProofFault]:
        """All that is wrong with this cabinet, causes before consequences."""
        found = [*self._boards(), *self._machining(), *self._joints(), *self._hinges(), *self._clothes_rails()]
        found += [*self._rows(), *self._copies()]
        return found or self._said()

    def _said(self) -> list[ProofFault]:
        """What the set-out itself says of its gaps and rows is so."""
        said = self.cabinet.proof
        true = _comes_to(self.cabinet, self.stands, self.voids)
        what = "what is said of its largest gap and its largest spread in a row"
        if abs(said.largest_gap_mm - true.largest_gap_mm) <= DUST and (
            abs(said.largest_spread_in_a_row_mm - true.largest_spread_in_a_row_mm) <= DUST
        ):
            return []
        figures = [f"{mm(p.largest_gap_mm)} and {mm(p.largest_spread_in_a_row_mm)}" for p in (true, said)]
        return [self._fault(Trouble("said", what, *figures))]

    def _fault(
        self, trouble: Trouble, stand: Stand | None = None, feature: Feature | None = None, entry: Entry | None = None
    ) -> ProofFault:
        if feature is not None:
            self.wrong.add(feature.id)
        return _fault(
            self.cabinet.name, trouble, stand=stand, joint=(feature.joint or "") if feature else "",
            feature=feature.id if feature else "", setting=entry.setup.id if entry else "",
        )  # fmt: skip

    def _boards(self) -> Iterator[ProofFault]:
        for stand in self.stands.values():
            for trouble in boards.standing(stand):
                self.wrong_boards.add(stand.part.id)
                yield self._fault(trouble, stand)
            for trouble in boards.sized(stand, self.rod.edgings, self.cabinet.count):
                yield self._fault(trouble, stand)
            if stand.part.id not in self.wrong_boards:
                for trouble, entry in boards.sawing(stand, self.settings, self.rod.edgings, self.half_step):
                    yield self._fault(trouble, stand, entry=entry)
        for stand, trouble in lippings(self.stands, self.rod):
            yield self._fault(trouble, stand)
        boxed = [s for s in self.stands.values() if s.part.in_box]
        if not any(s.part.id in self.wrong_boards for s in boxed):
            for trouble in boards.outside(self.cabinet, boxed):
                yield self._fault(trouble)
        for part in self.settings.sawn:
            if part not in self.stands:
                yield self._fault(Trouble("wrong board", f"the settings saw a board {part} that the cabinet has not"))

    def _machining(self) -> Iterator[ProofFault]:
        owner: dict[str, Stand] = {}
        for stand in self.stands.values():
            for feature in stand.part.features:
                if feature.id in owner:
                    yield self._fault(Trouble("twice", "two of this name in the cabinet"), stand, feature)
                owner[feature.id] = stand
                if stand.part.id not in self.wrong_boards and feature.id not in self.wrong:
                    entries = self.settings.machined.get(feature.id, [])
                    trouble = self._feature(stand, feature, entries)
                    if trouble is not None:
                        yield self._fault(trouble, stand, feature, entries[0] if len(entries) == 1 else None)
        for feature_id, entries in self.settings.machined.items():
            if feature_id not in owner:
                what = f"the settings work {feature_id}, and no board has it"
                yield self._fault(Trouble("wrong board", what), self.stands.get(entries[0].done.part), None, entries[0])

    def _feature(self, stand: Stand, feature: Feature, entries: list[Entry]) -> Trouble | None:
        """The first thing wrong with one bore or groove."""
        trouble = machining.listed(feature, entries)
        if trouble is not None or feature.stage in ("in place", "as bought"):
            return trouble
        entry, met = entries[0], self.met.get(feature.joint or "")
        if feature.joint is not None and met is None:
            return Trouble("joint", "it belongs to a joint that the cabinet has not", "", feature.joint)
        trouble = (
            machining.on_its_board(stand, entry, self.stands)
            or machining.mouth(stand, feature, entry)
            or self._datums(stand, feature, entry, met)
        )
        if trouble is not None:
            return trouble
        void, trouble = machining.place(stand, feature, entry, self.half_step)
        if void is not None:
            self.voids[feature.id] = void
        return trouble or machining.machine(stand, feature, entry, met)

    def _datums(self, stand: Stand, feature: Feature, entry: Entry, met: Met | None) -> Trouble | None:
        door = hung.of_door(self.cabinet, stand.part.id) if feature.role in ("hinge", "handle") else None
        edge = None if door is None else hung.hinged_edge(stand, door)
        return machining.datums(stand, entry, met, self.half_step, edge) or (
            hung.from_its_edge(stand, feature, entry, door) if door is not None else None
        )

    def _hinges(self) -> Iterator[ProofFault]:
        bores = hung.bores(self.stands, self.voids)
        for door in self.cabinet.doors:
            bored = {b for h in door.hinges for b in (h.cup, *h.plate)}
            parts = {door.door, *(h.carrier for h in door.hinges)}
            if not (parts - set(self.stands)) and not (bored & self.wrong) and not (parts & self.wrong_boards):
                for hinge, trouble in hung.hinges(door, self.stands, bores, self.half_step):
                    cup = self.voids.get(hinge.cup)
                    yield self._fault(trouble, self.stands[door.door], cup.feature if cup else None)
            for missing in sorted(parts - set(self.stands)):
                yield self._fault(
                    Trouble("wrong board", f"{door.door} hangs on boards that are not there", "", missing)
                )

    def _clothes_rails(self) -> Iterator[ProofFault]:
        bored = hung.bores(self.stands, self.voids)
        for rail in self.cabinet.clothes_rails:
            ids = {id for socket in rail.bores for id in socket}
            if not ids & self.wrong and not {*rail.uprights} & self.wrong_boards:
                for part, bore, trouble in clothes_rails.sockets(rail, bored, self.half_step):
                    void = self.voids.get(bore)
                    yield self._fault(trouble, self.stands.get(part), void.feature if void else None)

    def _joints(self) -> Iterator[ProofFault]:
        for joint in self.cabinet.joints:
            met = self.met.get(joint.id)
            if met is None:
                what = Trouble("joint", "it joins a board that the cabinet has not", "", " and ".join(joint.parts))
                yield _fault(self.cabinet.name, what, joint=joint.id)
            elif not {*joint.parts} & self.wrong_boards:
                trouble = pairs.touching(met)
                if trouble is not None:
                    yield _fault(self.cabinet.name, trouble, stand=met.host, joint=joint.id)
                yield from self._pairs(met)

    def _pairs(self, met: Met) -> Iterator[ProofFault]:
        in_pairs: set[str] = set()
        for fixing in met.joint.fixings:
            ids = [h.feature for h in (*fixing.halves, *fixing.others) if h.feature]
            in_pairs.update(ids)
            if any(i in self.wrong for i in ids):
                continue
            trouble = (
                pairs.halves(met, fixing, self.stands)
                or pairs.registering(met, fixing, self.voids, self.half_step)
                or pairs.pair(met, fixing, self.stands, self.voids, self.half_step)
                or pairs.one_axis(met, fixing, self.voids, self.half_step)
            )
            half = self.voids.get(fixing.halves[0].feature or "")
            if trouble is not None and half is not None:
                yield self._fault(trouble, half.stand, half.feature, half.entry)
            elif trouble is not None:
                yield _fault(self.cabinet.name, trouble, stand=met.host, joint=met.joint.id)
        for stand in (met.host, met.guest):
            for feature in stand.part.features:
                if feature.joint == met.joint.id and feature.id not in in_pairs and feature.id not in self.wrong:
                    yield self._fault(Trouble("joint", "it is no half of anything in its joint"), stand, feature)

    def _rows(self) -> Iterator[ProofFault]:
        for row in rows(v for i, v in self.voids.items() if i not in self.wrong):
            if row.spread > DUST:
                first = row.voids[0]
                what = f"the row of {len(row.voids)} that begins with it is not straight"
                yield self._fault(
                    Trouble("row", what, "no spread", mm(row.spread)), first.stand, first.feature, first.entry
                )

    def _copies(self) -> Iterator[ProofFault]:
        for stand in self.stands.values():
            first = self.stands.get(stand.part.same_as or "")
            machined = {f.id for s in (stand, first) if s for f in s.part.features}
            if stand.part.same_as is not None and not machined & self.wrong:
                trouble = copies.copied(stand, self.stands, self.settings)
                if trouble is not None:
                    yield self._fault(trouble, stand)
