"""What the commands answer, against the published working of the braids and against each other."""

import csv
import json
from pathlib import Path

import pytest

from braidwright import __version__
from command_line import DESIGN, speak, write_design

BEADS = sum(row.count("a") + row.count("b") + 2 * row.count("k") for row in DESIGN["rows"])

# The first round of kongoh gumi of eight cords, S: trade-facts 1.1 [SZ], topcenter.typepad.com, S-twist and Z-twist
# kongo gumi. The two moves of a pair may be made in either order.
FIRST_ROUND_S = [{(16, 2), (32, 18)}, {(8, 26), (24, 10)}, {(1, 19), (17, 3)}, {(25, 11), (9, 27)}]
# Check 1 of trade-facts, section 10 [SZ][IT].
FIRST_ROUND_Z = [{(17, 31), (1, 15)}, {(25, 7), (9, 23)}, {(32, 14), (16, 30)}, {(8, 22), (24, 6)}]


@pytest.mark.parametrize(("hand", "pairs"), [("S", FIRST_ROUND_S), ("Z", FIRST_ROUND_Z)])
def test_steps_begin_with_the_published_round(tmp_path: Path, hand: str, pairs: list[set[tuple[int, int]]]) -> None:
    steps = speak("steps", write_design(tmp_path, hand=hand), "--json", "--to", "8").answer
    moves = [(step["from"], step["to"]) for step in steps]
    assert [{*moves[at : at + 2]} for at in (0, 2, 4, 6)] == pairs


def test_steps_tell_what_they_are_asked_for(design: str) -> None:
    every = speak("steps", design, "--json").answer
    assert [step["n"] for step in every] == list(range(1, 4 * len(DESIGN["rows"]) + 1))
    assert set(every[0]) >= {"n", "cord", "from", "to", "station", "column", "row", "drop"}
    assert speak("steps", design, "--json", "--from", "5", "--to", "9").answer == every[4:9]
    assert sum(len(step["drop"]) for step in every) == BEADS


def test_strings_are_what_the_steps_let_fall(design: str) -> None:
    """No bead is lost, and the first strung is the first dropped."""
    cords = speak("strings", design, "--json").answer["cords"]
    steps = speak("steps", design, "--json").answer
    assert [cord["slot"] for cord in cords] == [32, 1, 8, 9, 16, 17, 24, 25]
    for cord in cords:
        fallen = [bead for step in steps if step["cord"] == cord["slot"] for bead in step["drop"]]
        assert cord["beads"] == fallen
        assert len(cord["drops"]) == sum(step["cord"] == cord["slot"] for step in steps)
    assert sum(len(cord["beads"]) for cord in cords) == BEADS


def test_strings_in_words_count_equal_beads_together(tmp_path: Path) -> None:
    """The north column is served by 32, 1, 16, 17 in turn: trade-facts, section 5, mirrored to S."""
    told = speak("strings", write_design(tmp_path, rows=["aaaa"] * 3 + ["baaa"] + ["aaaa"] * 4, motifs=[]))
    assert "Slot 32, 4 beads: 4 Moss\n" in told.out
    assert "Slot 17, 4 beads: 1 Moss, 1 Pearl, 2 Moss\n" in told.out


@pytest.mark.parametrize(("hand", "shift"), [("S", 1), ("Z", -1)])
def test_braids_tells_one_braid(hand: str, shift: int) -> None:
    """Two repeats make the published round of -2 or +2 slots, and all are home after two rounds: checks 2 and 3."""
    told = speak("braids", "kongoh-8", "--hand", hand, "--json").answer
    assert (told["hand"], told["shift"], told["slots"]) == (hand, shift, 32)
    assert (told["repeats_home"], told["repeats_same_slots"]) == (4, 32)
    assert sorted(told["permutation"]) == sorted(told["start"])
    assert {move["kind"] for move in told["moves"]} == {"move"}
    assert {(move["from"], move["to"]) for move in told["moves"]} == set.union(
        *(FIRST_ROUND_S if hand == "S" else FIRST_ROUND_Z)[:2]
    )
    assert told["source"]


