"""The job file's grammar as JSON Schema 2020-12, so that an editor completes a job file and checks it as it is typed.

Made from the same words that the file is read by. It is a little wider than the reader: it cannot know which
boards and recipes a job has, in which unit a bare number is meant, or what [every_cabinet] gives.
"""

import re
from collections.abc import Mapping
from typing import Any

TITLE = "A job file of rodwork"
ABOUT = (
    "What a maker wants built: the job, the shop, boards, edgings, joints and cabinets. "
    "Lengths are mm, or text with a unit."
)
NAME_PATTERN = r"^(?!\.+$)(?!\s)[^/\\\x00-\x1f\x7f]{1,60}(?<!\s)$"
LEFT_TO_EVERY_CABINET = (
    "CabinetWords",
    "EveryCabinetWords",
    "BackWords",
    "CabinetEdgingWords",
    "DoorsWords",
    "DrawersWords",
    "RailsWords",
    "FeetWords",
    "BoughtDoorWords",
    "FinishWords",
    "FaceFrameWords",
    "BlindWords",
)


def job_schema(families: Mapping[str, type]) -> dict[str, Any]:
    """The schema of a job file whose recipes may use these families."""
    from rodwork.job.words import SECTIONS, FittingWords, Words, family_words

    parts: dict[str, Any] = {}
    tables: dict[str, Any] = {}

    def put(words: type[Words], key: str) -> dict[str, str]:
        made = words.model_json_schema(ref_template="#/$defs/{model}")
        tables.update({name: _tidy(name, table) for name, table in made.pop("$defs", {}).items()})
        tables[key] = _tidy(key, made)
        return {"$ref": f"#/$defs/{key}"}

    uses = [
        put(family_words(name, settings), re.sub(r"\W", "_", f"{name} joint")) for name, settings in families.items()
    ]
    bought = [
        put(family_words(name, settings, bought=True), re.sub(r"\W", "_", f"{name} fitting"))
        for name, settings in families.items()
    ]
    for section, (words, named) in SECTIONS.items():
        table: dict[str, Any] = {"oneOf": bought} if words is FittingWords else put(words, words.__name__)
        about = (words.__doc__ or "").strip().split("\n")[0]
        parts[section] = table if not named else {
            "type": "object", "additionalProperties": table, "propertyNames": {"pattern": NAME_PATTERN},
            "description": f"Each with a name of your own: [{section}.NAME]. {about}",
        }  # fmt: skip
    tables["RecipeWords"]["properties"]["use"]["items"] = {"oneOf": uses}
    parts["cabinets"]["minProperties"] = 1
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": TITLE, "description": ABOUT, "type": "object", "additionalProperties": False,
        "required": ["job", "cabinets"], "properties": parts, "$defs": tables,
    }  # fmt: skip


def _tidy(name: str, table: dict[str, Any]) -> dict[str, Any]:
    """A table as an editor should show it: what a word means, its limits, what it is when left out."""
    from rodwork.job.values import RANGE
    from rodwork.job.words import DEFAULT, NEEDED, SUCH_AS

    needed = []
    for word, said in table["properties"].items():
        if said.pop(NEEDED, False):
            needed.append(word)
        said.pop("default", None)  # None: not what it is when left out, but that it is left out
        such_as, left_out, limits = said.pop(SUCH_AS, None), said.pop(DEFAULT, None), said.pop(RANGE, None)
        about = [said.get("description"), limits, f"Left out: {left_out}" if left_out else None]
        if such_as and f"such as {such_as}" not in (limits or ""):
            about.append(f"Such as {word} = {such_as}")
        said["description"] = ". ".join(text.rstrip(".") for text in about if text) + "."
    table.pop("required", None)
    if needed and name not in LEFT_TO_EVERY_CABINET:
        table["required"] = needed
    table.pop("title", None)
    return table


def own_family_schema() -> dict[str, Any]:
    """The schema of a family's own file, made from the words that it is read by."""
    from rodwork.job.own_words import OWN_LISTS, OWN_SECTIONS, cut_words
    from rodwork.model.feature import OWN_KINDS

    def table(words: Any) -> dict[str, Any]:
        made = words.model_json_schema(ref_template="#/$defs/{model}")
        return _tidy(words.__name__, made)

    parts: dict[str, Any] = {name: table(words) for name, words in OWN_SECTIONS.items()}
    kinds = []
    for kind in OWN_KINDS:
        one = table(cut_words(kind))
        one["properties"]["kind"] = {"const": kind, "description": one["properties"]["kind"]["description"]}
        kinds.append(one)
    parts["cut"] = {"type": "array", "minItems": 1, "items": {"oneOf": kinds}}
    parts["hardware"] = {"type": "array", "items": table(OWN_LISTS["hardware"])}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema", "title": "A family of joints of your own",
        "description": "What is cut for it in both boards, what is bought, what it is like.", "type": "object",
        "additionalProperties": False, "required": [*OWN_SECTIONS, "cut"], "properties": parts,
    }  # fmt: skip
