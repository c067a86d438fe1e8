"""The command. The only place that reads and writes files; heavy imports wait until a command needs them."""

import io
import json
import os
import sys
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

import click

from rodwork import __version__

if TYPE_CHECKING:
    from click._termui_impl import ProgressBar

    from rodwork.job.faults import JobFaults
    from rodwork.model.costing import Comparison
    from rodwork.model.dry_fit import DryFit
    from rodwork.model.rod import Rod

Made = TypeVar("Made")
SOUND, TO_PUT_RIGHT, NOT_READ = 0, 1, 2
CORES = min(os.cpu_count() or 1, 2)
SAMPLES = 2000  # of a pack; the default of dry-fit
LARGEST_FILE = 32 * 1024 * 1024  # never pull more than this into memory; the reader refuses far less, in words


class _Figure(click.ParamType[float]):
    """A number from `least` to `most`, refused in plain words where it is none; whole, if these two are."""

    name = "number"

    def __init__(self, least: float, most: float):
        self.least, self.most = least, most
        self.whole = isinstance(least, int) and isinstance(most, int)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        """The number, or a refusal that says what is taken."""
        kind = "whole number" if self.whole else "number"
        takes = f"Write a {kind} from {self.least:,.12g} to {self.most:,.12g}.".replace(",", " ")
        try:
            number = int(value) if self.whole else float(value)
        except ValueError:
            self.fail(f"{value} is not a {kind}. {takes}", param, ctx)
        if not self.least <= number <= self.most:  # nan lies nowhere
            self.fail(f"{value} is out of range. {takes}", param, ctx)
        return number


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="rodwork")
def main() -> None:
    """From one description of a cupboard to a pack it can be made from.

    Write a job file with `rodwork new kitchen.toml`, look at it with `rodwork set-out kitchen.toml`, and
    print the papers for the bench with `rodwork pack kitchen.toml -o packs`.
    """


@main.command(short_help="Write a starter job to FILE.")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--family", is_flag=True, help="Write a family of joints to change into one of your own.")
def new(file: Path, family: bool) -> None:
    """Write a commented starter job to FILE, and beside it the schema that lets an editor complete it."""
    from rodwork.job.starter import family_starter, starter
    from rodwork.pipeline import family_schema, schema

    if not file.name:
        _stop("The file has no name. Write one that ends in .toml, such as kitchen.toml")
    if file.suffix != ".toml":
        _stop(f"{file}: a job file's name ends in .toml. Write it as {file.with_suffix('.toml')}")
    _write_new(file, family_starter() if family else starter(file.stem))
    schema_file = file.with_name("rodwork-family.schema.json" if family else "rodwork-job.schema.json")
    made = family_schema() if family else schema()
    _write(schema_file, (json.dumps(made, indent=2, ensure_ascii=False) + "\n").encode())
    if family:
        click.echo(
            f'{file} is a family of joints: change it to suit, then name it in a job: families = ["{file.name}"]'
        )
    else:
        click.echo(f"{file} is a starter job: change it to suit, then run\n  rodwork set-out {file}")
    click.echo(f"{schema_file.name} beside it lets an editor complete and check the file.")


@main.command("set-out", short_help="Boards, joints, settings, and what to put right.")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the whole set-out as data.")
def set_out_command(job: Path, as_json: bool) -> None:
    """Parts, joints, machine settings, and what to put right, for JOB."""
    rod = _with_demands(_set_out(job), job)
    if as_json:
        click.echo(json.dumps(rod.to_dict(), ensure_ascii=False))
    else:
        from rodwork.console import print_rod

        print_rod(rod)
    sys.exit(_outcome(rod))


@main.command(short_help="The papers for the bench, and lists, DXF and 3D.")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("-o", "--out", "folder", type=click.Path(path_type=Path), required=True, help="Folder to write to.")
@click.option("--dxf", type=click.Choice(["R12", "R2010"]), default="R12", show_default=True, help="DXF release.")
@click.option("--json", "as_json", is_flag=True, help="Print the names of the written files as data.")
def pack(job: Path, folder: Path, dxf: str, as_json: bool) -> None:
    """The papers for the bench of JOB: one PDF, and beside it lists, DXF, 3D and the set-out as data."""
    _one_thread_for_algebra()
    from rodwork.model.results import Results
    from rodwork.packing import pack_files
    from rodwork.pipeline import cutting as plan_cutting
    from rodwork.pipeline import load as load_rod
    from rodwork.pipeline import with_findings

    rod = _set_out(job)
    _folder(folder)
    say = _progress(as_json)
    say("laying the boards out on sheets")
    cutting_plan, loading = plan_cutting(rod), load_rod(rod)
    say("putting it together on paper")
    fit = _dry_fit(rod, job, SAMPLES, 1, lambda n: None) if any(c.joints for c in rod.boxes) else None
    rod = rod if fit is None else with_findings(rod, fit.findings)
    results = Results(cutting=cutting_plan, loading=loading, dry_fit=fit)
    written = []
    for name, content in pack_files(rod, "R2010" if dxf == "R2010" else "R12", say, results):
        target = folder / name
        _write(target, content)
        written.append(str(target))
    if as_json:
        click.echo(json.dumps({"files": written, "findings": [f.code for f in rod.findings]}))
    else:
        click.echo(f"{written[0]} is the pack of {rod.job}; {len(written) - 1} more files lie beside it.")
        _say_findings(rod)
    sys.exit(_outcome(rod))


