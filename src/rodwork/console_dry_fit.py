"""The dry fit on a terminal: the one sentence first, then lips, squareness, what costs the fit, and what to do."""

from rich.console import Console
from rich.markup import escape

from rodwork.console import table, wide_console
from rodwork.model.dry_fit import AsCut, CabinetFit, DryFit, Square, lip_words, sentence
from rodwork.model.finding import PRINTED


def print_dry_fit(job: str, fit: DryFit) -> None:
    """Print the whole dry fit."""
    console = wide_console()
    console.print(f"[bold]{escape(job)}[/bold]   the dry fit on paper")
    for cabinet in fit.cabinets:
        _print_cabinet(console, cabinet, fit)
    for finding in fit.findings:
        console.print(f"[bold]{PRINTED[finding.severity]}[/bold]  {escape(finding.cabinet)}: {escape(finding.message)}")
        console.print(f"       {escape(finding.mend)}")
    console.print(f"{fit.samples} assemblies on paper; seed {fit.seed} gives the same answer again.")


def _print_cabinet(console: Console, fit: CabinetFit, job: DryFit) -> None:
    copies = "" if len(fit.copies) == 1 else f" ({len(fit.copies)} of them)"
    console.print(f"\n[bold]{escape(fit.cabinet)}{copies}: {escape(sentence(fit, job.assumed))}[/bold]")
    console.print(f"As cut so far: {fit.boards_measured} of {fit.boards} boards measured.")
    for as_cut in fit.as_cut:
        _print_as_cut(console, as_cut)
    _print_lips(console, fit, job.feel_mm)
    for square in fit.squareness:
        console.print(square_words(square))
    if fit.remedies:
        console.print("Three things to do:" if len(fit.remedies) == 3 else "What to do:")
        for number, remedy in enumerate(fit.remedies, 1):
            console.print(f"  {number}. {escape(remedy.do)}: {escape(remedy.gains)}.")
    _print_costs(console, fit)


def _print_as_cut(console: Console, as_cut: AsCut) -> None:
    mates = f"; cut of its mates: {', '.join(as_cut.mates)}" if as_cut.mates else ""
    console.print(
        f"[bold]{escape(as_cut.mark)}[/bold] {as_cut.dimension} {as_cut.measured_mm:.1f}, asked {as_cut.asked_mm:.1f}"
        f"{escape(mates)}"
    )
    if as_cut.warning:
        console.print(f"  {escape(as_cut.warning)}")
    for said in as_cut.does:
        console.print(f"  {escape(said)}")
    for number, way in enumerate(as_cut.ways, 1):
        console.print(f"  {number}. {escape(way.do)} {escape(way.gains)} {way.minutes:g} minutes.")


def _print_lips(console: Console, fit: CabinetFit, feel_mm: float) -> None:
    felt = [lip for lip in fit.lips if lip.worst_mm >= feel_mm - 0.05]
    if not felt:
        console.print("No lip that a finger finds, at any corner or front.")
        return
    lips = table("Lips, mm", ("between", ""), ("where", ""), ("lip", ""))
    for lip in felt:
        lips.add_row(escape(f"{lip.guest} and {lip.host}"), lip.place, lip_words(lip, feel_mm))
    console.print(lips)


def square_words(square: Square) -> str:
    """One number of squareness with its range, as a maker says it."""
    half = max(abs(square.low_mm), abs(square.high_mm))
    name = {"diagonals": "Diagonals differ by", "width": "Wider at the top by", "height": "Taller at the left by"}
    middle = f"{square.mean_mm:+.1f}, " if abs(square.mean_mm) >= 0.05 else ""
    pull = ""
    if square.pull_low_mm is not None and square.pull_high_mm is not None:
        pull = f"; pulling can change them by {abs(square.pull_high_mm - square.pull_low_mm) / 2:.1f} either way"
    return f"{name[square.name]} {middle}{half:.1f} at most in 95 of 100{pull}."


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
    low, high = fit.band
    console.print(
        f"In 100: {100 * fit.chance:.0f} go together, between {100 * low:.0f} and {100 * high:.0f} for all that is "
        f"known of the shop. Weakest joint: {escape(fit.weakest)}."
    )
