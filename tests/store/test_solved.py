"""The store on disk: it gives back what it was given, nothing else, and never stands in the way.

No outside source: these are the promises of docs/decisions.md, each with a file that breaks it.
"""

import os
import pickle
import time
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pytest

from braidwright.store.solved import BESIDE, ENDING, Kept, SolvedStore, key_of

KEPT = Kept(
    arrays={"points": np.arange(12.0).reshape(4, 3), "kinds": np.array([2, 1, 1]), "none": np.zeros((0, 3))},
    facts={"rise_mm": 2.3, "steps": 336, "ending": "settled", "hollow": True, "swatch": None, "left": float("inf")},
)
KEY = "0" * 63 + "1"
OTHER = "0" * 63 + "2"


@dataclass(frozen=True, slots=True)
class Bead:
    """A part of a question."""

    diameter_mm: float


@dataclass(frozen=True, slots=True)
class Question:
    """A question."""

    columns: int
    bead: Bead | None
    rows: tuple[str, ...] = ()
    asker: str = field(default="", compare=False)


@pytest.fixture
def store(tmp_path: Path) -> SolvedStore:
    return SolvedStore(tmp_path / "far" / "down")


def only_file(folder: Path) -> Path:
    (path,) = folder.rglob("*" + ENDING)
    return path


def alike(one: Kept | None, other: Kept) -> bool:
    if one is None or one.facts != other.facts or one.arrays.keys() != other.arrays.keys():
        return False
    pairs = [(one.arrays[name], other.arrays[name]) for name in one.arrays]
    return all(a.dtype == b.dtype and a.shape == b.shape and a.tobytes() == b.tobytes() for a, b in pairs)


def test_what_was_put_is_got_to_the_last_bit(store: SolvedStore) -> None:
    assert store.get(KEY) is None
    store.put(KEY, KEPT)
    found = store.get(KEY)
    assert alike(found, KEPT)
    assert store.get(OTHER) is None
    assert found is not None
    assert not any(array.flags.writeable for array in found.arrays.values())


def test_the_later_of_two_is_got(store: SolvedStore) -> None:
    later = Kept(arrays={}, facts={"rise_mm": 1.6})
    store.put(KEY, KEPT)
    store.put(KEY, later)
    assert alike(store.get(KEY), later)


def test_no_byte_may_change_and_none_be_missing(store: SolvedStore, tmp_path: Path) -> None:
    store.put(KEY, KEPT)
    path = only_file(tmp_path)
    whole = path.read_bytes()
    for place in range(0, len(whole), 7):
        path.write_bytes(whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :])
        assert store.get(KEY) is None
        path.write_bytes(whole[:place])
        assert store.get(KEY) is None
    store.put(KEY, KEPT)
    assert alike(store.get(KEY), KEPT)


def test_a_result_under_the_name_of_another_is_not_its_result(store: SolvedStore, tmp_path: Path) -> None:
    store.put(KEY, KEPT)
    path = only_file(tmp_path)
    path.rename(path.with_name(OTHER + ENDING))
    assert store.get(OTHER) is None


class Trap:
    """Whoever unpickles it makes a folder."""

    def __init__(self, place: str) -> None:
        self.place = place

    def __reduce__(self) -> tuple[object, ...]:
        """What unpickling does."""
        return os.mkdir, (self.place,)


def test_what_others_wrote_is_passed_over_and_never_run(store: SolvedStore, tmp_path: Path) -> None:
    store.put(KEY, KEPT)
    path = only_file(tmp_path)
    sprung = tmp_path / "sprung"
    for foreign in (b"", b"\n\n\n", b"PK\x03\x04", pickle.dumps(Trap(str(sprung))), b"\xff" * 5000):
        path.write_bytes(foreign)
        assert store.get(KEY) is None
    path.unlink()
    path.mkdir()
    assert store.get(KEY) is None
    store.put(KEY, KEPT)  # cannot be put in place of a folder, and nobody is told
    assert store.get(KEY) is None
    assert not sprung.exists()
    pickle.loads(pickle.dumps(Trap(str(sprung))))  # the trap does work
    assert sprung.exists()


def test_objects_of_python_are_not_kept(store: SolvedStore) -> None:
    with pytest.raises(ValueError, match="allow_pickle"):
        store.put(KEY, Kept(arrays={"beads": np.array([Bead(3.0)], dtype=object)}, facts={}))


