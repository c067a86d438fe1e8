"""What is said once beside a board instead of at every hole: bores of a kind, how deep, from where, at what setting."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from rodwork.documents.annotate import Row, capital, figure, listed
from rodwork.documents.machined import Work, settings_words, words_of
from rodwork.model.setup import Reading
from rodwork.model.surface import axis_of

_EQUAL = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Bores or grooves that one note serves: alike in all but where they stand."""

    works: tuple[Work, ...]

    @property
    def first(self) -> Work:
        """Any of them: they are alike."""
        return self.works[0]

    @property
    def is_marked(self) -> bool:
        """Whether they stand in no row: each is marked by its two numbers."""
        return self.first.setup.is_marked

    @property
    def title(self) -> str:
        """What they are: "dowel bores 8"."""
        return f"{self.first.thing} {self.first.size_words}"

    @property
    def where(self) -> str:
        """On which surfaces: "both ends", "inside"."""
        return surfaces_words(words_of(w.part)[w.bears] for w in self.works)

    @property
    def from_fence(self) -> str:
        """Where the row stands: "9 from the BOTTOM end and the TOP end", "9 beyond the line, on its X side"."""
        if self.is_marked:
            return "each where two marks cross"
        plain: dict[str, list[str]] = {}
        lines: dict[str, list[float]] = {}
        for w in self.works:
            r = w.across
            if w.runs_through(r):
                continue
            if w.line is not None:
                said = _beside_line(r) + (f" from the {capital(r.word)}" if axis_of(r.from_surface) == 1 else "")
                lines.setdefault(said, []).append(w.line)
            else:
                plain.setdefault(_span(r), []).append(f"the {capital(r.word)}")
        texts = [f"{numbers} from {listed(_unique(words))}" for numbers, words in _gathered(plain)]
        texts += [said.format(_lines_at(at)) for said, at in lines.items()]
        return "; ".join(texts)

    @property
    def along_run(self) -> str:
        """How they stand along their row: "40, 136, 232 and 280 from the FRONT edge"; a groove's two ends.

        Of those that are marked one by one both numbers: "53.6 and 773.2, 240.6 and 730 from the LEFT edge and ...".
        """
        if self.is_marked:
            both = sorted((round(w.along.mm, 2), round(w.across.mm, 2)) for w in self.works)
            places = ", ".join(f"{figure(a)} and {figure(b)}" for a, b in both)
            return f"{places} from the {capital(self.first.along.word)} and the {capital(self.first.across.word)}"
        by_word: dict[str, set[float]] = {}
        spans: list[str] = []
        for w in self.works:
            if w.along.end_mm is None:
                by_word.setdefault(w.along.word, set()).add(round(w.along.mm, 2))
            elif w.runs_through(w.along):
                spans.append("from edge to edge")
            else:
                spans.append(f"{_span(w.along)} from the {capital(w.along.word)}{_stopped(w)}")
        texts = [f"{_run_text(sorted(numbers))} from the {capital(word)}" for word, numbers in by_word.items()]
        return "; ".join([*texts, *_unique(spans)])

    @property
    def pitch_words(self) -> str:
        """ "32 apart" where a row along the board is evenly pitched and only its ends are figured, else nothing."""
        numbers = sorted({round(w.along.mm, 2) for w in self.works if axis_of(w.along.from_surface) == 0})
        steps = {round(b - a, 2) for run in runs_of(numbers) if len(run) > 2 for a, b in pairwise(run)}
        return f"{listed([figure(s) for s in sorted(steps)])} apart" if steps else ""

    @property
    def settings(self) -> str:
        """The settings they are made at."""
        return settings_words(self.works)

    @property
    def before_edging(self) -> bool:
        """Whether they are made before the edges are edged, and their numbers are from the raw edge."""
        return self.first.feature.stage == "before edging"


def grouped(works: Iterable[Work]) -> tuple[Group, ...]:
    """The works in groups, in the order of the settings: rows alike in everything but where the row stands."""
    rows: dict[tuple[object, ...], list[Work]] = {}
    for w in works:
        on_face = w.bears in ("face_side", "back_side")
        kind = (w.thing, w.size_words, w.depth_words, w.feature.stage, w.bears if on_face else "")
        rows.setdefault((kind, _row_of(w), w.bears), []).append(w)
    found: dict[object, list[Work]] = {}
    for (alike, row, bears), row_works in rows.items():
        on_face = bears in ("face_side", "back_side")
        stand_at = frozenset(
            ("marks", w.across.word, w.along.word) if w.setup.is_marked
            else (w.along.word, round(w.along.mm, 2), w.along.end_mm or 0.0)
            for w in row_works
        )  # fmt: skip
        found.setdefault((alike, stand_at, () if on_face else row), []).extend(row_works)
    return tuple(Group(works=tuple(group)) for group in found.values())


