"""The dry fit on a terminal: the one sentence first, then lips, squareness, what costs the fit, and what to do."""

from pathlib import Path

from rich.console import Console
from rich.markup import escape

from rodwork.console import table, wide_console
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
from rodwork.model.dry_fit import NOT_MEASURED, CabinetFit, DryFit, sentence
from rodwork.model.finding import PRINTED
from rodwork.model.own_accuracy import TrialResult


def print_dry_fit(job: str, fit: DryFit) -> None:
    """Print the whole dry fit."""
    console = wide_console()
    console.print(f"[bold]{escape(job)}[/bold]   the dry fit on paper")
    for cabinet in fit.cabinets:
        _print_cabinet(console, cabinet, fit)
    for finding in fit.findings:
        console.print(f"[bold]{PRINTED[finding.severity]}[/bold]  {escape(finding.cabinet)}: {escape(finding.message)}")
        console.print(f"       {escape(finding.mend)}")
    if fit.cabinets:
        console.print(f"{fit.samples} assemblies on paper; seed {fit.seed} gives the same answer again.")


def print_before_and_after(job: str, family: str, before: DryFit, after: DryFit) -> None:
    """The job as it is, and as if this family joined it: side by side, then the whole of the second."""
    console = wide_console()
    console.print(f"[bold]{escape(job)}[/bold]   the dry fit on paper, as it is and joined by {escape(family)}")
    for now, then in zip(before.cabinets, after.cabinets, strict=True):
        console.print(f"\n[bold]{escape(now.cabinet + copies_words(now))}[/bold]")
        both = table("", ("", ""), ("before", ""), ("after", ""))
        for name, *cells in before_and_after(now, then, before.feel_mm):
            both.add_row(name, *(escape(cell) for cell in cells))
        console.print(both)
    print_dry_fit(job, after)


def _print_cabinet(console: Console, fit: CabinetFit, job: DryFit) -> None:
    copies = copies_words(fit)
    console.print(f"\n[bold]{escape(fit.cabinet + copies)}: {escape(sentence(fit, job.assumed))}[/bold]")
    console.print(boards_words(fit))
    for as_cut in fit.as_cut:
        size = f"{as_cut.dimension} {as_cut.measured_mm:.1f}, asked {as_cut.asked_mm:.1f}"
        console.print(f"[bold]{escape(as_cut.mark)}[/bold] {size}")
        for said in as_cut_lines(as_cut):
            console.print(f"  {escape(said)}")
    _print_lips(console, fit, job.feel_mm)
    for said in shape_lines(fit):
        console.print(said)
    if fit.remedies:
        console.print("Three things to do:" if len(fit.remedies) == 3 else "What to do:")
        for number, remedy in enumerate(fit.remedies, 1):
            console.print(f"  {number}. {escape(remedy.do)}: {escape(remedy.gains)}.")
    _print_costs(console, fit)


def _print_lips(console: Console, fit: CabinetFit, feel_mm: float) -> None:
    felt = [lip for lip in fit.lips if round(lip.worst_mm, 1) >= feel_mm]
    if not felt:
        console.print(NO_LIP)
        return
    lips = table("Lips, mm", ("between", ""), ("where", ""), ("lip", ""))
    for lip in felt:
        lips.add_row(escape(f"{lip.guest} and {lip.host}"), lip.place, lip_words(lip, feel_mm))
    console.print(lips)


def _print_costs(console: Console, fit: CabinetFit) -> None:
    if not fit.costs:
        return
    costs = table(
        "What costs the fit", ("source", ""), ("share", "right"), ("halved: in 100", "right"), ("perfect", "right")
    )
    costs.add_row("as it is", "", f"{100 * fit.chance:.0f}", "")
    for cost in fit.costs:
        costs.add_row(
            escape(cost.what), f"{100 * cost.share:.0f} %", f"{100 * cost.chance_if_halved:.0f}",
            f"{100 * cost.chance_if_perfect:.0f}",
        )  # fmt: skip
    console.print(costs)
    console.print(f"{chance_words(fit)} {escape(weakest_words(fit))}")


def print_accuracy(file: str, results: tuple[TrialResult, ...]) -> None:
    """What a shop's readings come to, and how little few of them prove."""
    console = wide_console()
    if not results:
        console.print(f"{NOT_MEASURED}: nothing is measured yet.")
        console.print("At the next real setting, cut or bore 2 offcuts; set it anew, 2 more; and once more. Then:")
        console.print(f"  rodwork accuracy {escape(file)} --of 'dowel jig' --setting '0.05 0.1' --setting '-0.1 -0.05'")
        return
    for r in results:
        settings = "one setting" if r.settings == 1 else f"{r.settings} settings"
        console.print(f"[bold]{escape(r.method)}, {r.kind}[/bold]: {r.readings} readings at {settings}")
        for said in r.proves:
            console.print(f"  {escape(said)}")
        console.print(
            f"  Assumed until now: {r.before.each.value:.2f} piece to piece, {r.before.shared.value:.2f} by setting."
        )
    console.print(f'Name the file in the job: \\[shop] accuracy = "{escape(Path(file).name)}"')
