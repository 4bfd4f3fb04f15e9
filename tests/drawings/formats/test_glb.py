"""The model in the pack: one for each hand, none while the shape is not known."""

from dataclasses import replace

from braidwright.drawings.formats.glb import FORMAT
from glb_file import read_glb
from packs import files, pattern


def test_there_is_a_model_for_each_hand() -> None:
    made = dict(FORMAT.write(pattern()).files)
    assert list(made) == ["model/hand-s/rope.glb", "model/hand-z/rope.glb"]
    for path, content in made.items():
        assert read_glb(content).model["asset"]["extras"]["hand"].lower() == path[len("model/hand-")]


def test_without_a_shape_there_is_no_model_and_the_maker_is_told() -> None:
    known = pattern()
    unknown = replace(
        known, hands=tuple(replace(part, subject=replace(part.subject, geometry=None)) for part in known.hands)
    )
    written = FORMAT.write(unknown)
    assert written.files == ()
    assert written.warnings == (
        "There is no 3D model yet, because the shape of this rope is not predicted; measure a swatch.",
    )


def test_the_pack_tells_of_it() -> None:
    assert "model/hand-s/rope.glb" in files()["README.txt"].decode()
    assert "3D model" in files()["README.txt"].decode()


def test_a_rope_that_no_viewer_could_turn_has_no_model_and_the_maker_is_told() -> None:
    known = pattern()
    endless = replace(known, design=replace(known.design, rows=("mmmm",) * 3001, motifs=()))
    written = FORMAT.write(endless)
    assert written.files == ()
    assert "12000 stitches" in written.warnings[0]