@main.command(short_help="The ways of joining it side by side, the cheapest first.")
@click.argument("job", type=click.Path(path_type=Path))
@click.option(
    "--of",
    "joints",
    multiple=True,
    type=click.Choice(["corners", "shelves", "dividers"]),
    help="Which joints to compare; all of them if left out. May be given more than once.",
)
@click.option(
    "--want",
    "wants",
    multiple=True,
    type=click.Choice(["demountable", "nothing shows", "no glue on site", "tools I own"]),
    help="Leave out what is not so. May be given more than once.",
)
@click.option(
    "--sort",
    type=click.Choice(["money", "minutes", "accuracy", "clamps"]),
    default="money",
    show_default=True,
    help="What comes first.",
)
@click.option("--dry-fit", "fits", is_flag=True, help="How often each goes together in this shop.")
@click.option("--long", is_flag=True, help="Every line that stands behind a figure as well.")
@click.option(
    "-o",
    "--out",
    "file",
    type=click.Path(path_type=Path),
    help="Write FILE.pdf, the pages, or FILE.svg, the picture of costs alone.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the comparison as data.")
def compare(
    job: Path,
    joints: tuple[str, ...],
    wants: tuple[str, ...],
    sort: str,
    fits: bool,
    long: bool,
    file: Path | None,
    as_json: bool,
) -> None:
    """The ways of joining JOB side by side: its own recipes, and every family alone, the cheapest first."""
    if file is not None and file.suffix not in (".pdf", ".svg"):
        _stop(f"{file}: -o takes a name in .pdf for the pages, or in .svg for the picture of costs alone")
    from rodwork.comparing import COMPARED
    from rodwork.comparing import compare as compare_ways

    def read(text: bytes) -> "tuple[Rod, Comparison]":
        return compare_ways(
            text, str(job), _beside(job), joints or tuple(COMPARED), wants, sort, _progress(as_json),
            (lambda rod: _least_chance(rod, job)) if fits else None,
        )  # fmt: skip

    rod, compared = _read_by(read, job)
    if file is not None:
        from rodwork.packing import comparison_file

        _write(file, comparison_file(rod, compared, file.suffix))
    if as_json:
        click.echo(json.dumps(compared.to_dict(), ensure_ascii=False))
    else:
        from rodwork.console_compare import print_comparison

        print_comparison(compared, long)
    sys.exit(SOUND if compared.all else TO_PUT_RIGHT)


@main.command(short_help="Will it hold: shelves, joints, the wall, tipping, lifting.")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the whole load as data.")
def load(job: Path, as_json: bool) -> None:
    """Will it hold: shelves, joints, the box, the wall, tipping and lifting, for JOB."""
    from rodwork.pipeline import load as load_rod

    rod = _set_out(job)
    loading = load_rod(rod)
    if as_json:
        from rodwork.model.plain import to_plain

        click.echo(json.dumps(to_plain(loading), ensure_ascii=False))
    else:
        from rodwork.console_load import print_loading

        print_loading(rod.job, loading)
    bad = any(f.severity in ("fault", "warning") for f in loading.findings)
    sys.exit(TO_PUT_RIGHT if bad else SOUND)


@main.command(short_help="What is read off the level line: the largest unit, scribes.")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print surveys and what stands in them as data.")
def survey(job: Path, as_json: bool) -> None:
    """What the readings off the level line come to: the largest upright box, gaps, scribes and feet, for JOB."""
    from rodwork.pipeline import surveyed

    rod = _set_out(job)
    found = surveyed(rod)
    if as_json:
        from rodwork.model.plain import to_plain

        click.echo(json.dumps(to_plain(found), ensure_ascii=False))
    else:
        from rodwork.console_survey import print_surveys

        print_surveys(rod, found)
    bad = any(f.severity in ("fault", "warning") for one in found for f in one.findings)
    sys.exit(TO_PUT_RIGHT if bad else SOUND)


