"""Values that are small tables or several kinds of thing, for lists of them: { gap = 602, for = "dishwasher" }."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from rodwork.job.faults import Wrong, near, shown
from rodwork.job.lengths import Unit
from rodwork.job.values import RANGE, Kind
from rodwork.model.run_asked import RunEntry


@dataclass(frozen=True, slots=True)
class Inline(Kind):
    """A table in one line, each of its words of its own kind; `needed` must be there."""

    words: Mapping[str, Kind]
    needed: tuple[str, ...]
    such_as: str

    def read(self, value: Any, unit: Unit) -> dict[str, Any]:
        """The words that are written."""
        if not isinstance(value, dict):
            raise Wrong("is not a table", f"Write {self.such_as}")
        for word in value:
            if word not in self.words:
                meant = near(word, self.words)
                raise Wrong(
                    f"has a word that is not known here, {shown(word)[1:-1]}",
                    f"Did you mean {meant}?" if meant else f"The words here are: {', '.join(self.words)}",
                )
        lacking = [word for word in self.needed if word not in value]
        if lacking:
            raise Wrong(f"has no {lacking[0]}", f"Write {self.such_as}")
        return {word: self._inner(word, value[word], unit) for word in value}

    def _inner(self, word: str, value: Any, unit: Unit) -> Any:
        try:
            return self.words[word].read(value, unit)
        except Wrong as wrong:
            raise Wrong(wrong.why, wrong.mend, (word, *wrong.at)) from None

    def schema(self) -> dict[str, Any]:
        """An object."""
        properties = {word: {k: v for k, v in kind.schema().items() if k != RANGE} for word, kind in self.words.items()}
        return {
            "type": "object", "properties": properties, "required": list(self.needed), "additionalProperties": False,
            RANGE: f"Such as {self.such_as}",
        }  # fmt: skip


@dataclass(frozen=True, slots=True)
class InRun(Kind):
    """One thing that stands in a run: the name of a cabinet, a gap, an infill or an end panel."""

    gap: Inline
    infill: Inline
    panel: Inline

    def read(self, value: Any, unit: Unit) -> RunEntry:
        """Which it is, with its own words."""
        if isinstance(value, str):
            return RunEntry(stands_as="cabinet", name=value)
        if isinstance(value, dict):
            if "gap" in value:
                said = self.gap.read(value, unit)
                named = isinstance(said["gap"], str)  # an appliance: how wide it is is looked up later
                return RunEntry(
                    stands_as="gap", name=said["gap"] if named else said.get("for", "gap"),
                    mm=None if named else said["gap"], under_worktop=said.get("worktop", True),
                )  # fmt: skip
            if "infill" in value:
                said = self.infill.read(value, unit)
                mm = None if said["infill"] == "rest" else said["infill"]
                return RunEntry(stands_as="infill", name=said.get("board", ""), mm=mm)
            if "panel" in value:
                return RunEntry(stands_as="end panel", name=self.panel.read(value, unit)["panel"])
            meant = next((word for word in map(self._meant, value) if word), None)
            if meant is not None:
                raise Wrong("has a word that is not known here", f"Did you mean {meant}?")
        raise Wrong(
            "is neither a cabinet nor a gap, an infill or an end panel",
            f"Write the NAME of a [cabinets.NAME], {self.gap.such_as}, {self.infill.such_as} or {self.panel.such_as}",
        )

    @staticmethod
    def _meant(word: str) -> str | None:
        """Which of the three is meant by a word that is none of them."""
        return near(word, ("gap", "infill", "panel"))

    def schema(self) -> dict[str, Any]:
        """A name or one of three tables."""
        inner = [kind.schema() for kind in (self.gap, self.infill, self.panel)]
        for one in inner:
            del one[RANGE]
        return {
            "anyOf": [{"type": "string"}, *inner],
            RANGE: f"Each the NAME of a [cabinets.NAME], {self.gap.such_as}, {self.infill.such_as} or "
            f"{self.panel.such_as}",
        }  # fmt: skip
