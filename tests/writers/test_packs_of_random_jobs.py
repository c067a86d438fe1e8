"""Every file of a pack, over random jobs of the whole vocabulary with text in them that no maker would write.

Each kind of file is read by a reader that shares no code with what wrote it: an XML parser, the csv module, openpyxl,
ezdxf and its audit, pdfplumber, and for GLB the few lines below, by its specification alone. What they find is held
against the Rod: boards, bores, pages; all of it finite, in the unit that it should be in, and inside the pack's folder.

Twelve jobs in every run, the same ones; RODWORK_LAWS=2000 in the environment makes two hundred and fifty.
"""

import csv
import io
import json
import os
import re
import struct
import tomllib
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from itertools import cycle
from math import isfinite
from typing import Any
from unittest.mock import patch
from xml.etree import ElementTree

import ezdxf
import pdfplumber
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from openpyxl import load_workbook
from tests.job.every_word import as_text
from tests.laws.vocabulary import texts

from rodwork.documents.drawing import Drawing
from rodwork.documents.machining_drawing import kinds_of_board
from rodwork.documents.pack import pack_drawings
from rodwork.job.faults import JobFaults
from rodwork.model.feature import Bore
from rodwork.model.panel import Part
from rodwork.model.results import Results
from rodwork.model.rod import Rod, RodCabinet
from rodwork.packing import pack_files
from rodwork.pipeline import cutting, set_out
from rodwork.writers.dxf import dxf_files
from rodwork.writers.svg import svg

