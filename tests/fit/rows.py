"""Two boards and one run of fixings along y, for the closed forms: board A on its end (guest), B on its face (host)."""

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.fit.builder import FREE, Builder, Form, Limits, Stand
from rodwork.fit.linear import LinearModel, Source

GIVE = assumed_accuracy().give
IDENTITY = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
U, V = (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def two_boards(bends: bool = False) -> Builder:
    boards = (
        Stand(id="B", middle=(0.0, 160.0, 0.0), axes=IDENTITY, size=(18.0, 320.0, 700.0), bends=bends),
        Stand(id="A", middle=(300.0, 160.0, 0.0), axes=IDENTITY, size=(560.0, 320.0, 18.0), bends=bends),
    )
    return Builder(boards, "B", GIVE)


def source(key: str, sigma: float) -> Source:
    return Source(key=key, sigma=sigma, parameter=("test", "across", "each"), words=key)


def run_of(
    at: list[float], sigma: float, u: Limits = FREE, v: Limits = FREE, is_round: bool = False, locked: bool = False,
    joints: tuple[str, ...] = ("run",),
) -> LinearModel:  # fmt: skip
    """Holes in both halves at these places, each off by sigma on either axis; residuals A less B.

    Several joints: the same holes once more for each.
    """
    build = two_boards()
    sources: dict[str, Source] = {}
    for i, y in enumerate(at):
        residuals = []
        for name, way in (("u", U), ("v", V)):
            point = (18.0, y, 0.0)
            form = build.moved("A", point, way).plus(build.moved("B", point, way), -1.0)
            if locked:
                form = Form(form.q * 0.0)
            for half, sign in (("A", 1.0), ("B", -1.0)):
                key = f"{half}{i}{name}"
                sources[key] = source(key, sigma)
                form = form.plus(Form(form.q * 0.0, {key: sign}))
            residuals.append(form)
        for joint in joints:
            build.fixing(joint, residuals[0], residuals[1], (u, v), is_round=is_round, at_mm=y)
    return build.done(sources, {})