@main.command("dry-fit", short_help="Will it go together, flush and square, in this shop.")
@click.argument("job", type=click.Path(path_type=Path))
@click.option(
    "--samples", type=_Figure(100, 1_000_000), metavar="N", default=SAMPLES, show_default=True, help="How many."
)
@click.option("--seed", type=_Figure(0, 2**31), metavar="N", default=1, show_default=True, help="Other chances.")
@click.option("--joint", "family", metavar="FAMILY", help="As if corners, shelves and dividers were all joined so.")
@click.option("--cut", "cut", multiple=True, metavar="'MARK SIZE'", help="A board as cut, such as 'G1-T 564.1'.")
@click.option("--json", "as_json", is_flag=True, help="Print the whole dry fit as data.")
def dry_fit_command(
    job: Path, samples: int, seed: int, family: str | None, cut: tuple[str, ...], as_json: bool
) -> None:  # fmt: skip
    """Will it go together, flush and square, in this shop: the dry fit of JOB on paper."""
    _one_thread_for_algebra()
    if family is not None and cut:
        _stop("--cut and --joint do not go together: what is cut is cut for the joints of the job. Leave one out")
    rods = [_set_out(job, cut)] if family is None else [_set_out_with(job, None), _set_out_with(job, family)]
    total = samples * max(1, sum(1 for rod in rods for cabinet in rod.boxes if cabinet.joints))
    with _bar(total, as_json, "putting it together on paper") as bar:
        before, *after = (_dry_fit(rod, job, samples, seed, bar.update) for rod in rods)
    if as_json:
        from rodwork.model.plain import to_plain

        as_data = {"before": before, "after": after[0]} if after else before
        click.echo(json.dumps(to_plain(as_data), ensure_ascii=False))
    else:
        from rodwork.console_dry_fit import print_before_and_after, print_dry_fit

        if after:
            print_before_and_after(rods[0].job, family or "", before, after[0])
        else:
            print_dry_fit(rods[0].job, before)
    bad = any(f.severity in ("fault", "warning") for f in (after[0] if after else before).findings)
    sys.exit(TO_PUT_RIGHT if bad else SOUND)


@main.command(short_help="How true the shop works: readings of test pieces.")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--of", "method", metavar="METHOD", help="What was measured, such as 'dowel jig' or 'sawing to length'.")
@click.option(
    "--kind", default="across", show_default=True, help="Which error of it: size, across, stop, marks, depth."
)
@click.option("--setting", "settings", multiple=True, metavar="'MM MM ..'", help="Pieces of one setting, mm off it.")
@click.option("--csv", "table", type=click.Path(path_type=Path), help="A table: method, kind, setting, reading.")
@click.option("--json", "as_json", is_flag=True, help="Print what they come to as data.")
def accuracy(
    file: Path, method: str | None, kind: str, settings: tuple[str, ...], table: Path | None, as_json: bool
) -> None:  # fmt: skip
    """How true the shop works: readings of test pieces and first-offs, kept in FILE, which a job names.

    Three settings of two offcuts, at the next real setting, are a beginning; eight of three are the whole test; the
    first-off of every job after makes it surer. A reading is how far a piece came off what the machine was set to.
    """
    _one_thread_for_algebra()
    from rodwork.console_dry_fit import print_accuracy
    from rodwork.model.own_accuracy import AccuracyFault
    from rodwork.own_accuracy import check_way, own_accuracy, readings_of

    if settings and method is None:
        _stop("--setting is of no known machine. Say --of 'dowel jig', or another way of working")
    before = _text(file) if file.exists() else None
    try:
        if method is not None and not settings:
            check_way(method, kind)
            settings = _typed_settings(method, kind)
        taken = readings_of(method, kind, settings, None if table is None else _text(table), str(table))
        results, text = own_accuracy(before, str(file), taken)
    except AccuracyFault as problem:
        _stop(str(problem))
    if taken:
        _write(file, text.encode())
    if as_json:
        from rodwork.model.plain import to_plain

        click.echo(json.dumps({"file": str(file), "results": to_plain(results)}, ensure_ascii=False))
    else:
        print_accuracy(str(file), results)


def _typed_settings(method: str, kind: str) -> tuple[str, ...]:
    """Readings typed one setting after another; an empty line ends them, or the end of what is piped in."""
    click.echo(
        f"{method}, {kind}: set the machine anew for each line; how far each piece came off it, mm. Empty: done."
    )
    out: list[str] = []
    while True:
        click.echo(f"setting {len(out) + 1}: ", nl=False)
        line = sys.stdin.readline().strip()
        if not line:
            break
        out.append(line)
    if not out:
        click.echo()
        _stop("No reading was typed, and nothing was written. Type how far each piece came off, in mm: 0.1 -0.05")
    return tuple(out)


