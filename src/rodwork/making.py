"""From the job to boards with their joints, cabinet by cabinet and run by run: every fault at its own line.

The carcass tells what cannot be built by its place in the job; only here is that made a line of the file.
"""

from dataclasses import replace

from rodwork.carcass.build import build
from rodwork.carcass.hidden_sides import covered_up, hidden_sides
from rodwork.carcass.runs import build_run
from rodwork.carcass.shared_widths import settled
from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.job.faults import Fault, JobFaults, fault_at, near, shown
from rodwork.job.lines import Lines
from rodwork.job.mends import in_units
from rodwork.job.typed import TYPED
from rodwork.joints.place import entry_of, join
from rodwork.joints.registry import back_recipe
from rodwork.model.accuracy import Accuracy
from rodwork.model.finish import with_finish
from rodwork.model.job import Back, Cabinet, CannotBuild, Job, Place, Recipe
from rodwork.model.measured import DIMENSIONS
from rodwork.model.meeting import Entry
from rodwork.model.rod import Rod
from rodwork.setout.draft import Made, MadeRun

OTHER_BOARD_MM = {"length": 10.0, "width": 10.0, "thickness": 3.0}  # further off it is likely another board


def made(
    job: Job, lines: Lines, file: str, accuracy: Accuracy | None = None
) -> tuple[tuple[Made, ...], tuple[MadeRun, ...]]:
    """Every cabinet and every run of them; sides that stand against each other are out of sight.

    `accuracy`: how true the shop works, which adds up along a run; None: as other shops do.
    """
    cabinets = _cabinets(job, lines, file)
    runs = _runs(job, cabinets, lines, file, accuracy or assumed_accuracy())
    hidden = hidden_sides([one.run for one in runs], {one.cabinet.name: one.cabinet for one in cabinets})
    unseen = frozenset[str]()
    return tuple(replace(m, carcass=covered_up(m.carcass, hidden.get(m.cabinet.name, unseen))) for m in cabinets), runs


def settled_by_runs(job: Job, lines: Lines, file: str) -> Job:
    """The job with the widths that its runs leave for cabinets, and their doors where they have settled them."""
    cabinets = {c.name: c for c in job.cabinets}
    faults: list[Fault] = []
    for asked in job.runs:
        try:
            cabinets |= settled(asked, cabinets, job.boards, job.surveys)
        except CannotBuild as problem:
            faults.append(fault_at(lines, file, problem.path, problem.what, _mend(problem, job)))
    if faults:
        raise JobFaults(tuple(faults))
    return replace(job, cabinets=tuple(cabinets.values()))


def _cabinets(job: Job, lines: Lines, file: str) -> tuple[Made, ...]:
    """Carcass and joints of every cabinet; the faults of all of them at once."""
    out: list[Made] = []
    faults: list[Fault] = []
    for cabinet in job.cabinets:
        try:
            out.append(make(cabinet, job))
        except CannotBuild as problem:
            faults.append(fault_at(lines, file, problem.path, problem.what, _mend(problem, job)))
    if faults:
        raise JobFaults(tuple(faults))
    return tuple(out)


def _runs(job: Job, cabinets: tuple[Made, ...], lines: Lines, file: str, accuracy: Accuracy) -> tuple[MadeRun, ...]:
    """Every run of cabinets that are made, with the boards that go along it; the faults of all at once."""
    built = {one.cabinet.name: (one.cabinet, one.carcass) for one in cabinets}
    runs: list[MadeRun] = []
    faults: list[Fault] = []
    for asked in job.runs:
        try:
            run = build_run(asked, built, job.boards, job.edgings, job.surveys, accuracy)
            joined = join(run.carcass, job.shop)
        except CannotBuild as problem:
            faults.append(fault_at(lines, file, problem.path, problem.what, _mend(problem, job)))
            continue
        runs.append(
            MadeRun(
                run=run.run, mark=asked.mark, notes=asked.notes, size=run.size, carcass=run.carcass,
                joints=joined.joints, machining=(*joined.machining, *run.machining),
            )
        )  # fmt: skip
    if faults:
        raise JobFaults(tuple(faults))
    return tuple(runs)


def _mend(problem: CannotBuild, job: Job) -> str:
    """As a sentence, with numbers that can be copied into the job."""
    return in_units(problem.mend[:1].upper() + problem.mend[1:], job.units)


def make(cabinet: Cabinet, job: Job) -> Made:
    """Carcass and joints of one cabinet. Raises CannotBuild."""
    shop = with_finish(job.shop, cabinet.finish)

    def entry(recipe: Recipe, host_thickness: float, guest_thickness: float) -> Entry:
        return entry_of(recipe, host_thickness, guest_thickness, shop)

    def held(back: Back) -> Recipe:
        own = ("back",) if back == cabinet.back else ()  # else the bottom of a drawer
        return back_recipe(back, Place(path=(*cabinet.place.path, *own)))

    carcass = build(cabinet, job.boards, job.edgings, shop, held, entry)
    joined = join(carcass, shop)
    return Made(
        cabinet=cabinet, carcass=carcass, joints=joined.joints, machining=(*joined.machining, *carcass.machining)
    )


def refuse_other_boards(rod: Rod, lines: Lines, file: str) -> None:
    """Sizes as cut of a mark that is on no board, or so far off that it is probably not this board."""
    parts = {mark: part for cabinet in rod.cabinets for part in cabinet.parts for mark in part.marks}
    faults = []

    def fault(path: tuple[str, ...], what: str, mend: str) -> None:
        typed = path not in lines.known
        faults.append(
            Fault(file=TYPED, line=0, path=path, what=what, mend=mend) if typed
            else fault_at(lines, file, path, what, mend)
        )  # fmt: skip

    for board in rod.measured:
        part = parts.get(board.mark)
        if part is None:
            meant = near(board.mark, parts)
            mend = f"Did you mean {meant}?" if meant else f"The marks of this job are {', '.join(list(parts)[:20])}"
            fault(("measured", board.mark), f"no board is marked {shown(board.mark)}", mend)
            continue
        for dimension, asked in zip(DIMENSIONS, part.size, strict=True):
            found = board.of(dimension)
            if found is not None and abs(found - asked) >= OTHER_BOARD_MM[dimension]:
                what = (
                    f"{board.mark} was asked {dimension} {asked:.1f}, and {found:.1f} is {abs(found - asked):.1f} off"
                )
                mend = "Is this the right board? If it is, cut it anew; if not, write its own mark"
                fault(("measured", board.mark, dimension), what, mend)
    if faults:
        raise JobFaults(tuple(faults))
