"""Any legal design, whatever its braid: every command that reads it answers, and no bead is lost on the way."""

from pathlib import Path

from hypothesis import HealthCheck, given, settings

from braidwright.domain.design import Design
from braidwright.domain.document import write_design
from command_line import speak
from strategies import designs

some = settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])


@some
@given(design=designs())
def test_every_reader_answers(design: Design, tmp_path: Path) -> None:
    path = tmp_path / "any.json"
    path.write_text(write_design(design), encoding="utf-8")
    for command in ("check", "strings", "steps", "size", "supplies"):
        told = speak(command, str(path), "--json")
        assert (told.code, told.err, bool(told.answer)) == (0, "", True)
        assert speak(command, str(path)).code == 0


@some
@given(design=designs())
def test_the_counts_of_every_command_agree(design: Design, tmp_path: Path) -> None:
    path = tmp_path / "any.json"
    path.write_text(write_design(design), encoding="utf-8")
    beads = speak("check", str(path), "--json").answer["beads"]
    cords = speak("strings", str(path), "--json").answer["cords"]
    steps = speak("steps", str(path), "--json").answer
    bought = speak("supplies", str(path), "--json").answer["beads"]
    assert sum(len(cord["beads"]) for cord in cords) == beads
    assert sum(len(step["drop"]) for step in steps) == beads
    assert sum(need["count"] for need in bought) == beads


@some
@given(design=designs())
def test_writers_write_what_readers_read(design: Design, tmp_path: Path) -> None:
    path, other, back = (tmp_path / f"{name}.json" for name in ("any", "other", "back"))
    path.write_text(write_design(design), encoding="utf-8")
    assert speak("mirror", str(path), "-o", str(other)).code == 0
    assert speak("mirror", str(other), "-o", str(back)).code == 0
    assert back.read_bytes() == path.read_bytes()
    assert speak("resize", str(path), "-o", str(other), "--rows", "33").code == 0
    assert speak("check", str(other), "--json").answer["rows"] == 33