def _row_of(w: Work) -> tuple[object, ...]:
    """What the bores of one row have in common: where the row stands."""
    return (w.across.word, _span(w.across))


def note_rows(group: Group) -> tuple[Row, ...]:
    """A group as a block of notes: title, how deep and where, where its row stands, settings."""
    on_edge = group.first.bears not in ("face_side", "back_side")
    rows = [Row(text=group.title, bold=True, size=4.0, before=2.6)]
    rows.append(Row(text=f"{group.first.depth_words}, {_in_the(group.where) if on_edge else group.where}"))
    more = group.along_run
    if group.first.groove is None:
        across = group.is_marked or axis_of(group.first.along.from_surface) == 1
        more = f"at {group.along_run.replace(' edge', '')}" if across else group.pitch_words
    raw = "before edging: from the raw edge" if group.before_edging else ""
    rows += [Row(text=text) for text in (group.from_fence, more, raw) if text]
    rows.append(Row(text=group.settings, size=3.3))
    return tuple(rows)


def surfaces_words(words: Iterable[str]) -> str:
    """Surfaces by their words, each once: "inside", "left end and front edge", "both ends"."""
    each = set(words)
    if each in ({"left end", "right end"}, {"bottom end", "top end"}, {"front end", "back end"}):
        return "both ends"
    return listed(sorted(each, key=lambda word: (_order_of_word(word), word)))


def _in_the(where: str) -> str:
    return f"in {where}" if where.startswith("both") else f"in the {where}"


def runs_of(numbers: Sequence[float]) -> list[list[float]]:
    """Rising numbers cut into runs of equal pitch: 24 56 88 | 480 512 544."""
    runs: list[list[float]] = []
    n = 0
    while n < len(numbers):
        run = [numbers[n]]
        if n + 1 < len(numbers):
            pitch = numbers[n + 1] - numbers[n]
            while n + len(run) < len(numbers) and abs(numbers[n + len(run)] - run[-1] - pitch) < _EQUAL:
                run.append(numbers[n + len(run)])
        if len(run) < 3:
            run = run[:1]
        runs.append(run)
        n += len(run)
    return runs


def _run_text(numbers: Sequence[float]) -> str:
    """Numbers of a row, the long even runs shortened: "40, 136, 232 and 280", "152 to 568 every 32"."""
    words: list[str] = []
    for run in runs_of(numbers):
        if len(run) > 5:
            words.append(f"{figure(run[0])} to {figure(run[-1])} every {figure(run[1] - run[0])}")
        else:
            words += [figure(n) for n in run]
    return listed(words)


def _lines_at(places: Iterable[float]) -> str:
    at = [figure(mm) for mm in sorted(set(places))]
    return f"the line{'s' if len(at) > 1 else ''} at {listed(at)}"


def _beside_line(r: Reading) -> str:
    """What is said of a row beside a line, with room for the line: "9 to the X side of {}"."""
    line = r.line or 0.0
    if r.end_mm is None:
        return f"{figure(abs(r.mm - line))} to the X side of {{}}"
    near, far = sorted((abs(r.mm - line), abs(r.end_mm - line)))
    if near < _EQUAL:
        return f"one wall on {{}}, the other {figure(far)} to the X side"
    return f"walls {figure(near)} and {figure(far)} to the X side of {{}}"


def _span(r: Reading) -> str:
    return figure(r.mm) if r.end_mm is None else f"{figure(r.mm)} to {figure(r.end_mm)}"


def _stopped(w: Work) -> str:
    if w.groove is None:
        return ""
    ends = set(w.groove.both_ends)
    return ", ends round" if "round" in ends else ", ends square" if "square" in ends else ""


def _gathered(plain: dict[str, list[str]]) -> Iterable[tuple[str, list[str]]]:
    """Numbers of one and the same set of surfaces together: 40 and 256 from the FRONT edge."""
    by_words: dict[tuple[str, ...], list[str]] = {}
    for numbers, words in plain.items():
        by_words.setdefault(tuple(_unique(words)), []).append(numbers)
    for surfaces, taken in by_words.items():
        yield listed(sorted(taken, key=lambda n: float(n.split()[0]))), list(surfaces)


def _unique(words: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(words))


_WORDS_IN_ORDER = (
    "inside", "upper side", "left face", "front face", "outside", "underside", "right face", "back face",
    "left end", "right end", "bottom end", "top end", "bottom edge", "top edge", "left edge", "right edge",
    "front edge", "back edge",
)  # fmt: skip


def _order_of_word(word: str) -> int:
    return _WORDS_IN_ORDER.index(word) if word in _WORDS_IN_ORDER else len(_WORDS_IN_ORDER)
