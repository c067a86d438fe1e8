"""The dry fit on a terminal: the one sentence first, then lips, squareness, what costs the fit, and what to do."""

from pathlib import Path

from rich.console import Console

from rodwork.documents.dry_fit_words import (
    NO_LIP,
    as_cut_lines,
    before_and_after,
    boards_words,
    chance_words,
    copies_words,
    lip_words,
    shape_lines,
    weakest_words,
)
from rodwork.documents.load_words import begun
from rodwork.model.dry_fit import NOT_MEASURED, CabinetFit, DryFit, sentence
from rodwork.model.own_accuracy import TrialResult
from rodwork.terminal import print_findings, print_table, say, wide_console

LIPS = (("between", False), ("where", False), ("lip", False))
COSTS = (("source", False), ("share", True), ("halved: in 100", True), ("perfect", True))
BOTH = (("", False), ("before", False), ("after", False))


def print_dry_fit(job: str, fit: DryFit) -> None:
    """Print the whole dry fit."""
    console = wide_console()
    say(console, "the dry fit on paper", f"{job}   ", lead_style="bold")
    for cabinet in fit.cabinets:
        _print_cabinet(console, cabinet, fit)
    print_findings(console, fit.findings)
    if fit.cabinets:
        say(console, f"{fit.samples} assemblies on paper; seed {fit.seed} gives the same answer again.")


def print_before_and_after(job: str, family: str, before: DryFit, after: DryFit) -> None:
    """The job as it is, and as if this family joined it: side by side, then the whole of the second."""
    console = wide_console()
    say(console, f"the dry fit on paper, as it is and joined by {family}", f"{job}   ", lead_style="bold")
    for now, then in zip(before.cabinets, after.cabinets, strict=True):
        console.print()
        say(console, now.cabinet + copies_words(now), style="bold")
        print_table(console, "", BOTH, before_and_after(now, then, before.feel_mm))
    print_dry_fit(job, after)


def _print_cabinet(console: Console, fit: CabinetFit, job: DryFit) -> None:
    console.print()
    say(console, f"{fit.cabinet}{copies_words(fit)}: {sentence(fit, job.assumed)}", style="bold")
    say(console, boards_words(fit))
    for as_cut in fit.as_cut:
        size = f"{as_cut.dimension} {as_cut.measured_mm:.1f}, asked {as_cut.asked_mm:.1f}"
        say(console, size, f"{as_cut.mark} ", lead_style="bold")
        for said in as_cut_lines(as_cut):
            say(console, said, "  ")
    _print_lips(console, fit, job.feel_mm)
    for said in shape_lines(fit):
        say(console, said)
    if fit.remedies:
        say(console, "Three things to do:" if len(fit.remedies) == 3 else "What to do:")
        for number, remedy in enumerate(fit.remedies, 1):
            say(console, f"{begun(remedy.do)}: {remedy.gains}.", f"  {number}. ")
    _print_costs(console, fit)


def _print_lips(console: Console, fit: CabinetFit, feel_mm: float) -> None:
    felt = [lip for lip in fit.lips if round(lip.worst_mm, 1) >= feel_mm]
    if not felt:
        say(console, NO_LIP)
        return
    rows = ((f"{lip.guest} and {lip.host}", lip.place, lip_words(lip, feel_mm)) for lip in felt)
    print_table(console, "Lips, mm", LIPS, rows)


def _print_costs(console: Console, fit: CabinetFit) -> None:
    if not fit.costs:
        return
    costs = [
        (
            cost.what, f"{100 * cost.share:.0f} %", f"{100 * cost.chance_if_halved:.0f}",
            f"{100 * cost.chance_if_perfect:.0f}",
        )
        for cost in fit.costs
    ]  # fmt: skip
    print_table(console, "What costs the fit", COSTS, [("as it is", "", f"{100 * fit.chance:.0f}", ""), *costs])
    say(console, f"{chance_words(fit)} {weakest_words(fit)}")


def print_accuracy(file: str, results: tuple[TrialResult, ...]) -> None:
    """What a shop's readings come to, and how little few of them prove."""
    console = wide_console()
    if not results:
        say(console, f"{NOT_MEASURED}: nothing is measured yet.")
        say(console, "At the next real setting, cut or bore 2 offcuts; set it anew, 2 more; and once more. Then:")
        # a line to copy is never broken
        console.print(
            f"  rodwork accuracy {file} --of 'dowel jig' --setting '0.05 0.1' --setting '-0.1 -0.05'",
            markup=False, soft_wrap=True,
        )  # fmt: skip
        return
    for r in results:
        settings = "one setting" if r.settings == 1 else f"{r.settings} settings"
        say(console, f"{r.readings} readings at {settings}", f"{r.method}, {r.kind}: ", lead_style="bold")
        for said in r.proves:
            say(console, said, "  ")
        each, shared = r.before.each.value, r.before.shared.value
        say(console, f"Assumed until now: {each:.2f} piece to piece, {shared:.2f} by setting.", "  ")
    say(console, f'Name the file in the job: [shop] accuracy = "{Path(file).name}"')
