"""A copy with a measured board is a cabinet entry of its own: count 1, its own marks."""

from rodwork.documents.cutting_list import cutting_rows
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove

JOB = open("examples/first-cupboard.toml", encoding="utf-8").read()  # noqa: SIM115


def copies(count):
    return JOB.replace("[cabinets.glaze]\n", f"[cabinets.glaze]\ncount = {count}\n")


def rod(measured, count=3):
    return set_out(copies(count) + "\n[measured]\n" + measured, "job.toml")


def test_it_stands_by_itself_and_the_others_stay_together():
    found = rod('"G2-T" = { length = 564.1 }')
    assert [(c.name, c.count, c.copy_of) for c in found.cabinets] == [("glaze", 2, None), ("glaze G2", 1, "glaze")]
    assert found.cabinet["glaze"].part["top"].marks == ("G1-T", "G3-T")
    assert found.cabinet["glaze G2"].part["top"].marks == ("G2-T",)
    assert [(c.name, p.id) for c in found.cabinets for p in c.parts if p.measured] == [("glaze G2", "top")]


def test_no_board_is_lost_and_none_is_there_twice():
    def all_marks(rod):
        return sorted(m for c in rod.cabinets for p in c.parts for m in p.marks)

    plain = set_out(copies(3), "job.toml")
    assert all_marks(rod('"G2-T" = { length = 564.1 }\n"G1-LS" = { width = 319.9 }')) == all_marks(plain)


def test_every_setting_serves_the_new_entry_too_and_the_set_out_proves():
    found = rod('"G2-T" = { length = 564.1 }')
    for setup in found.setups:
        here = [(e.part, e.feature, e.along, e.across) for e in setup.features if e.cabinet == "glaze"]
        assert here == [(e.part, e.feature, e.along, e.across) for e in setup.features if e.cabinet == "glaze G2"]
    assert not prove(found)
    assert found.cabinet["glaze G2"].proof == found.cabinet["glaze"].proof


def test_a_measured_board_is_the_same_as_no_other():
    text = JOB.replace("loose_shelves = [0, 1]", "loose_shelves = [0, 3]").replace("height = 720", "height = 1100")
    found = set_out(text + '\n[measured]\n"G1-L1" = { width = 288.0 }', "job.toml")
    assert [c.name for c in found.cabinets] == ["glaze"]
    loose = [p for p in found.cabinet["glaze"].parts if p.role == "loose shelf"]
    assert [p.measured for p in loose] == [True, False, False]
    assert [p.same_as for p in loose] == [None, None, loose[1].id]


def test_the_cutting_list_has_it_as_cut_already():
    rows = cutting_rows(rod('"G2-T" = { length = 564.1 }'))
    assert [row.marks for row in rows if row.measured] == [("G2-T",)]
    assert sum(len(row.marks) for row in rows) == 3 * len(rod('"G2-T" = { length = 564.1 }').cabinets[0].parts)


def test_a_job_of_which_nothing_is_measured_is_as_it_was():
    plain = set_out(copies(2), "job.toml")
    assert [c.count for c in plain.cabinets] == [2]
    assert "copy_of" not in plain.to_dict()["cabinets"][0]


def test_a_run_names_the_entry_that_stands_there():
    text = open("examples/glazing-run.toml", encoding="utf-8").read()  # noqa: SIM115
    plain = set_out(text, "run.toml")
    side = plain.cabinet["cupboard"].part["left side"]
    found = set_out(text, "run.toml", cut=[f"{side.marks[1]} {side.size[0] + 0.4}"])

    def standing(rod):
        return [
            rod.cabinet[s.name].parts[0].marks[s.copy - 1]
            for run in rod.runs
            for s in run.standings
            if s.stands_as == "cabinet"
        ]

    assert standing(found) == standing(plain)
    assert found.cabinet["cupboard"].count == 1
    assert not prove(found)
