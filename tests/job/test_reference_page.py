"""docs/job-file.md is held to the words that a job file is read by: none is missing, none is extra, none says otherwise."""

import re
from pathlib import Path

import pytest

from rodwork.job.words import (
    DEFAULT,
    NEEDED,
    SECTIONS,
    SUCH_AS,
    BackWords,
    BlindWords,
    BoughtDoorWords,
    BracketWords,
    CabinetEdgingWords,
    CabinetWords,
    ClothesRailWords,
    ContentsWords,
    CorniceWords,
    DoorsWords,
    DrawersWords,
    EveryCabinetWords,
    FeetWords,
    HangingWords,
    MouldingWords,
    PartDividerWords,
    PinsWords,
    PlinthWords,
    PlumbWords,
    RailsWords,
    RunScrewWords,
    SagWords,
    ScribesWords,
    SocketWords,
    StiffenersWords,
    WorktopWords,
)

PAGE = Path(__file__).parents[2] / "docs" / "job-file.md"
HEADINGS = {
    **{f"[{name}.NAME]" if named else f"[{name}]": words for name, (words, named) in SECTIONS.items()},
    "back": BackWords, "blind": BlindWords, "feet": FeetWords, "rails": RailsWords, "doors": DoorsWords, "bought": BoughtDoorWords, "drawers": DrawersWords, "pins": PinsWords, "edging": CabinetEdgingWords, "contents": ContentsWords,
    "hanging": HangingWords, "bracket": BracketWords, "part_dividers": PartDividerWords, "clothes_rails": ClothesRailWords, "stiffeners": StiffenersWords, "socket": SocketWords, "sag": SagWords, "left_plumb": PlumbWords, "scribes": ScribesWords, "skirting": MouldingWords,
    "plinth": PlinthWords, "worktop": WorktopWords, "cornice": CorniceWords, "screws": RunScrewWords,
}  # fmt: skip
del HEADINGS["[every_cabinet]"]  # the words of a cabinet; see the last test


def rows(words):
    """The rows of the page's table for these words, as they must stand there."""
    schema = words.model_json_schema()["properties"]
    out = []
    for name, info in words.model_fields.items():
        word, extra = info.alias or name, info.json_schema_extra
        limits, such_as = schema[word].get("x-range"), extra[SUCH_AS]
        say = f" Such as `{such_as}`." if such_as and f"such as {such_as}" not in (limits or "") else ""
        left_out = "must be there" if extra[NEEDED] else extra[DEFAULT] or "nothing"
        out.append(
            f"| `{word}` | {info.description}. {limits + '.' if limits else ''}{say} | {left_out} |".replace(
                ". ..", "."
            )
        )
    return [re.sub(r"\s+", " ", row) for row in out]


def section(heading, page=PAGE):
    text = page.read_text(encoding="utf-8")
    found = re.search(rf"^#+ {re.escape(f'`{heading}`')}\n(.*?)(?=^#|\Z)", text, re.MULTILINE | re.DOTALL)
    assert found, f"{page.name} has no heading `{heading}`"
    return [re.sub(r"\s+", " ", line) for line in found.group(1).splitlines() if line.startswith("| `")]


@pytest.mark.parametrize("heading", HEADINGS)
def test_the_page_has_every_word_with_its_limits_and_what_it_is_when_left_out(heading):
    expected = rows(HEADINGS[heading])
    assert section(heading) == expected, "write in docs/job-file.md:\n" + "\n".join(expected)


def test_every_cabinet_has_all_words_of_a_cabinet_but_its_mark():
    assert set(CabinetWords.model_fields) - set(EveryCabinetWords.model_fields) == {"mark"}


def test_the_first_example_of_the_page_is_read():
    from rodwork.job.reader import read_job
    from tests.job.job_samples import FAMILIES

    examples = re.findall(r"```toml\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    job, _ = read_job(examples[0], "docs/job-file.md", FAMILIES)
    assert job.cabinets


OWN_PAGE = PAGE.parent / "how-to" / "your-own-family.md"


@pytest.mark.parametrize("heading", ["[family]", "[nature]", "[play]", "[[cut]]", "[[hardware]]"])
def test_the_page_of_own_families_has_every_word_too(heading):
    from rodwork.job.own_words import OWN_LISTS, OWN_SECTIONS

    expected = rows({**OWN_SECTIONS, **OWN_LISTS}[heading.strip("[]")])
    assert section(heading, OWN_PAGE) == expected, "write in docs/how-to/your-own-family.md:\n" + "\n".join(expected)
