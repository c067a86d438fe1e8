"""The dry fit in words, the same on paper and on the terminal."""

from collections.abc import Iterable, Iterator

from rodwork.model.dry_fit import AsCut, CabinetFit, Lip, Mitres, Square, word_of

HISTOGRAMS = {
    "lip": "Worst lip of each assembly, mm", "diagonals": "Diagonals differ by, mm",
    "width": "Wider at the top by, mm", "height": "Taller at the left by, mm",
}  # fmt: skip
NO_LIP = "No lip that a finger finds, at any corner or front."
MOSTLY = 0.7  # so often on one side, and that side is named
_SQUARE = {"diagonals": "Diagonals differ by", "width": "Wider at the top by", "height": "Taller at the left by"}


def boards_words(fit: CabinetFit) -> str:
    """How much of it is known."""
    return f"As cut so far: {fit.boards_measured} of {fit.boards} boards measured."


def copies_words(fit: CabinetFit) -> str:
    """Which copies are meant, where there are several."""
    return "" if len(fit.copies) == 1 else f" ({len(fit.copies)} of them)"


def lip_words(lip: Lip, feel_mm: float) -> str:
    """A lip as a maker says it: in tenths, and whether a finger finds it."""
    likely, worst = round(lip.likely_mm, 1), round(lip.worst_mm, 1)
    if worst < feel_mm:
        return "flush to a finger"
    usual = f"{likely:.1f}" if likely else "mostly flush"
    return f"{usual}, at worst {worst:.1f}: you {'will' if likely >= feel_mm else 'may'} feel it"


def worst_lip_words(lip: Lip, feel_mm: float) -> str:
    """The worst lip and where it is, if it is one that is felt."""
    if round(lip.worst_mm, 1) < feel_mm:
        return NO_LIP
    return f"Worst lip: {lip.guest} on {lip.host}, {lip.place}: {lip_words(lip, feel_mm)}."


def weakest_words(fit: CabinetFit) -> str:
    """Where it fails first."""
    return f"Weakest joint: {fit.weakest.guest} on {fit.weakest.host}."


def chance_words(fit: CabinetFit) -> str:
    """The chance with the range that is known, and how many assemblies needed reckoning in another way."""
    known = f"In 100 go together: {100 * fit.chance:.0f}, for all that is known of the shop {_range_words(fit)}."
    again = f" {fit.resolved} of the assemblies were reckoned a second, slower way." if fit.resolved else ""
    return known + again


def square_words(square: Square) -> str:
    """One number of squareness with its range."""
    half = max(abs(square.low_mm), abs(square.high_mm))
    middle = f"{square.mean_mm:+.1f}; " if abs(square.mean_mm) >= 0.05 else ""
    pull = ""
    if square.pull_low_mm is not None and square.pull_high_mm is not None:
        pull = f"; pulling can change that by {abs(square.pull_high_mm - square.pull_low_mm) / 2:.1f} either way"
    return f"{_SQUARE[square.name]} {middle}{half:.1f} at most in 95 of 100{pull}."


def mitres_words(mitres: Mitres) -> str:
    """How far mitred corners gape before clamps, and on which side."""
    if mitres.worst_mm < 0.05:
        return "Mitres close all along before any clamp bends them."
    if mitres.outside > MOSTLY:
        where = "outside, where it is seen"
    else:
        where = "at the inside" if mitres.outside < 1 - MOSTLY else "inside or outside alike"
    likely = f"{mitres.likely_mm:.1f}" if mitres.likely_mm >= 0.05 else "hardly"
    return f"Mitres, before clamps bend them: {likely} open, at worst {mitres.worst_mm:.1f}, {where}."


def shape_lines(fit: CabinetFit) -> Iterator[str]:
    """How square it comes, and how its mitres close."""
    yield from (square_words(square) for square in fit.squareness)
    if fit.mitres is not None:
        yield mitres_words(fit.mitres)


def before_and_after(before: CabinetFit, after: CabinetFit, feel_mm: float) -> Iterator[tuple[str, str, str]]:
    """What a maker would compare: in words, in a hundred, where it is weakest, the worst lip, and each squareness."""
    fits = (before, after)
    yield ("goes together", *_two(word_of(fit.chance) for fit in fits))
    yield ("in 100", *_two(f"{100 * fit.chance:.0f} ({_range_words(fit)})" for fit in fits))
    yield ("weakest joint", *_two(f"{fit.weakest.guest} on {fit.weakest.host}" for fit in fits))
    yield ("worst lip", *_two(lip_words(fit.worst_lip, feel_mm) if fit.worst_lip else "none" for fit in fits))
    for name, words in _SQUARE.items():
        found = [next((s for s in fit.squareness if s.name == name), None) for fit in fits]
        yield (
            words.lower(),
            *_two(f"{max(abs(s.low_mm), abs(s.high_mm)):.1f} at most in 95 of 100" if s else "-" for s in found),
        )


def _two(words: Iterable[str]) -> tuple[str, str]:
    one, other = words
    return one, other


def _range_words(fit: CabinetFit) -> str:
    return f"{100 * fit.band[0]:.0f} to {100 * fit.band[1]:.0f}"


def as_cut_lines(as_cut: AsCut) -> Iterator[str]:
    """What is said of a measured board: mates first, then what it does, then the ways on in their order."""
    if as_cut.mates:
        yield f"Of its mates: {', '.join(as_cut.mates)}."
    if as_cut.warning:
        yield as_cut.warning
    yield from as_cut.does
    for number, way in enumerate(as_cut.ways, 1):
        minutes = "1 minute" if way.minutes == 1 else f"{way.minutes:g} minutes"
        yield f"{number}. {way.do} {way.gains} {minutes}.".replace("  ", " ")