def test_braids_lists_every_braid_once() -> None:
    listed = speak("braids", "--json").answer
    assert {braid["name"] for braid in listed} >= {"kongoh-8", "kongoh-12", "kongoh-16", "kongoh-24", "maru-yotsu"}
    assert len({braid["name"] for braid in listed}) == len(listed)


def test_the_seven_cord_braid_of_a_makers_own_file(tmp_path: Path) -> None:
    """Check 7 of trade-facts, section 10 (found by simulation): order after 7 moves, same slots after 56."""
    path = tmp_path / "own.toml"
    path.write_text("slots = 32\nstart = [4, 8, 12, 20, 24, 28, 32]\nmoves = [[4, 16]]\n", encoding="utf-8")
    told = speak("braids", str(path), "--json").answer
    assert (told["repeats_home"], told["repeats_same_slots"]) == (7, 56)


def test_size_says_what_it_rests_on(design: str, tmp_path: Path) -> None:
    told = speak("size", design, "--json").answer
    assert told["basis"] == "corrected by a swatch"
    assert told["length_mm"] == pytest.approx(46 / 20 * len(DESIGN["rows"]))
    other = speak("size", write_design(tmp_path, braid="maru-yotsu", hand="Z", motifs=[], swatch=None), "--json")
    assert other.code == 2  # a swatch of null is no swatch
    plain = {**DESIGN, "braid": "tubular-8", "hand": "Z", "rows": ["aaaaaaaa"] * 9, "motifs": []}
    del plain["swatch"]
    (tmp_path / "tube.json").write_text(json.dumps(plain), encoding="utf-8")
    told = speak("size", str(tmp_path / "tube.json"), "--json").answer
    assert (told["basis"], told["length_mm"], told["diameter_mm"]) == ("not predicted yet", None, None)


def test_size_tells_give_or_take_in_words_and_as_numbers(design: str, tmp_path: Path) -> None:
    assert speak("size", design, "--json").answer["drift_error_deg"] is None
    swatches = [{"rows": 40, "length_mm": 92, "turn_rows": 30}, {"rows": 40, "length_mm": 93, "diameter_mm": 7}]
    name = write_design(tmp_path, swatches=swatches)
    told = speak("size", name, "--json").answer
    assert told["length_error_mm"] == pytest.approx(told["rise_error_mm"] * len(DESIGN["rows"]), rel=0.01)
    assert told["drift_error_deg"] == pytest.approx(0.2)
    said = speak("size", name).out
    assert f", give or take {told['length_error_mm']:.0f} mm" in said
    assert f"mm a row, give or take {told['rise_error_mm']:.2f} mm" in said
    assert "once round in 30 rows, give or take 0.5 rows" in said


def test_a_twist_is_tried_without_changing_the_file(design: str, tmp_path: Path) -> None:
    """physics.md, 5: a disk held still turns 360/32 degrees a repeat, work that hangs free 16 to 20."""
    before = Path(design).read_bytes()
    held, hanging = (speak("size", design, "--json", "--twist", word).answer for word in ("held", "Hanging"))
    assert (held["drift_deg"], held["twist"], held) == (11.25, "held", speak("size", design, "--json").answer)
    assert 16.0 <= hanging["drift_deg"] <= 20.0
    assert hanging["twist"] == "hanging"
    for typed_deg, deg in (("14.5", 14.5), ("-14.5", -14.5), ("14.5deg", 14.5), ("14.5\u00b0", 14.5)):
        told = speak("size", design, "--json", "--twist", typed_deg).answer
        assert (told["drift_deg"], told["twist"]) == (deg, "asked")
    assert "that of work that hangs free" in speak("size", design, "--twist", "hanging").out
    assert Path(design).read_bytes() == before
    assert speak("publish", design, "-o", str(tmp_path / "pack"), "--twist", "hanging").code == 0
    assert json.loads((tmp_path / "pack" / "design.json").read_text(encoding="utf-8"))["twist"] == "hanging"


