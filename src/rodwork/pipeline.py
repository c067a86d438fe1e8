"""Read this first: the one place that knows the order of the stations.

    job -> carcass -> joints -> set-out (the Rod) -> proof -> checks, fit, load, sheets -> documents

Each station takes frozen values and gives frozen values; none imports another. Files are read and written in
cli.py alone: here a job comes in as text and pages go out as drawings.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from rodwork.carcass.build import build
from rodwork.carcass.hidden_sides import covered_up, hidden_sides
from rodwork.carcass.runs import build_run
from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.checks.registry import run_checks
from rodwork.job.alcoves import largest_in
from rodwork.job.faults import near, shown
from rodwork.job.reader import Fault, JobFaults, Lines, OwnFiles, fault_at, read_job
from rodwork.job.schema import job_schema, own_family_schema
from rodwork.job.typed import TYPED, with_typed
from rodwork.joints.own import settings_of
from rodwork.joints.place import entry_of, join
from rodwork.joints.registry import back_recipe, families, joint_kinds
from rodwork.load.station import load_of
from rodwork.model.alcove import SURVEY_CODES, Surveyed
from rodwork.model.cutting import CuttingPlan
from rodwork.model.dry_fit import DryFit
from rodwork.model.finding import Finding
from rodwork.model.finish import with_finish
from rodwork.model.job import Back, Cabinet, CannotBuild, Job, Place, Recipe, Use
from rodwork.model.loading import Loading
from rodwork.model.measured import DIMENSIONS
from rodwork.model.meeting import Entry
from rodwork.model.own_accuracy import Readings, TrialResult
from rodwork.model.rod import Rod
from rodwork.model.sawing import Saw
from rodwork.setout.draft import Made, MadeRun, draft
from rodwork.setout.measured_copies import measured_copies
from rodwork.setout.proof import proof_of, prove
from rodwork.sheets.plan import Progress, Work, in_silence, plan_cutting, to_the_end
from rodwork.sheets.recut import recut_plan

Beside = Callable[[str], bytes]


def nothing_beside(name: str) -> bytes:
    """There are no files beside this job. Raises OSError."""
    raise FileNotFoundError(2, "there is no file beside this job", name)


def set_out(text: str | bytes, file: str, beside: Beside = nothing_beside, cut: Sequence[str] = ()) -> Rod:
    """The Rod of a job: set out, proven and checked. Raises JobFaults with every fault that was found.

    `beside` gives the content of a file that the job names, a family of the maker's own; it raises OSError. `cut`:
    boards as cut, as they were typed beside the file: "G1-T 564.1".
    """
    job, lines = read(text, file, beside)
    job = with_typed(job, cut)
    rod = draft(job, *_made(job, lines, file))
    _refuse_other_boards(rod, lines, file)
    rod = measured_copies(rod)
    proven = replace(rod, cabinets=tuple(replace(c, proof=proof_of(c, rod.setups)) for c in rod.cabinets))
    return replace(proven, findings=(*_disproved(proven), *run_checks(proven)))


OTHER_BOARD_MM = {"length": 10.0, "width": 10.0, "thickness": 3.0}  # further off it is likely another board


def _refuse_other_boards(rod: Rod, lines: Lines, file: str) -> None:
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


def load(rod: Rod) -> Loading:
    """Will it hold: the load of every cabinet of a Rod, from shelves to the wall."""
    return load_of(rod)


def surveyed(rod: Rod) -> tuple[Surveyed, ...]:
    """What the readings of every survey of a Rod come to."""
    found = []
    for survey in rod.surveys.values():
        units = {
            c.name: c.asked.alcove for c in rod.cabinets if c.asked.alcove and c.asked.alcove.survey == survey.name
        }
        wrong = tuple(f for f in rod.findings if f.cabinet in units and f.code in SURVEY_CODES)
        found.append(Surveyed(survey=survey, units=units, empty=None if units else largest_in(survey), findings=wrong))
    return tuple(found)


def dry_fit(
    rod: Rod, accuracy: str | None = None, samples: int = 2000, seed: int = 1, cores: int = 1,
    say: Callable[[str, int], None] = lambda cabinet, samples: None,
) -> DryFit:  # fmt: skip
    """Will it go together, flush and square. `accuracy`: the text of the shop's own readings, or None: assumed.

    Raises AccuracyFault where that text is no file of readings.
    `say` is told of each cabinet and how many of its samples are done.
    """
    from rodwork.fit.measuring import shop_accuracy  # numpy and numba: only where a dry fit is asked for
    from rodwork.fit.station import dry_fit_of

    own = shop_accuracy(assumed_accuracy(), accuracy, rod.shop.accuracy or "")
    return dry_fit_of(rod, own, samples, seed, cores, say)


def readings_of(
    method: str | None, kind: str, settings: Sequence[str], table: str | None, where: str
) -> tuple[Readings, ...]:
    """Readings as typed, a text for each setting, and those of a table. Raises AccuracyFault."""
    from rodwork.fit.measuring import read_csv, read_numbers

    typed = tuple(read_numbers(text, f"setting {n}") for n, text in enumerate(settings, 1))
    own = (Readings(method=method, kind=kind, settings=typed),) if method is not None and typed else ()
    return (*own, *(read_csv(table, where) if table is not None else ()))


def with_findings(rod: Rod, found: Sequence[Finding]) -> Rod:
    """The Rod with what a later station found beside what the checks did."""
    return replace(rod, findings=(*rod.findings, *found))


def too_demanding(rod: Rod, accuracy: str) -> tuple[Finding, ...]:
    """Cabinets that demand more accuracy than a shop with these readings has. Raises AccuracyFault."""
    from rodwork.fit.measuring import shop_accuracy
    from rodwork.fit.station import too_demanding as found_by

    return found_by(rod, shop_accuracy(assumed_accuracy(), accuracy, rod.shop.accuracy or ""))


def least_chance(rod: Rod, accuracy: str | None = None) -> float | None:
    """How often the worst cabinet of a job goes together; None where nothing is joined. Raises as dry_fit does."""
    from rodwork.fit.measuring import shop_accuracy
    from rodwork.fit.station import least_chance as chance_of

    return chance_of(rod, shop_accuracy(assumed_accuracy(), accuracy, rod.shop.accuracy or ""))


def own_accuracy(
    before: str | None, where: str, taken: Sequence[Readings]
) -> tuple[tuple[TrialResult, ...], str]:  # fmt: skip
    """What a shop's readings come to, those of its file and those taken now, and the file's text from now on.

    Raises AccuracyFault.
    """
    from rodwork.fit.measuring import file_of, joined, readings_in, result_of

    kept = () if before is None else readings_in(before, where)
    readings = joined((*kept, *taken))
    results = tuple(result_of(r, assumed_accuracy()) for r in readings)
    return results, file_of(results, readings)


def set_out_with(text: str | bytes, file: str, family: str | None, beside: Beside = nothing_beside) -> Rod:
    """The Rod of a job with this family in place of every recipe of corners, shelves and dividers that it can make.

    None: with its own recipes. Boards that are cut are left out: they are cut for the joints of the job. Raises
    JobFaults; ValueError where there is no such family, or it can make none of them.
    """
    job, lines = read(text, file, beside)
    changes: dict[str, Any] = {} if family is None else _joined_by(family)
    changed = replace(job, measured=(), cabinets=tuple(replace(c, **changes) for c in job.cabinets))
    rod = draft(changed, *_made(changed, lines, file))
    return replace(rod, findings=run_checks(rod))


def _joined_by(family: str) -> dict[str, Recipe]:
    """What a cabinet asks for where this family makes all that it can make."""
    kind = joint_kinds().get(family)
    if kind is None:
        meant = near(family, joint_kinds())
        there = f"did you mean {meant}?" if meant else f"there are {', '.join(joint_kinds())}"
        raise ValueError(f"there is no family {shown(family)}; {there}")
    fields = {
        "corner": "corner_joint", "mitre": "corner_joint", "fixed shelf": "shelf_joint", "divider": "divider_joint",
    }  # fmt: skip
    able = [name for place, name in fields.items() if place in kind.places]
    if not able:
        raise ValueError(f"the family {shown(family)} joins no corner, shelf or divider")
    use = Use(family=family, settings=kind.settings(), place=Place(path=("joints",)))
    return dict.fromkeys(able, Recipe(name=family, uses=(use,), place=use.place))


STEPS_IN_A_PACK = 4_000  # of the search for each board: few and fixed, so that a pack is quick and always the same


def cutting(
    rod: Rod, saw: Saw | None = None, steps: int = STEPS_IN_A_PACK, seed: int = 1,
    go_on: Callable[[int, int], bool] = to_the_end, tell: Callable[[Progress], None] = in_silence,
) -> CuttingPlan:  # fmt: skip
    """How it comes out of the boards: sheets, cuts in order, what is left. `saw` in place of the job's own.

    `steps` of the search for each board, while `go_on` says so of this board of so many; `tell` hears of the progress.
    """
    return plan_cutting(rod, Work(steps=steps, seed=seed, go_on=go_on, tell=tell), saw)


def recut(rod: Rod, plan: CuttingPlan, marks: Sequence[str]) -> CuttingPlan:
    """The spoilt boards of a plan that is begun, out of what it leaves; nothing that is laid out moves."""
    return recut_plan(rod, plan, marks)


def read(text: str | bytes, file: str, beside: Beside) -> tuple[Job, Lines]:
    """The job of a file, with the families that are here and those that it names. Raises JobFaults."""
    return read_job(text, file, families(), OwnFiles(beside=beside, settings_of=settings_of))


def schema() -> Mapping[str, Any]:
    """The JSON Schema of a job file, with every family that is there."""
    return job_schema(families())


def family_schema() -> Mapping[str, Any]:
    """The JSON Schema of a file with a family of the maker's own."""
    return own_family_schema()


