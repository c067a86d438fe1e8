"""DXF files are read back by two readers: ezdxf's audit, and GDAL, which shares no code with what wrote them."""

import io
import json
import os
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from math import pi
from pathlib import Path

import ezdxf
import pytest
from ezdxf import recover
from ezdxf.bbox import extents
from hypothesis import given
from hypothesis import strategies as st
from tests.geometry.sample_boards import X, Y, Z, board, bore, glaze, groove, rebate

from rodwork.documents.machining_drawing import LONGEST_NAME, kinds_of_board, layer_name, machining_drawing, sink_name
from rodwork.model.feature import Bore, Countersink
from rodwork.model.panel import EdgingOnPart
from rodwork.writers.dxf import dxf_bytes, dxf_files, dxf_name, dxf_text

NOTCHED = ((0.0, 0.0), (600.0, 0.0), (600.0, 300.0), (12.0, 300.0), (12.0, 280.0), (0.0, 280.0))
GAP = 40.0  # between the views, as the drawing says


def all_sorts(**how):
    """A bottom that is worked on all six surfaces."""
    return board(
        bore(id="face", at=(50.0, 60.0, 18.0), depth=12.5, diameter=8.0, tip=2.0),
        bore(id="other face", at=(100.0, 60.0, 0.0), into=Z, depth=18.0, diameter=4.5, through=True,
             countersink=Countersink(diameter=9.0, angle=90.0)),
        bore(id="front", at=(150.0, 0.0, 7.0), into=Y, depth=25.0, diameter=6.0, stage="before edging"),
        bore(id="back", at=(180.0, 300.0, 8.0), into=(0.0, -1.0, 0.0), depth=25.0, diameter=5.0),
        bore(id="right", at=(600.0, 100.0, 9.0), into=(-1.0, 0.0, 0.0), along=Y, depth=20.0, diameter=8.0),
        bore(id="left", at=(0.0, 80.0, 6.0), into=X, along=Y, depth=20.0, diameter=8.0),
        bore(id="later", at=(0.0, 120.0, 6.0), into=X, along=Y, depth=20.0, diameter=3.0, stage="in place"),
        groove(id="half round", at=(300.0, 150.0, 18.0), depth=6.0, width=20.0, length=200.0,
               ends=("square", "round"), end_radius=5.0),
        groove(id="outside", at=(300.0, 200.0, 0.0), into=Z, depth=6.0, width=6.0, length=200.0,
               ends=("round", "square"), end_radius=3.0),
        rebate(id="rebate", at=(306.0, 295.0, 18.0), depth=8.0, width=10.0, length=588.0, ends=("square", "open")),
        outline=NOTCHED, edging=EdgingOnPart(face_edge=1.0, left_end=1.0), cut=(599.5, 299.5), **how,
    )  # fmt: skip


def dxf(part, version="R12"):
    return dxf_bytes(machining_drawing(part), version)


def read(data):
    document = ezdxf.read(io.StringIO(data.decode("utf-8").replace("\r\n", "\n")))
    assert len(document.modelspace()), "there is something in it"
    return document


def every_board():
    return [(part.id, part) for part in glaze().cabinets[0].parts] + [("all sorts", all_sorts())]


@pytest.mark.parametrize("version", ["R12", "R2010"])
@pytest.mark.parametrize(("name", "part"), every_board(), ids=lambda v: v if isinstance(v, str) else "")
def test_the_audit_finds_nothing_to_put_right(name, part, version):
    document = read(dxf(part, version))
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    assert document.acad_release == version
    kinds = {e.dxftype() for e in document.modelspace()}
    assert kinds <= {"CIRCLE", "TEXT", "POLYLINE" if version == "R12" else "LWPOLYLINE"}
    known = {layer.dxf.name for layer in document.layers}
    assert {e.dxf.layer for e in document.modelspace()} <= known - {"0"}


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_the_extents_hold_everything_that_is_drawn(version):
    document = read(dxf(all_sorts(), version))
    low, high = document.header["$EXTMIN"], document.header["$EXTMAX"]
    seen = extents(document.modelspace())
    assert low[0] <= seen.extmin.x
    assert low[1] <= seen.extmin.y
    assert high[0] >= seen.extmax.x
    assert high[1] == pytest.approx(seen.extmax.y)
    slack = max(seen.extmin.x - low[0], seen.extmin.y - low[1], high[0] - seen.extmax.x)
    assert slack < 200, "texts are reckoned wide, since fonts differ, but the drawing fills the screen"


def test_r2010_says_its_unit_and_r12_has_no_field_for_it():
    assert read(dxf(board(), "R2010")).header["$INSUNITS"] == 4
    assert b"$INSUNITS" not in dxf(board())