@main.command(short_help="How it comes out of the boards: every cut in order.")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--saw", type=click.Choice(["track saw", "panel saw", "router"]), help="Another saw than the job's own.")
@click.option("--kerf", type=_Figure(0.0, 20.0), metavar="MM", help="What the blade takes, in place of the job's.")
@click.option(
    "--seconds",
    type=_Figure(0.1, 3600.0),
    metavar="S",
    default=10.0,
    show_default=True,
    help="How long to look, in all.",
)
@click.option(
    "--seed", type=_Figure(1, 1_000_000), metavar="N", default=1, show_default=True, help="Look in another order."
)
@click.option(
    "--begun", type=click.Path(path_type=Path), metavar="PLAN", help="A plan that is begun, as --json gave it."
)
@click.option("--recut", multiple=True, metavar="MARK", help="With --begun: a board to cut anew from what is left.")
@click.option("-o", "--out", "folder", type=click.Path(path_type=Path), help="Write pages, lists and drawings here.")
@click.option("--json", "as_json", is_flag=True, help="Print the plan as data.")
def cutting(
    job: Path, saw: str | None, kerf: float | None, seconds: float, seed: int, begun: Path | None,
    recut: tuple[str, ...], folder: Path | None, as_json: bool,
) -> None:  # fmt: skip
    """How it comes out of the boards: sheets, cuts in order, what is left, for JOB. Ctrl-C keeps the best so far."""
    from rodwork.cutting_run import begun_plan, saw_of, search

    rod = _set_out(job)
    if (recut and begun is None) or (begun is not None and not recut):
        _stop("--begun and --recut go together: the plan that is begun, and the boards to cut anew")
    if folder is not None:
        _folder(folder)
    if begun is not None:
        from rodwork.pipeline import recut as recut_plan

        try:
            plan = recut_plan(rod, begun_plan(_read(begun)), recut)
        except ValueError as problem:
            _stop(f"{begun} is not a cutting plan: {problem}. Write it with rodwork cutting {job} --json")
    else:
        plan = search(rod, saw_of(rod, saw, kerf), seconds, seed, _progress(as_json))
    if as_json:
        from rodwork.model.plain import to_plain

        click.echo(json.dumps(to_plain(plan), ensure_ascii=False))
    else:
        from rodwork.console_cutting import print_plan

        print_plan(rod.job, plan)
    if folder is not None:
        from rodwork.packing import cutting_plan_files

        for name, content in cutting_plan_files(rod, plan, "R12"):
            _write(folder / name, content)
    bad = any(f.severity in ("fault", "warning") for f in plan.findings)
    sys.exit(TO_PUT_RIGHT if bad else SOUND)


@main.command(short_help="Let the shell complete these words.")
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print what makes SHELL complete rodwork's words; add it to the shell's start-up file."""
    from click.shell_completion import get_completion_class

    maker = get_completion_class(shell)
    assert maker is not None
    click.echo(maker(main, {}, "rodwork", "_RODWORK_COMPLETE").source())


def _set_out(job: Path, cut: tuple[str, ...] = ()) -> "Rod":
    """The Rod of a job file and of boards as cut that were typed, or every fault in them and exit 2."""
    from rodwork.pipeline import set_out

    return _read_by(lambda text: set_out(text, str(job), _beside(job), cut), job)


def _dry_fit(rod: "Rod", job: Path, samples: int, seed: int, done: Callable[[int], None]) -> "DryFit":
    """The dry fit with the shop's own accuracies, where the job names the file of them."""
    from rodwork.model.own_accuracy import AccuracyFault
    from rodwork.pipeline import dry_fit

    try:
        return dry_fit(rod, _accuracy_of(rod, job), samples, seed, CORES, lambda cabinet, n: done(n))
    except AccuracyFault as problem:
        _stop(str(problem))


def _least_chance(rod: "Rod", job: Path) -> float | None:
    """How often the worst cabinet goes together, with the shop's own accuracies where there are any."""
    _one_thread_for_algebra()
    from rodwork.model.own_accuracy import AccuracyFault
    from rodwork.own_accuracy import least_chance

    try:
        return least_chance(rod, _accuracy_of(rod, job))
    except AccuracyFault as problem:
        _stop(str(problem))