def _made(job: Job, lines: Lines, file: str) -> tuple[tuple[Made, ...], tuple[MadeRun, ...]]:
    """Every cabinet and every run of them; sides that stand against each other are out of sight."""
    made = _made_cabinets(job, lines, file)
    runs = _made_runs(job, made, lines, file)
    hidden = hidden_sides([one.run for one in runs], {one.cabinet.name: one.cabinet for one in made})
    unseen = frozenset[str]()
    return tuple(replace(m, carcass=covered_up(m.carcass, hidden.get(m.cabinet.name, unseen))) for m in made), runs


def _made_cabinets(job: Job, lines: Lines, file: str) -> tuple[Made, ...]:
    """Carcass and joints of every cabinet; the faults of all of them at once."""
    made: list[Made] = []
    faults: list[Fault] = []
    for cabinet in job.cabinets:
        try:
            made.append(make(cabinet, job))
        except CannotBuild as problem:
            faults.append(fault_at(lines, file, problem.path, problem.what, _sentence(problem.mend)))
    if faults:
        raise JobFaults(tuple(faults))
    return tuple(made)


def _made_runs(job: Job, made: tuple[Made, ...], lines: Lines, file: str) -> tuple[MadeRun, ...]:
    """Every run of cabinets that are made, with the boards that go along it; the faults of all at once."""
    built = {one.cabinet.name: (one.cabinet, one.carcass) for one in made}
    runs: list[MadeRun] = []
    faults: list[Fault] = []
    for asked in job.runs:
        try:
            run = build_run(asked, built, job.boards, job.edgings, job.surveys)
            joined = join(run.carcass, job.shop)
        except CannotBuild as problem:
            faults.append(fault_at(lines, file, problem.path, problem.what, _sentence(problem.mend)))
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


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def make(cabinet: Cabinet, job: Job) -> Made:
    """Carcass and joints of one cabinet. Raises CannotBuild."""
    shop = with_finish(job.shop, cabinet.finish)

    def entry(recipe: Recipe, host_thickness: float, guest_thickness: float) -> Entry:
        return entry_of(recipe, host_thickness, guest_thickness, shop)

    def held(back: Back) -> Recipe:
        return back_recipe(back, cabinet.place)

    carcass = build(cabinet, job.boards, job.edgings, shop, held, entry)
    joined = join(carcass, shop)
    return Made(
        cabinet=cabinet, carcass=carcass, joints=joined.joints, machining=(*joined.machining, *carcass.machining)
    )


def _disproved(rod: Rod) -> tuple[Finding, ...]:
    """What the proof says is wrong with our own set-out: nothing may be cut from it."""
    return tuple(
        Finding(
            severity="fault",
            code="proof",
            cabinet=fault.cabinet,
            where=tuple(w for w in (fault.part, fault.joint, fault.feature) if w),
            message=fault.message,
            mend="cut nothing from this set-out: it contradicts itself; report it with the job file",
            source="the proof of the printed numbers",
        )
        for fault in prove(rod)
    )
