"""How true other shops work, each figure an assumption: our table, read once."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any, cast, get_args

from rodwork.model.accuracy import NOTHING, Accuracy, ErrorKind, Give, Method, Sigma, Spread


@cache
def assumed_accuracy() -> Accuracy:
    """The accuracies of a shop that has measured nothing."""
    text = files("rodwork.catalogue").joinpath("data/accuracy.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)
    give = table["give"]
    return Accuracy(
        methods=tuple(_method(name, row) for name, row in table["methods"].items()),
        give=Give(
            ease_mm=give["ease"], close_mm=give["close"], crush_mm=give["crush"], feel_mm=give["feel"],
            clamp_N=give["clamp_N"], E_N_per_mm2=give["E_N_per_mm2"], twist_mm=give["twist"],
        ),
    )  # fmt: skip


def _method(name: str, row: Mapping[str, Any]) -> Method:
    errors = {cast("ErrorKind", kind): _spread(row[kind]) for kind in get_args(ErrorKind) if kind in row}
    return Method(name=name, words=tuple(row["words"]), errors=errors, source=row["source"])


def _spread(row: Mapping[str, list[float]]) -> Spread:
    return Spread(shared=_sigma(row.get("shared")), each=_sigma(row.get("each")))


def _sigma(figures: list[float] | None) -> Sigma:
    if figures is None:
        return NOTHING
    value, low, high = figures
    return Sigma(value=value, low=low, high=high)