def test_r12_is_plain_ascii_with_names_of_layers_that_it_allows():
    part = all_sorts(material="Sapele, geölt", marks=("日本-B",))
    data = dxf(part)
    assert data.isascii()
    assert re.fullmatch(rb"([^\r\n]*\r\n)+", data)
    names = [layer.dxf.name for layer in read(data).layers]
    assert all(re.fullmatch(r"[A-Z0-9_]{1,31}", n) for n in names if n != "Defpoints")


# GDAL reads the same file ------------------------------------------------------------------------------------


def entities(data, folder):
    """(layer, points) of everything in the file but its texts, as GDAL sees it."""
    if shutil.which("ogr2ogr") is None:
        pytest.skip("GDAL's ogr2ogr is not on this machine (Debian: gdal-bin)")
    file = folder / "board.dxf"
    file.write_bytes(data)
    run = ["ogr2ogr", "-f", "GeoJSON", "/vsistdout/", str(file), "-lco", "COORDINATE_PRECISION=6"]
    found = json.loads(subprocess.run(run, capture_output=True, check=True).stdout)
    out = []
    for one in found["features"]:
        shape = one["geometry"]
        if shape["type"] == "Point":
            continue
        line = shape["coordinates"][0] if shape["type"] == "Polygon" else shape["coordinates"]
        out.append((one["properties"]["Layer"], [p[:2] for p in line]))
    return out


def middle_and_size(points):
    low, high = [min(p[i] for p in points) for i in (0, 1)], [max(p[i] for p in points) for i in (0, 1)]
    return ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2), (high[0] - low[0], high[1] - low[1])


def area(points):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True))) / 2


SURFACE_OF_A_BOTTOM = {
    "INSIDE": "face_side", "OUTSIDE": "back_side", "FRONT_EDGE": "face_edge", "BACK_EDGE": "far_edge",
    "LEFT_END": "left_end", "RIGHT_END": "right_end",
}  # fmt: skip


def back_on_the_board(surface, x, y, size):
    """Fold the drawing up again: where a point of a view lies on the board, from the picture in the module's head."""
    L, W, T = size
    if surface == "face_side":
        return (x, y, T)
    if surface == "back_side":
        return (x, W - (y - (W + GAP + T + GAP)), 0.0)
    if surface == "face_edge":
        return (x, 0.0, T - (-GAP - y))
    if surface == "far_edge":
        return (x, W, T - (y - (W + GAP)))
    if surface == "left_end":
        return (0.0, y, T - (-GAP - x))
    return (L, y, T - (x - (L + GAP)))


def holes_on_the_board(data, words, size, folder):
    """(layer, point on the board, diameter) of every circle."""
    holes = []
    for layer, points in entities(data, folder):
        if "_BORE" not in layer and "_CSK" not in layer:
            continue
        surface = next(words[w] for w in words if layer.startswith(w + "_"))
        (x, y), (wide, high) = middle_and_size(points)
        assert wide == pytest.approx(high, abs=0.01), "it is round"
        holes.append((layer, back_on_the_board(surface, x, y, size), wide))
    return holes


def assert_every_hole_is_found(part, data, words, folder):
    wanted = [f for f in part.features if isinstance(f, Bore) and f.stage != "in place"]
    found = holes_on_the_board(data, words, part.size, folder)
    sinks = [h for h in found if "_CSK" in h[0]]
    assert len(sinks) == sum(f.countersink is not None for f in wanted)
    assert len(found) - len(sinks) == len(wanted)
    for f in wanted:
        there = [(layer, d) for layer, p, d in found if max(abs(a - b) for a, b in zip(p, f.at, strict=True)) <= 0.05]
        diameters = [d for layer, d in there if "_BORE" in layer]
        assert diameters == [pytest.approx(f.diameter, abs=0.05)], f.id
        deep = "THROUGH" if f.through else f"DEEP_{f.depth:g}".replace(".", "P")
        assert any(deep in layer for layer, _ in there), f.id


def test_an_unrelated_reader_finds_every_hole_of_the_glaze_cupboard(tmp_path):
    for part in glaze().cabinets[0].parts:
        words = dict(SURFACE_OF_A_BOTTOM)
        if part.id == "top":  # its face edge is the front, its face side is down: left and right change ends
            words |= {"LEFT_END": "right_end", "RIGHT_END": "left_end"}
        assert_every_hole_is_found(part, dxf(part), words, tmp_path)


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_an_unrelated_reader_finds_every_hole_on_all_six_surfaces(tmp_path, version):
    part = all_sorts()
    assert_every_hole_is_found(part, dxf(part, version), SURFACE_OF_A_BOTTOM, tmp_path)


