"""What a shop's own readings come to, and what they say of a job. Raises AccuracyFault where they are no readings.

The dry fit itself is in pipeline.py. numpy and numba come with it: they are asked for where they are needed alone.
"""

from collections.abc import Callable, Sequence

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.job.faults import JobFaults, fault_at, shown
from rodwork.job.reader import Lines
from rodwork.model.accuracy import Accuracy
from rodwork.model.finding import Finding
from rodwork.model.job import Job
from rodwork.model.own_accuracy import AccuracyFault, Readings, TrialResult
from rodwork.model.rod import Rod


def check_way(method: str, kind: str) -> None:
    """Whether there is such a way of working with such an error. Raises AccuracyFault where there is none."""
    from rodwork.fit.measuring import known_method

    known_method(method, kind, assumed_accuracy())


def readings_of(
    method: str | None, kind: str, settings: Sequence[str], table: str | None, where: str
) -> tuple[Readings, ...]:
    """Readings as typed, a text for each setting, and those of a table. Raises AccuracyFault."""
    from rodwork.fit.readings import read_csv, read_numbers

    typed = tuple(read_numbers(text, f"setting {n}") for n, text in enumerate(settings, 1))
    own = (Readings(method=method, kind=kind, settings=typed),) if method is not None and typed else ()
    return (*own, *(read_csv(table, where) if table is not None else ()))


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
    from rodwork.fit.measuring import file_of, joined, result_of
    from rodwork.fit.readings import readings_in

    kept = () if before is None else readings_in(before, where)
    readings = joined((*kept, *taken))
    results = tuple(result_of(r, assumed_accuracy()) for r in readings)
    return results, file_of(results, readings)


def accuracy_along_runs(job: Job, lines: Lines, file: str, beside: Callable[[str], bytes]) -> Accuracy | None:
    """How true the shop works by the file that the job names, where there are runs for it to add up along; else None.

    Raises JobFaults where there is no such file or it has no readings.
    """
    if not job.runs or job.shop.accuracy is None:
        return None
    from rodwork.fit.measuring import shop_accuracy

    try:
        return shop_accuracy(assumed_accuracy(), beside(job.shop.accuracy).decode("utf-8"), job.shop.accuracy)
    except OSError:
        what, mend = "it cannot be read", "Write the name of a file beside this one, as `rodwork accuracy` makes it"
    except UnicodeDecodeError:
        what, mend = "it is not text in UTF-8", "Save it so"
    except AccuracyFault as problem:
        what, mend = problem.what, problem.mend
    what = f"the shop's own readings, {shown(job.shop.accuracy)}: {what}"
    raise JobFaults((fault_at(lines, file, ("shop", "accuracy"), what, mend),))