def test_a_core_is_shown_and_listed(tmp_path: Path) -> None:
    name = write_design(tmp_path, cords={**DESIGN["cords"], "core": {"mm": 2.5}})
    assert "Core       2.5 mm thick" in speak("size", name).out
    assert speak("supplies", name, "--json").answer["core"]["thick_mm"] == 2.5
    assert "core cord: 2.5 mm thick. Cut 1 x" in speak("supplies", name).out
    (line,) = [line for line in speak("supplies", name, "--csv").out.splitlines() if line.startswith("core cord")]
    assert line.startswith("core cord,,2.5 mm thick,,,1,")
    lost = write_design(tmp_path, cords={**DESIGN["cords"], "core": "straw"})
    told = speak("check", lost, "--json").answer
    assert told["can_be_braided"] is False
    assert told["faults"][0]["sentence"].startswith("Cords, core: The catalogue has no cord called 'straw'")


def test_supplies_count_every_bead_and_cut_enough(design: str) -> None:
    told = speak("supplies", design, "--json", "--pieces", "3", "--spare", "0").answer
    assert sum(bead["count"] for bead in told["beads"]) == 3 * BEADS
    (cord,) = told["cord"]
    assert (cord["count"], cord["total_mm"]) == (24, 24 * cord["cut_mm"])
    assert cord["cut_mm"] > speak("size", design, "--json").answer["cord_used_mm"]
    assert {"end cap", "clasp"} == {finding["what"] for finding in told["findings"]}


def test_folded_cords_are_half_as_many_and_twice_as_long(design: str) -> None:
    (single,) = speak("supplies", design, "--json").answer["cord"]
    (folded,) = speak("supplies", design, "--json", "--folded").answer["cord"]
    assert (folded["count"], folded["cut_mm"]) == (single["count"] / 2, single["cut_mm"] * 2)
    assert (folded["total_mm"], folded["cost"]) == (single["total_mm"], single["cost"])


def test_supplies_as_csv_say_the_same(design: str) -> None:
    told = speak("supplies", design, "--json").answer
    lines = list(csv.DictReader(speak("supplies", design, "--csv").out.splitlines()))
    assert [(line["key"], int(line["count"])) for line in lines if line["what"] == "bead"] == [
        (bead["key"], bead["count"]) for bead in told["beads"]
    ]
    assert [float(line["cut_mm"]) for line in lines if line["what"] == "cord"] == [told["cord"][0]["cut_mm"]]


def test_mirror_twice_is_nothing(design: str, tmp_path: Path) -> None:
    for flags in ((), ("--same-picture",)):
        first, second = str(tmp_path / "1.json"), str(tmp_path / "2.json")
        assert speak("mirror", design, "-o", first, *flags).code == 0
        assert speak("mirror", first, "-o", second, *flags).code == 0
        there, back = (json.loads(Path(name).read_text(encoding="utf-8")) for name in (first, second))
        assert (there["hand"], back) == ("Z", DESIGN)


def test_mirror_everything_keeps_rows_and_strings(design: str, tmp_path: Path) -> None:
    """Slot k becomes 33 - k and nothing else changes: trade-facts, section 9, recipe 3."""
    speak("mirror", design, "-o", str(tmp_path / "z.json"))
    here = speak("strings", design, "--json").answer["cords"]
    there = speak("strings", str(tmp_path / "z.json"), "--json").answer["cords"]
    assert [(33 - cord["slot"], cord["beads"]) for cord in there] == [(cord["slot"], cord["beads"]) for cord in here]


def test_resize_up_and_down_again_is_nothing(design: str, tmp_path: Path) -> None:
    longer, again = str(tmp_path / "longer.json"), str(tmp_path / "again.json")
    assert speak("resize", design, "-o", longer, "--rows", "44").code == 0
    assert speak("resize", longer, "-o", again, "--rows", "24").code == 0
    assert json.loads(Path(again).read_text(encoding="utf-8")) == DESIGN


def test_resize_for_a_wrist_is_the_formula(tmp_path: Path) -> None:
    """Check 22 of trade-facts, section 10 [JIF]: wrist 7 in, half an inch of ease, 8 mm thick is 8.49 in."""
    swatch = {"rows": 10, "length_mm": 10, "diameter_mm": 8}
    name = write_design(tmp_path, swatch=swatch)
    out = str(tmp_path / "fit.json")
    done = speak("resize", name, "-o", out, "--wrist", "7in", "--ease", "1/2 in", "--findings", "0")
    assert done.code == 0, done.err
    assert len(json.loads(Path(out).read_text(encoding="utf-8"))["rows"]) == round(8.49 * 25.4)