@pytest.mark.parametrize("wrong", ["", "1", "g" * 64, "A" * 64, "../" * 21 + "x"])
def test_a_key_is_a_digest(store: SolvedStore, wrong: str) -> None:
    with pytest.raises(ValueError, match="no key"):
        store.get(wrong)
    with pytest.raises(ValueError, match="no key"):
        store.put(wrong, KEPT)


def test_the_longest_unused_goes_first(tmp_path: Path) -> None:
    SolvedStore(tmp_path).put(KEY, KEPT)
    size = only_file(tmp_path).stat().st_size
    store = SolvedStore(tmp_path, most_bytes=3 * size)
    keys = [f"{number:064x}" for number in range(1, 5)]
    for age, key in enumerate(keys[:3]):
        store.put(key, KEPT)
        past = time.time() - 1000.0 + age
        os.utime(tmp_path / (key + ENDING), (past, past))
    assert store.get(keys[0]) is not None  # used just now, so the next one is the longest unused
    store.put(keys[3], KEPT)
    assert [store.get(key) is not None for key in keys] == [True, False, True, True]


def test_what_is_larger_than_all_room_is_not_kept(tmp_path: Path) -> None:
    SolvedStore(tmp_path, most_bytes=100).put(KEY, KEPT)
    assert list(tmp_path.iterdir()) == []
    SolvedStore(tmp_path).put(KEY, KEPT)
    assert SolvedStore(tmp_path, most_bytes=100).get(KEY) is None


def test_only_its_own_files_are_taken_away(tmp_path: Path) -> None:
    store = SolvedStore(tmp_path, most_bytes=2000)
    others = [tmp_path / "notes.txt", tmp_path / ("fresh" + BESIDE), tmp_path / ("old" + BESIDE)]
    for path in others:
        path.write_bytes(b"x" * 3000)
        past = time.time() - (100_000.0 if path.stem != "fresh" else 0.0)
        os.utime(path, (past, past))
    store.put(KEY, KEPT)
    assert [path.exists() for path in others] == [True, True, False]
    assert store.get(KEY) is not None


def test_a_folder_that_cannot_be_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    for folder in (tmp_path / "file", tmp_path / "file" / "below", Path("a\0b"), Path("x" * 5000)):
        store = SolvedStore(folder)
        store.put(KEY, KEPT)
        assert store.get(KEY) is None
    nothing = SolvedStore(None)
    nothing.put(KEY, KEPT)
    assert nothing.get(KEY) is None


@pytest.mark.parametrize("step", ["fdopen", "replace"])
def test_a_full_disk_leaves_nothing_behind(
    store: SolvedStore, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    def full(*wrong: object) -> None:
        if step == "fdopen":
            os.close(int(str(wrong[0])))
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, full)
    store.put(KEY, KEPT)
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []


def test_equal_questions_have_one_key() -> None:
    first = key_of(Question(4, Bead(3.0), ("ab",)), "1")
    assert first == key_of(Question(4, Bead(3), ("ab",)), "1")  # 3 and 3.0 are equal, so these questions are
    assert first == key_of(Question(4, Bead(3.0), ("ab",), asker="someone else"), "1")
    assert key_of(Bead(0.0), "1") == key_of(Bead(-0.0), "1") == key_of(Bead(np.float64(0.0)), "1")
    assert len(first) == 64


def test_other_questions_have_other_keys() -> None:
    asked = [
        Question(4, Bead(3.0), ("ab",)),
        Question(6, Bead(3.0), ("ab",)),
        Question(4, None, ("ab",)),
        Question(4, Bead(np.nextafter(3.0, 4.0)), ("ab",)),
        Question(4, Bead(3.0), ("a", "b")),
        Question(4, Bead(3.0), ('a",="b',)),
        Question(2**60, None),
        Question(2**60 + 1, None),
        Question(True, None),
        Question(1, None),
        (Question(1, None),),
        (),
        ((), ()),
        ((),),
        "None",
        None,
        Bead(4.0),
    ]
    keys = [key_of(each, version) for each in asked for version in ("1", "2")]
    assert len(set(keys)) == len(keys)


@dataclass
class Changing:
    """What can change is no question."""

    columns: int


@pytest.mark.parametrize("wrong", [[1], {"a": 1}, np.zeros(3), Changing(4), Bead, b"x"], ids=str)
def test_what_can_change_has_no_key(wrong: object) -> None:
    with pytest.raises(TypeError, match="cannot be part of a key"):
        key_of((1, wrong), "1")
