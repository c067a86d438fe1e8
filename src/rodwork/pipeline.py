"""Read this first: the one place that knows the order of the stations.

    job -> carcass -> joints -> set-out (the Rod) -> proof -> checks, load -> documents

Each station takes frozen values and gives frozen values; none imports another. Files are read and written in
cli.py alone: here a job comes in as text and pages go out as drawings.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from rodwork.carcass.build import build
from rodwork.checks.registry import run_checks
from rodwork.job.reader import Fault, JobFaults, Lines, OwnFiles, fault_at, read_job
from rodwork.job.schema import job_schema, own_family_schema
from rodwork.joints.kind import JointKind
from rodwork.joints.own import own_kind, settings_of
from rodwork.joints.place import entry_of, join
from rodwork.joints.registry import back_recipe, families, joint_kinds
from rodwork.load.station import load_of
from rodwork.model.costing import Cannot, Comparison
from rodwork.model.finding import Finding
from rodwork.model.job import Back, Cabinet, CannotBuild, Job, Place, Recipe, Use
from rodwork.model.loading import Loading
from rodwork.model.meeting import Entry
from rodwork.model.rod import Rod
from rodwork.money.comparison import comparison
from rodwork.money.ways import Candidate
from rodwork.setout.draft import Made, draft
from rodwork.setout.proof import proof_of, prove

Beside = Callable[[str], bytes]


def nothing_beside(name: str) -> bytes:
    """There are no files beside this job. Raises OSError."""
    raise FileNotFoundError(2, "there is no file beside this job", name)


def set_out(text: str | bytes, file: str, beside: Beside = nothing_beside) -> Rod:
    """The Rod of a job: set out, proven and checked. Raises JobFaults with every fault that was found.

    `beside` gives the content of a file that the job names, a family of the maker's own; it raises OSError.
    """
    job, lines = _read(text, file, beside)
    rod = draft(job, _made(job, lines, file))
    proven = replace(rod, cabinets=tuple(replace(c, proof=proof_of(c, rod.setups)) for c in rod.cabinets))
    return replace(proven, findings=(*_disproved(proven), *run_checks(proven)))


def load(rod: Rod) -> Loading:
    """Will it hold: the load of every cabinet of a Rod, from shelves to the wall."""
    return load_of(rod)


COMPARED = {"corners": "corner", "shelves": "fixed shelf", "dividers": "divider"}  # what is joined: where it stands
_NAMED_BY = {"corner": "corner_joint", "fixed shelf": "shelf_joint", "divider": "divider_joint"}


def compare(
    text: str | bytes,
    file: str,
    beside: Beside = nothing_beside,
    of: Sequence[str] = tuple(COMPARED),
    wants: Sequence[str] = (),
    sort: str = "money",
) -> tuple[Rod, Comparison]:
    """A Rod of the job, for what stands at the head of a page, and the ways of joining it: its recipes, every family.

    `of`: which joints, of COMPARED; the others stay as they are. Raises JobFaults as set_out does. The proof is not
    run: it is for what is to be cut.
    """
    job, lines = _read(text, file, beside)
    kinds = {**joint_kinds(), **{name: own_kind(family) for name, family in job.own_families.items()}}
    natures = {name: kind.nature for name, kind in kinds.items()}
    places = frozenset(COMPARED[word] for word in of)
    written = _only_recipe(job, places)
    candidates: list[Candidate] = []
    cannot: list[Cannot] = []
    for name, made_with, recipe in _ways(job, kinds, places):
        rod = _drafted(job if recipe is None else _joined_with(job, recipe, places))
        if isinstance(rod, str):
            cannot.append(Cannot(name=name, made_with=made_with, why=rod))
            continue
        candidates.append(
            Candidate(
                name=name, made_with=made_with, as_written=recipe is None or _uses(recipe) == written,
                rod=rod, places=places, natures=natures, findings=run_checks(rod),
            )
        )  # fmt: skip
    rod = candidates[0].rod if candidates else draft(job, _made(job, lines, file))  # the faults of the job as written
    return rod, comparison(rod, candidates, cannot, job.figures, job.currency, wants, sort)


def _ways(job: Job, kinds: Mapping[str, JointKind], places: frozenset[str]) -> Iterator[tuple[str, str, Recipe | None]]:
    """(name, made with, recipe) of everything to be tried; None: the job as it is written."""
    titles = {name: kind.title for name, kind in kinds.items()}
    if _only_recipe(job, places) is None:
        yield "as written", "as the job has it", None
    tried = []
    for recipe in job.recipes.values():
        tried.append(_uses(recipe))
        yield recipe.name, " + ".join(titles[use.family] for use in recipe.uses), recipe
    for kind in kinds.values():
        if places.isdisjoint(kind.places) or ((kind.name, kind.settings()),) in tried:
            continue
        place = Place(path=("joints", kind.name))
        use = Use(family=kind.name, settings=kind.settings(), place=place)
        yield kind.name, kind.title, Recipe(name=kind.name, uses=(use,), place=place)


def _uses(recipe: Recipe) -> tuple[tuple[str, Any], ...]:
    """What a recipe comes to, whatever it is called and wherever it is written."""
    return tuple((use.family, use.settings) for use in recipe.uses)


def _only_recipe(job: Job, places: frozenset[str]) -> tuple[tuple[str, Any], ...] | None:
    """What makes all these joints, or None where the job has several recipes for them."""
    used = [_uses(getattr(cabinet, _NAMED_BY[place])) for cabinet in job.cabinets for place in places]
    return used[0] if all(uses == used[0] for uses in used) else None


def _joined_with(job: Job, recipe: Recipe, places: frozenset[str]) -> Job:
    changes: dict[str, Any] = {_NAMED_BY[place]: recipe for place in places}
    return replace(job, cabinets=tuple(replace(cabinet, **changes) for cabinet in job.cabinets))


def _drafted(job: Job) -> Rod | str:
    """The Rod of a job, or why no carcass can be made of it."""
    made = []
    for cabinet in job.cabinets:
        try:
            made.append(_make(cabinet, job))
        except CannotBuild as problem:
            return f"{cabinet.name}: {problem.what}"
    return draft(job, tuple(made))


def _read(text: str | bytes, file: str, beside: Beside) -> tuple[Job, Lines]:
    return read_job(text, file, families(), OwnFiles(beside=beside, settings_of=settings_of))


def schema() -> Mapping[str, Any]:
    """The JSON Schema of a job file, with every family that is there."""
    return job_schema(families())


def family_schema() -> Mapping[str, Any]:
    """The JSON Schema of a file with a family of the maker's own."""
    return own_family_schema()


def _made(job: Job, lines: Lines, file: str) -> tuple[Made, ...]:
    """Carcass and joints of every cabinet; the faults of all of them at once."""
    made: list[Made] = []
    faults: list[Fault] = []
    for cabinet in job.cabinets:
        try:
            made.append(_make(cabinet, job))
        except CannotBuild as problem:
            faults.append(fault_at(lines, file, problem.path, problem.what, _sentence(problem.mend)))
    if faults:
        raise JobFaults(tuple(faults))
    return tuple(made)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _make(cabinet: Cabinet, job: Job) -> Made:
    def entry(recipe: Recipe, host_thickness: float, guest_thickness: float) -> Entry:
        return entry_of(recipe, host_thickness, guest_thickness, job.shop)

    def held(back: Back) -> Recipe:
        return back_recipe(back, cabinet.place)

    carcass = build(cabinet, job.boards, job.edgings, job.shop, held, entry)
    joined = join(carcass, job.shop)
    return Made(cabinet=cabinet, carcass=carcass, joints=joined.joints, machining=joined.machining)


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
