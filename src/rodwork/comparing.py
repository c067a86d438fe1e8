"""The ways of joining a job, tried one after another on the stations that the pipeline knows, and put side by side.

Each of the job's recipes and each family alone is joined, set out and looked at by the checks as any job is. The proof
is left to the one that is chosen: it is for what is to be cut.
"""

import gc
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from itertools import product
from typing import Any

from rodwork.checks.registry import run_checks
from rodwork.job.faults import JobFaults, near, shown
from rodwork.joints.kind import JointKind
from rodwork.joints.own import own_kind
from rodwork.joints.place import Joined, entry_of, join
from rodwork.joints.registry import joint_kinds
from rodwork.load.station import joints_bear
from rodwork.making import made, make
from rodwork.model.costing import Cannot, Comparison, Way
from rodwork.model.finish import with_finish
from rodwork.model.job import Cabinet, CannotBuild, Job, Place, Recipe, Use
from rodwork.model.meeting import Carcass, Entry, Meeting
from rodwork.model.nature import Nature
from rodwork.model.rod import Rod
from rodwork.money.comparison import comparison
from rodwork.money.rates import Rates
from rodwork.money.ways import Candidate, way_of
from rodwork.pipeline import Beside, nothing_beside, read, set_out
from rodwork.setout.draft import Made, draft

COMPARED = {"corners": "corner", "shelves": "fixed shelf", "dividers": "divider"}  # what is joined: where it stands


def compare(
    text: str | bytes,
    file: str,
    beside: Beside = nothing_beside,
    of: Sequence[str] = tuple(COMPARED),
    wants: Sequence[str] = (),
    sort: str = "money",
    say: Callable[[str], None] = lambda what: None,
    chance: Callable[[Rod], float | None] | None = None,
) -> tuple[Rod, Comparison]:
    """The ways of joining a job side by side: its own recipes, and every family; and a Rod with its heading alone.

    `of`: which joints, of COMPARED; the others stay as they are. Raises JobFaults as set_out does, for what no joint
    mends. `say` is told what is being tried. `chance`: how often a job goes together, where that is asked for.
    """
    job, _ = read(text, file, beside)
    kinds = {**joint_kinds(), **{name: own_kind(family) for name, family in job.own_families.items()}}
    trial = _Trial(job, _places(job, of), {name: kind.nature for name, kind in kinds.items()}, chance)
    judged = []
    with _without_collecting():
        for name, made_with, recipe in _ways(job, kinds, trial.places):
            say(f"joining with {name}")
            judged.append(trial.judged(name, made_with, recipe))
    say("")
    if not any(isinstance(way, Way) for way in judged):
        _refuse_what_no_joint_mends(text, file, beside)
    cabinets = sum(cabinet.count for cabinet in job.cabinets)
    compared = comparison(job.name, cabinets, judged, job.figures, job.currency, wants, sort)
    return draft(replace(job, cabinets=()), ()), compared