def test_size_for_a_neckline_in_words_and_in_figures(design: str) -> None:
    """Princess is 18 in: check 28 of trade-facts, section 10 [MRB]."""
    named = speak("size", design, "--json", "--neckline", "princess").answer["fit"]
    figures = speak("size", design, "--json", "--neckline", "18in").answer["fit"]
    assert named == figures
    assert named["finished_mm"] == pytest.approx(18 * 25.4, abs=1.2)


def test_a_design_comes_through_a_pipe(design: str) -> None:
    content = Path(design).read_bytes()
    mirrored = speak("mirror", "-", "-o", "-", stdin=content)
    assert json.loads(mirrored.out)["hand"] == "Z"
    back = speak("mirror", "-", "-o", "-", stdin=mirrored.out.encode())
    assert json.loads(back.out) == DESIGN


def test_new_writes_what_check_accepts(tmp_path: Path) -> None:
    for number, flags in enumerate(
        (
            (),
            ("--wrist", "170mm", "--hand", "Z"),
            ("--length", "165mm", "--bead", "round-11/0"),
            ("--rows", "9", "--braid", "tubular-16", "--bead", "none"),
        )
    ):
        name = str(tmp_path / f"new-{number}.json")
        assert speak("new", name, *flags).code == 0
        told = speak("check", name, "--json")
        assert (told.code, told.answer["can_be_braided"], told.answer["warnings"]) == (0, True, []), flags


def test_new_with_a_braid_of_ones_own_stands_alone(tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text("slots = 32\nstart = [4, 8, 12, 20, 24, 28, 32]\nmoves = [[4, 16]]\n", encoding="utf-8")
    name = str(tmp_path / "own.json")
    assert speak("new", name, "--braid", str(own), "--hand", "S", "--rows", "30").code == 0
    own.unlink()
    assert speak("check", name, "--json").answer["hand"] == "S"


def test_new_leaves_a_file_alone_unless_forced(design: str) -> None:
    before = Path(design).read_bytes()
    refused = speak("new", design)
    assert refused.is_one_sentence()
    assert Path(design).read_bytes() == before
    assert speak("new", design, "--force").code == 0
    assert Path(design).read_bytes() != before


def test_own_catalogue_files_before_and_after_the_command(tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text(
        "[[bead]]\nname = 'clay-3'\nshape = 'round'\ndiameter_mm = 3\nlength_mm = 2\nhole_mm = 0.9\ngrams = 0.02\n",
        encoding="utf-8",
    )
    name = write_design(tmp_path, tray={"a": {"bead": "clay-3", "colour": "#112233"}}, rows=["aaaa"], motifs=[])
    assert speak("size", name).is_one_sentence()
    assert speak("size", name, "--catalogue", str(own)).code == 0
    assert speak("--beads", str(own), "size", name).code == 0


def test_unknown_fields_are_warned_about_and_kept(tmp_path: Path) -> None:
    name = write_design(tmp_path, colour_of_the_lid="\ud800 red")
    told = speak("mirror", name, "-o", str(tmp_path / "m.json"))
    assert told.code == 0
    assert "colour_of_the_lid" in told.err
    assert json.loads((tmp_path / "m.json").read_text(encoding="utf-8"))["colour_of_the_lid"] == "\ud800 red"


def test_the_version_is_told() -> None:
    assert speak("--version").out == f"braidwright {__version__}\n"


def test_nothing_a_file_holds_moves_the_cursor_or_makes_markup(tmp_path: Path) -> None:
    name = write_design(tmp_path, title="[bold]Hedge[/bold] :bee:", cords={"kind": "tex-210", "colours": ["#000000"]})
    for command in ("check", "size", "supplies", "strings"):
        told = speak(command, name)
        assert "[bold]Hedge[/bold] :bee:" in told.out
        assert "\x1b" not in told.out + told.err
