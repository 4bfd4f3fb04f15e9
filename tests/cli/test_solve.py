"""--solve: size, supplies and the pack rest on the tightened braid where it can be done, and say so."""

from pathlib import Path

from command_line import speak

DESIGNS = Path(__file__).resolve().parents[2] / "designs"


def test_a_rope_of_one_bead_is_solved_and_says_so() -> None:
    file = str(DESIGNS / "two-becks.json")
    quick, solved = (speak("size", file, "--json", *more).answer for more in ((), ("--solve",)))
    assert (quick["basis"], solved["basis"]) == ("estimated", "solved")
    # physics.md, section 1: the formula against the solver, eight cords
    assert abs(solved["rise_mm"] / quick["rise_mm"] - 1) <= 0.03
    assert abs(solved["diameter_mm"] / quick["diameter_mm"] - 1) <= 0.023
    assert "worked out from the contact" in speak("size", file, "--solve").out


def test_supplies_and_fit_rest_on_the_solved_shape_too() -> None:
    file = str(DESIGNS / "ridge-at-dusk.json")
    quick, solved = (speak("supplies", file, "--json", *more).answer for more in ((), ("--solve",)))
    assert quick["cord"][0]["cut_mm"] != solved["cord"][0]["cut_mm"]
    quick, solved = (speak("size", file, "--json", "--wrist", "165mm", *more).answer for more in ((), ("--solve",)))
    # longer rows, so fewer of them
    assert solved["rise_mm"] > quick["rise_mm"]
    assert solved["fit"]["rows"] < quick["fit"]["rows"]


def test_what_cannot_be_solved_yet_keeps_the_formula() -> None:
    file = str(DESIGNS / "hill-gorse.json")
    assert speak("size", file, "--json", "--solve").answer["basis"] == "estimated"