JOBS = max(int(os.environ.get("RODWORK_LAWS", "100")) // 8, 12)
NAMES = (  # of boards, edgings, recipes, cabinets and runs: a / or \ in them is refused
    "<b onload=alert(1)>&amp;", '=cmd|" C calc"!A0', "..x..", "CON", "-rf *", "@SUM(A1)", "%%d %s {0} \N{DEGREE SIGN}",
    "]]><!--", "\u05e9\u05dc\u05d5\u05dd abc", "\U0001f600 shelf", "e\u0301 \ufb01 \u65e5\u672c", "#panic() $x$", "'; DROP", "O" * 60,
)  # fmt: skip
TEXTS = (*NAMES, "</text></svg><script>alert(1)</script>", "../../etc/x", "..\\..\\x", "C:\\nul", "w" * 100)
NOTES = (*TEXTS, "first\nsecond\n=1+1\n\n\nlast", "x" * 300, "so it goes " * 30, "a\tb")
KEPT = ("job", "shop")  # sections without names of the maker's own


@dataclass(frozen=True, slots=True)
class Pack:
    """What a job was made into."""

    rod: Rod
    drawings: tuple[Drawing, ...]
    files: dict[str, bytes]


@cache
def packs() -> tuple[Pack, ...]:
    """The same packs in every run; no two have the same words at the same place."""
    made: list[Pack] = []
    words = tuple(map(cycle, (NAMES, TEXTS, NOTES)))

    @settings(
        max_examples=3 * JOBS,
        deadline=None,
        derandomize=True,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(texts())
    def one(text):
        if len(made) == JOBS:
            return
        with suppress(JobFaults):
            made.append(packed(set_out(with_words(text, *words), "hostile.toml")))

    one()
    return tuple(made)


def packed(rod: Rod) -> Pack:
    results = Results(cutting=cutting(rod, steps=5))
    drawings = pack_drawings(rod, results)
    with patch("rodwork.packing.pack_drawings", return_value=drawings):  # drawing is what takes the time
        files = list(pack_files(rod, "R12", results=results))
    assert len(dict(files)) == len(files), "no file is written over another"
    return Pack(rod, tuple(drawings), dict(files))


def with_words(text: str, names: Any, texts: Any, notes: Any) -> str:
    """The job with other names for all that a maker names, and with words of his own wherever they may stand."""
    job = tomllib.loads(text)
    called = {n: next(names) for section, content in job.items() if section not in KEPT for n in content}
    assert len(set(called.values())) == len(called)
    job = {s: _renamed(c, called) if s in KEPT else {called[n]: _renamed(t, called) for n, t in c.items()}
           for s, c in job.items()}  # fmt: skip
    job["job"] |= {"name": next(texts), "customer": next(texts), "address": next(notes), "notes": next(notes)}
    job["shop"] = {**job.get("shop", {}), "name": next(texts)}
    for board in job["boards"].values():
        board |= {"material": next(names), "grain": True, "density": 680}
    for cabinet in job["cabinets"].values():
        cabinet["notes"] = next(notes)
    for run in job.get("runs", {}).values():
        run |= {"where": next(texts), "notes": next(notes)}
    return as_text(job)


def _renamed(value: Any, called: dict[str, str]) -> Any:
    if isinstance(value, dict):
        return {word: _renamed(inner, called) for word, inner in value.items()}
    if isinstance(value, list):
        return [_renamed(inner, called) for inner in value]
    return called.get(value, value) if isinstance(value, str) else value


def of(pack: Pack, ending: str) -> list[tuple[str, bytes]]:
    return [(name, data) for name, data in pack.files.items() if name.endswith(ending)]


def boards_made(rod: Rod) -> int:
    """All boards that are sawn for the job."""
    return sum(len(p.marks) for c in rod.cabinets for p in c.parts if not p.bought)


def test_there_are_packs_enough_and_all_sorts_of_cabinets_in_them():
    assert len(packs()) == JOBS
    parts = Counter(p.role for pack in packs() for c in pack.rod.cabinets for p in c.parts)
    assert {"side", "door", "drawer front", "back"} <= set(parts)
    assert any(c.is_run for pack in packs() for c in pack.rod.cabinets)


def test_every_file_lies_in_the_pack_and_has_a_name_that_any_system_takes():
    for pack in packs():
        for name in pack.files:
            assert re.fullmatch(r"(?:(?:dxf|3d)/)?[A-Za-z0-9][A-Za-z0-9_-]*(?:\.[a-z0-9]+)+", name), name
            assert len(name) < 120
            stem = name.rpartition("/")[2].partition(".")[0].upper()
            assert stem not in {"CON", "PRN", "AUX", "NUL", "COM1", "LPT1"}
        assert len({name.lower() for name in pack.files}) == len(pack.files)


NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
SVG = "{http://www.w3.org/2000/svg}"


def test_every_page_is_sound_xml_of_shapes_and_texts_alone_and_every_number_is_one():
    for pack in packs():
        for drawing in pack.drawings:
            root = ElementTree.fromstring(svg(drawing))
            for shape in root:
                assert shape.tag in {SVG + "path", SVG + "circle", SVG + "text"}
                assert len(shape) == 0
                for word, value in shape.attrib.items():
                    if word in ("x", "y", "cx", "cy", "r", "font-size", "stroke-width"):
                        assert NUMBER.fullmatch(value), (word, value)
                    if word in ("d", "transform", "stroke-dasharray"):
                        assert re.fullmatch(r"[MLZ ()]*", NUMBER.sub("", value).replace("rotate", "")), (word, value)


def test_the_pdf_has_every_page_at_its_own_size():
    for pack in packs():
        ((_, data),) = of(pack, "pack.pdf")
        with pdfplumber.open(io.BytesIO(data)) as document:
            sizes = [(page.width, page.height) for page in document.pages]
        assert sizes == [
            pytest.approx((d.width / 25.4 * 72, d.height / 25.4 * 72), abs=0.05) for d in pack.drawings
        ]  # fmt: skip


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_every_dxf_passes_the_audit_and_has_every_bore_once_in_mm(version):
    for pack in packs()[:: 1 if version == "R12" else 4]:
        kinds = [kind for cabinet in pack.rod.cabinets for kind in kinds_of_board(cabinet)]
        files = of(pack, ".dxf") if version == "R12" else dxf_files(pack.rod, "R2010")
        assert len(files) == len(kinds)
        for (name, data), (part, _) in zip(files, kinds, strict=True):
            assert name.endswith("_mm.dxf") or re.search(r"_mm_\d+\.dxf", name)
            document = ezdxf.read(io.StringIO(data.decode("utf-8").replace("\r\n", "\n")))
            assert document.header.get("$INSUNITS", 0) == (0 if version == "R12" else 4)
            audit = document.audit()
            assert (audit.errors, audit.fixes) == ([], [])
            layers = [e.dxf.layer for e in document.modelspace().query("CIRCLE")]
            bores = bores_drawn(part)
            assert sum("_BORE_" in layer for layer in layers) == len(bores), name
            assert sum("_CSK_" in layer for layer in layers) == sum(b.countersink is not None for b in bores), name


def bores_drawn(part: Any) -> list[Bore]:
    """What a machine bores of it: not what comes bored, nor what is bored at assembly."""
    return [f for f in part.features if isinstance(f, Bore) and f.stage not in ("in place", "as bought")]


def test_every_glb_is_laid_out_as_the_specification_says_and_has_every_board_in_metres():
    """Khronos glTF 2.0: 4.4 the binary form, 3.6 buffers and accessors, 3.4 metres with Y up."""
    for pack in packs():
        files = of(pack, ".glb")
        assert len(files) == len(pack.rod.cabinets)
        for (_, data), cabinet in zip(files, pack.rod.cabinets, strict=True):
            tree, buffer = chunks(data)
            nodes = [node for node in tree["nodes"] if "mesh" in node]
            assert tree["nodes"][tree["scenes"][tree["scene"]]["nodes"][0]]["children"] == list(
                range(1, len(nodes) + 1)
            )
            assert [n["name"] for n in nodes] == [p.marks[0] if p.marks else p.id for p in cabinet.parts]
            for node, part in zip(nodes, cabinet.parts, strict=True):
                (primitive,) = tree["meshes"][node["mesh"]]["primitives"]
                points = numbers(tree, buffer, primitive["attributes"]["POSITION"])
                corners = [i for (i,) in numbers(tree, buffer, primitive["indices"])]
                assert len(corners) % 3 == 0
                assert max(corners) < len(points)
                assert all(isfinite(v) for v in (*node["matrix"], *(c for p in points for c in p)))
                spans = [max(c) - min(c) for c in zip(*points, strict=True)]
                in_order = sorted if part.glued_on else list  # a strip is laid out in the frame of its board
                size = in_order(of_itself(part, cabinet))
                assert in_order(s * 1000 for s in spans) == pytest.approx(size, abs=0.01), part.id


def of_itself(part: Part, cabinet: RodCabinet) -> tuple[float, float, float]:
    """The size of a board without its lippings, which are boards of their own."""
    long, wide, thick = part.size
    on = part.edging
    if not any(p.glued_on == part.id for p in cabinet.parts):
        return part.size
    return long - on.left_end - on.right_end, wide - on.face_edge - on.far_edge, thick


def chunks(data: bytes) -> tuple[Any, bytes]:
    magic, version, length = struct.unpack_from("<4sII", data, 0)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    found, at = [], 12
    while at < length:
        size, kind = struct.unpack_from("<I4s", data, at)
        assert size % 4 == 0
        found.append((kind, data[at + 8 : at + 8 + size]))
        at += 8 + size
    assert [kind for kind, _ in found] == [b"JSON", b"BIN\0"]
    tree = json.loads(found[0][1])
    (one,) = tree["buffers"]
    assert 0 <= len(found[1][1]) - one["byteLength"] < 4
    return tree, found[1][1]


def numbers(tree: Any, buffer: bytes, n: int) -> list[tuple[Any, ...]]:
    """The values of an accessor, held to the bounds that it says of them."""
    accessor = tree["accessors"][n]
    view = tree["bufferViews"][accessor["bufferView"]]
    letter, size = {5126: ("f", 4), 5123: ("H", 2), 5125: ("I", 4)}[accessor["componentType"]]
    each = {"VEC3": 3, "SCALAR": 1}[accessor["type"]]
    at = view["byteOffset"] + accessor.get("byteOffset", 0)
    assert at % size == 0
    assert accessor["count"] * each * size <= view["byteLength"]
    assert view["byteOffset"] + view["byteLength"] <= tree["buffers"][0]["byteLength"]
    flat = struct.unpack_from(f"<{accessor['count'] * each}{letter}", buffer, at)
    values = [flat[i : i + each] for i in range(0, len(flat), each)]
    if "min" in accessor:
        assert [min(c) for c in zip(*values, strict=True)] == pytest.approx(accessor["min"])
        assert [max(c) for c in zip(*values, strict=True)] == pytest.approx(accessor["max"])
    return values


def test_the_lists_hold_every_board_once_and_nothing_that_acts():
    for pack in packs():
        for name, data in of(pack, ".csv"):
            header, *rows = csv.reader(io.StringIO(data.decode("utf-8"), newline=""))
            assert {len(row) for row in rows} <= {len(header)}, name
            for cell in (cell for row in rows for cell in row):
                number = re.fullmatch(r"-?\d+(\.\d+)?", cell)
                assert number or not cell.lstrip().startswith(("=", "+", "-", "@")), (name, cell)
                assert cell.lower() not in ("nan", "inf", "-inf")
            if name == "cutting-list.csv":
                assert sum(int(row[header.index("how many")]) for row in rows) == boards_made(pack.rod)
                marks = [m for row in rows for m in row[header.index("marks")].split(", ")]
                assert Counter(marks) == Counter(
                    m for c in pack.rod.cabinets for p in c.parts if not p.bought for m in p.marks
                )


def test_the_workbook_holds_the_same_as_texts_and_numbers_and_no_formula():
    for pack in packs():
        ((_, data),) = of(pack, "lists.xlsx")
        book = load_workbook(io.BytesIO(data))
        for sheet in book:
            for cell in (cell for row in sheet.iter_rows() for cell in row if cell.value is not None):
                assert cell.data_type in ("s", "n"), (sheet.title, cell.coordinate)
                assert cell.data_type == "s" or isfinite(cell.value)
        rows = list(book["cutting list"].iter_rows(values_only=True))
        assert sum(row[rows[0].index("how many")] for row in rows[1:]) == boards_made(pack.rod)


def test_the_set_out_as_data_is_strict_json_and_comes_back_as_it_was():
    def refuse(word):
        raise AssertionError(f"{word} is no JSON")

    for pack in packs():
        for name, data in of(pack, ".json"):
            found = json.loads(data, parse_constant=refuse)
            if name == "set-out.json":
                assert Rod.from_dict(found) == pack.rod