@contextmanager
def _without_collecting() -> Iterator[None]:
    """Frozen values make no cycles: the collector would only walk the set-outs, an eighth of the time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _refuse_what_no_joint_mends(text: str | bytes, file: str, beside: Beside) -> None:
    """Where no way can, the job as it is written may be at fault for another reason."""
    try:
        set_out(text, file, beside)
    except JobFaults as wrong:
        others = [fault for fault in wrong.faults if fault.path[:1] != ("joints",)]
        if others:
            raise JobFaults(others) from None


@dataclass(frozen=True)
class _Trial:
    """One job joined in one way after another. A carcass that several ways have alike is built once.

    `shared`: by cabinet and how far its boards enter one another: its carcass, and the joints that no way changes.
    """

    job: Job
    places: frozenset[str]
    natures: Mapping[str, Nature]
    chance: Callable[[Rod], float | None] | None
    shared: dict[tuple[object, ...], tuple[Carcass, dict[str, Joined]]] = field(default_factory=dict)

    def judged(self, name: str, made_with: str, recipe: Recipe | None) -> Way | Cannot:
        """What a way costs, or why it cannot make this job. None: the job as it is written."""
        changes: dict[str, Any] = {} if recipe is None else {_NAMED_BY[place]: recipe for place in self.places}
        made = []
        for cabinet in self.job.cabinets:
            try:
                made.append(self._make(replace(cabinet, **changes)))
            except CannotBuild as problem:
                return Cannot(name=name, made_with=made_with, why=f"{cabinet.name}: {problem.what}")
        rod = draft(self.job, tuple(made))
        as_written = recipe is None or _uses(recipe) == _only_recipe(self.job, self.places)
        way = way_of(
            Candidate(
                name=name, made_with=made_with, as_written=as_written, rod=rod, places=self.places,
                natures=self.natures, findings=run_checks(rod),
            ),
            Rates(self.job.figures, self.job.currency),
        )  # fmt: skip
        if isinstance(way, Cannot):
            return way
        loaded, times_over = joints_bear(rod)
        fits = self.chance(rod) if self.chance is not None else None
        return replace(way, loaded=loaded, times_over=times_over, goes_together=fits)

    def _make(self, cabinet: Cabinet) -> Made:
        key = (cabinet.name, *self._entries(cabinet))
        if key not in self.shared:
            made = make(cabinet, self.job)
            kept = {
                m.id: _alone(made, m.id) for m in made.carcass.meetings if _recipe_at(cabinet, m) is not m.recipe
            }  # fmt: skip
            self.shared[key] = (made.carcass, kept)
            return made
        carcass, kept = self.shared[key]
        meetings = tuple(
            m if m.id in kept else replace(m, recipe=_recipe_at(cabinet, m) or m.recipe) for m in carcass.meetings
        )
        carcass = replace(carcass, meetings=meetings)
        joined = join(carcass, with_finish(self.job.shop, cabinet.finish), kept)
        return Made(cabinet=cabinet, carcass=carcass, joints=joined.joints, machining=joined.machining)

    def _entries(self, cabinet: Cabinet) -> Iterator[Entry]:
        """How far boards enter one another under the cabinet's recipes: all that a carcass has of them."""
        boards = [self.job.boards[name].actual_mm for name in (cabinet.board, cabinet.shelf_board)]
        shop = with_finish(self.job.shop, cabinet.finish)
        for field_name in _NAMED_BY.values():
            for host, guest in product(boards, boards):
                yield entry_of(getattr(cabinet, field_name), host, guest, shop)


def _places(job: Job, of: Sequence[str]) -> frozenset[str]:
    """Where the joints stand that are compared; the corners of a mitred cabinet are mitres."""
    places = {COMPARED[word] for word in of}
    mitred = "corner" in places and any(cabinet.sides == "mitred" for cabinet in job.cabinets)
    return frozenset({*places, "mitre"} if mitred else places)


_NAMED_BY = {
    "corner": "corner_joint",
    "mitre": "corner_joint",
    "fixed shelf": "shelf_joint",
    "divider": "divider_joint",
}


def _recipe_at(cabinet: Cabinet, meeting: Meeting) -> Recipe | None:
    """The recipe that the cabinet names for a joint; None where it names none for this place."""
    named = _NAMED_BY.get(meeting.contact.place)
    return getattr(cabinet, named) if named is not None else None


def _alone(made: Made, id: str) -> Joined:
    """One joint of a cabinet with its machining."""
    return Joined(
        joints=tuple(j for j in made.joints if j.id == id),
        machining=tuple(m for m in made.machining if m.feature.joint == id),
    )


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


def set_out_with(text: str | bytes, file: str, family: str | None, beside: Beside = nothing_beside) -> Rod:
    """The Rod of a job with this family in place of every recipe of corners, shelves and dividers that it can make.

    None: with its own recipes. Boards that are cut are left out: they are cut for the joints of the job. Raises
    JobFaults; ValueError where there is no such family, or it can make none of them.
    """
    job, lines = read(text, file, beside)
    changes: dict[str, Any] = {} if family is None else _joined_by(family)
    changed = replace(job, measured=(), cabinets=tuple(replace(c, **changes) for c in job.cabinets))
    rod = draft(changed, *made(changed, lines, file))
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