def _with_demands(rod: "Rod", job: Path) -> "Rod":
    """Where the shop has measured how true it works: the Rod with what demands more than that."""
    accuracy = _accuracy_of(rod, job)
    if accuracy is None:
        return rod
    _one_thread_for_algebra()
    from rodwork.model.own_accuracy import AccuracyFault
    from rodwork.own_accuracy import too_demanding
    from rodwork.pipeline import with_findings

    try:
        return with_findings(rod, too_demanding(rod, accuracy))
    except AccuracyFault as problem:
        _stop(str(problem))


def _accuracy_of(rod: "Rod", job: Path) -> str | None:
    """The text of the shop's own readings, which lie beside the job that names them."""
    return None if rod.shop.accuracy is None else _text(job.parent / rod.shop.accuracy)


def _text(file: Path) -> str:
    try:
        return _read(file).decode("utf-8")
    except UnicodeDecodeError:
        _stop(f"{file} is not text in UTF-8. Save it so (Save as, CSV UTF-8 or Encoding: UTF-8)")


def _set_out_with(job: Path, family: str | None) -> "Rod":
    """The Rod of a job file before a board is cut, joined otherwise if need be; or what is wrong and exit 2."""
    from rodwork.comparing import set_out_with

    try:
        return _read_by(lambda text: set_out_with(text, str(job), family, _beside(job)), job)
    except ValueError as problem:
        _stop(str(problem))


def _one_thread_for_algebra() -> None:
    """The dry fit runs its own threads, chunk by chunk; those of the algebra beneath would only be in their way."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


def _bar(total: int, quiet: bool, what: str) -> "AbstractContextManager[ProgressBar[int]]":
    """A bar on a terminal; nothing in a pipe."""
    hidden = quiet or not sys.stderr.isatty()
    return click.progressbar(length=total, label=what, file=io.StringIO() if hidden else sys.stderr)


def _read_by(reader: Callable[[bytes], Made], job: Path) -> Made:
    """What a reader makes of a job file, or every fault in the file and exit 2."""
    from rodwork.job.faults import JobFaults

    try:
        return reader(_read(job))
    except JobFaults as problem:
        _not_read(problem)


def _not_read(problem: "JobFaults") -> NoReturn:
    for fault in problem.faults:
        click.echo(str(fault), err=True)
    n = len(problem.faults)
    if n > 1:
        click.echo(f"{n} things to put right in the file; nothing was made from it.", err=True)
    sys.exit(NOT_READ)


def _beside(job: Path) -> Callable[[str], bytes]:
    """What reads a file that a job names, from the job's own folder."""

    def fetch(name: str) -> bytes:
        with (job.parent / name).open("rb") as stream:
            return stream.read(LARGEST_FILE)

    return fetch


def _read(file: Path) -> bytes:
    try:
        with file.open("rb") as stream:
            return stream.read(LARGEST_FILE)
    except FileNotFoundError:
        starter = f". `rodwork new {file}` writes a starter" if file.suffix == ".toml" else ""
        _stop(f"{file}: there is no such file{starter}")
    except IsADirectoryError:
        _stop(f"{file} is a folder. Name the job file in it")
    except OSError as error:
        _stop(f"{file} cannot be read: {error.strerror or error}")


def _write_new(file: Path, text: str) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with file.open("x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        _stop(f"{file} is there already and was left as it is. Choose another name")
    except OSError as error:
        _stop(f"{file} cannot be written: {error.strerror or error}")


def _folder(folder: Path) -> None:
    if folder.exists() and not folder.is_dir():
        _stop(f"{folder} is a file. Give -o the name of a folder")


def _write(file: Path, content: bytes) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
    except OSError as error:
        _stop(f"{file} cannot be written: {error.strerror or error}")


def _stop(message: str) -> NoReturn:
    click.echo(message if message.endswith("?") else f"{message}.", err=True)
    sys.exit(NOT_READ)


def _outcome(rod: "Rod") -> int:
    return TO_PUT_RIGHT if any(f.severity in ("fault", "warning") for f in rod.findings) else SOUND


def _say_findings(rod: "Rod") -> None:
    from rodwork.model.finding import PRINTED, alike

    groups = alike(rod.findings)
    counts = {PRINTED[s]: sum(1 for group in groups if group[0].severity == s) for s in PRINTED}
    said = ", ".join(f"{n} {word}" for word, n in counts.items() if n)
    if said:
        click.echo(f"To put right: {said}. They stand on the first pages.")


def _progress(quiet: bool) -> Callable[[str], None]:
    """Say on a terminal what is being written; nothing in a pipe."""

    def say(what: str) -> None:
        if not quiet and sys.stderr.isatty():
            click.echo(f"\r\033[K{what}", nl=not what, err=True)

    return say