def test_an_unrelated_reader_sees_the_channels_as_the_cutter_leaves_them(tmp_path):
    by_layer = {layer: points for layer, points in entities(dxf(all_sorts()), tmp_path) if layer != "VIEW_LINES"}
    corner = (1 - pi / 4) * 5**2
    half = by_layer["INSIDE_GROOVE_20_DEEP_6"]
    assert middle_and_size(half) == (pytest.approx((300, 150)), pytest.approx((200, 20)))
    assert area(half) == pytest.approx(200 * 20 - 2 * corner, abs=0.1)
    assert width_at(half, 200) == pytest.approx(20), "square at its left end"
    assert width_at(half, 400) == pytest.approx(10), "round at its right end, as far as the cutter's radius"
    outside = by_layer["OUTSIDE_GROOVE_6_DEEP_6"]
    (x, y), size = middle_and_size(outside)
    assert back_on_the_board("back_side", x, y, (600, 300, 18)) == pytest.approx((300, 200, 0))
    assert size == pytest.approx((200, 6))
    assert area(outside) == pytest.approx(200 * 6 - 2 * (1 - pi / 4) * 3**2, abs=0.1)
    assert width_at(outside, 200) == pytest.approx(0, abs=0.5), "a half circle at its left end"
    assert width_at(outside, 400) == pytest.approx(6), "square at its right end"
    assert middle_and_size(by_layer["INSIDE_REBATE_10_DEEP_8"]) == (pytest.approx((306, 295)), pytest.approx((588, 10)))


def width_at(points, x):
    """How far a loop reaches across on this line."""
    ys = [py for px, py in points if abs(px - x) < 1e-6]
    return max(ys) - min(ys)


def test_an_unrelated_reader_sees_the_board_as_finished_and_as_sawn(tmp_path):
    by_layer = dict(entities(dxf(all_sorts()), tmp_path))
    assert area(by_layer["OUTLINE_18_THICK"]) == pytest.approx(600 * 300 - 12 * 20)
    # 1 mm of edging in front and at the left end, where the bander first mills off half of it
    assert middle_and_size(by_layer["SAWN_SIZE"]) == (
        pytest.approx((0.5 + 599.5 / 2, 0.5 + 299.5 / 2)),
        pytest.approx((599.5, 299.5)),
    )


def test_a_board_without_edging_has_no_sawn_size():
    names = [layer.name for layer in machining_drawing(board()).layers]
    assert names == ["OUTLINE_18_THICK", "NOTES"]


def test_what_is_bored_at_assembly_is_left_out_and_said():
    drawing = machining_drawing(all_sorts())
    assert not any("BORE_3_" in layer.name for layer in drawing.layers)
    texts = [shape.text for shape in drawing.layers[-1].shapes]
    assert "Bores made at assembly are not in this file." in texts


def test_a_depth_is_from_the_surface_of_the_board_though_the_mouth_lies_in_a_notch():
    deep = bore(at=(6.0, 280.0, 9.0), into=(0.0, -1.0, 0.0), depth=25.0, diameter=5.0)
    names = [layer.name for layer in machining_drawing(board(deep, outline=NOTCHED)).layers]
    assert "BACK_EDGE_BORE_5_DEEP_45" in names


def test_the_bevels_of_a_board_are_drawn_as_far_as_they_reach():
    part = board(
        size=(600.0, 318.0, 18.0), outline=((0.0, 18.0), (600.0, 18.0), (600.0, 318.0), (0.0, 318.0)),
        bevels=(45.0, 0.0, 0.0, 0.0), cut=(600.0, 318.0),
    )  # fmt: skip
    loops = {layer.name: layer.shapes[0] for layer in machining_drawing(part).layers}
    assert min(y for _, y, _ in loops["BEVELS_REACH_OUT_TO"].points) == pytest.approx(0)
    assert min(y for _, y, _ in loops["OUTLINE_18_THICK"].points) == 18


def test_loops_run_anticlockwise_in_every_view():
    for layer in machining_drawing(all_sorts()).layers:
        for shape in layer.shapes:
            if hasattr(shape, "points"):
                p = shape.points
                assert sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(p, (*p[1:], p[0]), strict=True)) > 0


# names of layers and files ------------------------------------------------------------------------------------

WORDS = st.sampled_from(["inside", "bottom edge", "right edge", "underside", "upper side", "front face", "bottom end"])
SIZES = st.floats(0.1, 99.99).map(lambda v: round(v, 2))


@given(WORDS, st.sampled_from(["BORE", "GROOVE", "REBATE", "SLOT", "ARC"]), SIZES, st.none() | SIZES, st.booleans())
def test_a_layer_name_fits_and_begins_with_its_surface(word, kind, width, depth, raw):
    name = layer_name(word, kind, width, depth, raw)
    assert re.fullmatch(r"[A-Z0-9_]+", name)
    assert len(name) <= LONGEST_NAME
    assert name.startswith(word.upper().replace(" ", "_")) or name.startswith(word.upper().replace(" ", ""))
    assert name.endswith("RAW") == raw
    for what, angle in (("CSK", 90.0), ("POCKET", 15.0)):
        assert len(sink_name(word, what, width, angle, raw)) <= LONGEST_NAME


