"""Read this first: the one place that knows the order of the stations.

    job -> carcass -> joints -> set-out (the Rod) -> proof -> checks, fit, load, sheets -> documents

Each station takes frozen values and gives frozen values; none imports another. Files are read and written in
cli.py alone: here a job comes in as text and pages go out as drawings. Beside it stand making.py, which builds and
joins every cabinet and tells each fault at its line; comparing.py, which tries other joints; and own_accuracy.py, what
a shop's readings come to.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.checks.registry import run_checks
from rodwork.job.alcoves import largest_in
from rodwork.job.mends import in_units
from rodwork.job.reader import Lines, OwnFiles, read_job
from rodwork.job.schema import job_schema, own_family_schema
from rodwork.job.typed import with_typed
from rodwork.joints.own import settings_of
from rodwork.joints.registry import families
from rodwork.load.station import load_of
from rodwork.making import made, refuse_other_boards, settled_by_runs
from rodwork.model.alcove import SURVEY_CODES, Surveyed
from rodwork.model.cutting import CuttingPlan
from rodwork.model.dry_fit import DryFit
from rodwork.model.finding import Finding
from rodwork.model.job import Job
from rodwork.model.loading import Loading
from rodwork.model.rod import Rod
from rodwork.model.sawing import Saw
from rodwork.own_accuracy import accuracy_along_runs
from rodwork.setout.draft import draft
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
    rod = draft(job, *made(job, lines, file, accuracy_along_runs(job, lines, file, beside)))
    refuse_other_boards(rod, lines, file)
    rod = measured_copies(rod)
    proven = replace(rod, cabinets=tuple(replace(c, proof=proof_of(c, rod.setups)) for c in rod.cabinets))
    found = (*_disproved(proven), *run_checks(proven))
    return replace(proven, findings=tuple(replace(f, mend=in_units(f.mend, job.units)) for f in found))


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


def with_findings(rod: Rod, found: Sequence[Finding]) -> Rod:
    """The Rod with what a later station found beside what the checks did."""
    return replace(rod, findings=(*rod.findings, *found))


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
    job, lines = read_job(text, file, families(), OwnFiles(beside=beside, settings_of=settings_of))
    return settled_by_runs(job, lines, file), lines


def schema() -> Mapping[str, Any]:
    """The JSON Schema of a job file, with every family that is there."""
    return job_schema(families())


def family_schema() -> Mapping[str, Any]:
    """The JSON Schema of a file with a family of the maker's own."""
    return own_family_schema()


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