def test_layer_names_read_as_a_maker_would_say_them():
    assert layer_name("inside", "BORE", 8.0, 12.0, False) == "INSIDE_BORE_8_DEEP_12"
    assert layer_name("right end", "BORE", 8.0, 20.5, False) == "RIGHT_END_BORE_8_DEEP_20P5"
    assert layer_name("outside", "BORE", 4.5, None, False) == "OUTSIDE_BORE_4P5_THROUGH"
    assert layer_name("bottom edge", "BORE", 12.7, 19.05, True) == "BOTTOM_EDGE_BORE12P7_D19P05_RAW"
    assert sink_name("outside", "CSK", 9.0, 90.0, False) == "OUTSIDE_CSK_9_AT_90"
    assert sink_name("underside", "POCKET", 9.5, 15.0, False) == "UNDERSIDE_POCKET_9P5_AT_15"


def test_there_is_one_file_for_each_kind_of_board_and_it_says_mm():
    rod = glaze()
    files = dxf_files(rod)
    assert [name for name, _ in files] == [
        "G1-LS_left_side_mm.dxf", "G1-RS_right_side_mm.dxf", "G1-T_top_mm.dxf", "G1-FS_fixed_shelf_mm.dxf",
        "G1-BK_back_mm.dxf", "G1-L1_loose_shelf_1_mm.dxf",
    ]  # fmt: skip
    kinds = {part.id: marks for part, marks in kinds_of_board(rod.cabinets[0])}
    assert kinds["top"] == ("G1-T", "G2-T", "G1-B", "G2-B")
    texts = [t.dxf.text for t in read(dict(files)["G1-T_top_mm.dxf"]).modelspace().query("TEXT")]
    assert "G1-T, G2-T, G1-B, G2-B: top, 4 off" in texts


HOSTILE = ["../../etc/passwd", "CON", "a" * 300, "", "...", "-rf", "C:\\x", "naïve.exe\x00", "=1+1", "日本", "a\nb"]


@pytest.mark.parametrize("name", HOSTILE)
def test_no_name_gets_out_of_its_folder(name):
    made = dxf_name(board(name=name, marks=(name,)))
    assert re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9_-]*_mm\.dxf", made)
    assert len(made) < 100


def test_two_boards_never_share_a_file():
    rod = glaze()
    cabinet = rod.cabinets[0]
    twin = replace(
        cabinet, name="other", parts=tuple(replace(p, marks=tuple(m.lower() for m in p.marks)) for p in cabinet.parts)
    )
    names = [name.lower() for name, _ in dxf_files(replace(rod, cabinets=(cabinet, twin)))]
    assert len(set(names)) == len(names) == 12
    assert "g1-ls_left_side_mm_2.dxf" in names


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_texts_come_back_as_they_were_written(version):
    part = all_sorts(name='Böttom "x" <b>=1', material="\\U+0041 日本 C^J {\\H9;x}", marks=("../A",))
    document, audit = recover.read(io.BytesIO(dxf(part, version)))
    texts = [t.dxf.text for t in document.modelspace().query("TEXT")]
    assert not audit.errors
    assert '../A: Böttom "x" <b>=1, 1 off' in texts
    assert "\\U+0041 日本 C^J {\\H9;x}, grain from left to right" in texts


def test_codes_and_control_characters_do_nothing():
    assert dxf_text("100%%c \x07bell\nnext‮reversed") == "100% %c bell nextreversed"
    assert dxf_text("A^J \\P") == "A\\U+005EJ \\U+005CP"
    assert dxf_text("é 日 \U0001f600") == "\\U+00E9 \\U+65E5 ?"
    assert dxf_text("é 日 \U0001f600", "R2010") == "é 日 \U0001f600"


@given(st.text(max_size=60))
def test_whatever_is_written_the_file_stays_a_file(text):
    data = dxf(board(name=text, material=text, marks=(text,)))
    assert data.isascii()
    assert not read(data).audit().errors


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_the_same_board_gives_the_same_bytes_in_another_process(version):
    code = (
        "import sys; sys.path[:0] = sys.argv[1:3]; import test_dxf as t;"
        f"sys.stdout.buffer.write(t.dxf(t.all_sorts(), '{version}'))"
    )
    run = [sys.executable, "-c", code, str(Path(__file__).parent), str(Path(__file__).parents[2])]
    made = [
        subprocess.run(run, env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, check=True)
        for seed in ("1", "4")
    ]
    assert made[0].stdout == made[1].stdout == dxf(all_sorts(), version)
    assert made[0].stderr == b"", "the library says nothing aloud"
