"""The library keeps every state, hands back what it was given, and never overwrites a change unseen.

No outside source: these are the promises of docs/decisions.md.
"""

import threading
from datetime import datetime
from pathlib import Path

import pytest

from braidwright.domain.errors import LibraryError, RequestError, StaleError
from braidwright.store.library.records import Change, state_after
from library_kit import NOW, change, later, opened

HOSTILE = "<script>alert('x')</script>'; DROP TABLE states; -- %s {} \N{RIGHT-TO-LEFT OVERRIDE}漢字🧶\0\x1b[31m"


def test_every_state_is_there_byte_for_byte_after_opening_again(tmp_path: Path) -> None:
    contents = [b"", b"\xef\xbb\xbf{}\r\n", b"\xff\x00not text", b"x" * 300_000]
    with opened(tmp_path) as library:
        entry = library.create(change(contents[0]))
        newest = entry.newest
        for at, content in enumerate(contents[1:], 1):
            newest = library.save(entry.design, newest.name, change(content, at=later(at)))
    with opened(tmp_path) as library:
        history = library.history(entry.design)
        assert [library.content(entry.design, state.name) for state in history] == contents
        assert [state.parent for state in history] == [None, *(state.name for state in history[:-1])]
        assert [state.number for state in history] == [1, 2, 3, 4]
        assert all(state.is_true for state in history)
        assert library.entry(entry.design).newest == newest == history[-1]
        assert library.entry(entry.design).begun == NOW


def test_a_change_from_a_state_that_is_not_the_newest_is_refused(tmp_path: Path) -> None:
    with opened(tmp_path) as one, opened(tmp_path) as other:
        entry = one.create(change("0"))
        newest = other.save(entry.design, entry.newest.name, change("1"))
        with pytest.raises(
            StaleError, match=r"“Hedge” was changed elsewhere since \(state 2, 2026-11-25 04:00"
        ) as told:
            one.save(entry.design, entry.newest.name, change("2"))
        assert told.value.newest == newest.name
        assert [state.content_sum for state in one.history(entry.design)] == [
            entry.newest.content_sum,
            newest.content_sum,
        ]


def test_what_changes_nothing_or_was_sent_twice_makes_no_state(tmp_path: Path) -> None:
    """A window whose answer was lost sends its change again, and must not be told that it was beaten to it."""
    with opened(tmp_path) as library:
        entry = library.create(change("0"))
        first = library.save(entry.design, entry.newest.name, change("1"))
        assert library.save(entry.design, entry.newest.name, change("1", at=later(5))) == first
        assert library.save(entry.design, first.name, change("1", at=later(9))) == first
        assert library.save(entry.design, first.name, change("1", title="Other")).number == 3


def test_an_earlier_content_can_come_back_as_a_new_state(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        entry = library.create(change("0"))
        second = library.save(entry.design, entry.newest.name, change("1"))
        again = Change(content=b"0", title="Hedge", facts=(), doing="back", at=later(1), brought_back=entry.newest.name)
        third = library.save(entry.design, second.name, again)
        assert (third.number, third.parent, third.brought_back) == (3, second.name, entry.newest.name)
        assert library.content(entry.design, second.name) == b"1"
        with pytest.raises(RequestError, match="never was in the state"):
            library.save(
                entry.design,
                third.name,
                Change(content=b"0", title="", facts=(), doing="", at=NOW, brought_back="f" * 64),
            )


def test_hostile_texts_stay_text(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        entry = library.create(change(HOSTILE, title=HOSTILE, notes=HOSTILE))
    with opened(tmp_path) as library:
        found = library.entry(entry.design)
        assert (found.newest.title, found.newest.facts) == (HOSTILE, (("notes", HOSTILE),))
        assert [each.design for each in library.entries("<SCRIPT> drop %s 漢字 🧶")] == [entry.design]
        assert library.entries("%") != ()
        assert library.entries("_x_") == ()


def test_half_of_a_pair_becomes_its_escape_and_a_long_title_is_cut(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        entry = library.create(change(title="a\ud800b" + "c" * 10_000, notes="\udfff"))
        assert entry.newest.title.startswith("a\\ud800bcc")
        assert len(entry.newest.title) == 300
        assert library.entries("\\udfff")


def test_a_search_wants_every_word_and_no_case_or_accent(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        bla = library.create(change("1", title="Blå Straße", beads="Pärlor, Ørsted", at=later(1)))
        red = library.create(change("2", title="Red lane", beads="pearl", at=later(2)))
        for words in ("bla", "BLA strasse", "orsted parlor", "  ", "strasse\tBlÅ"):
            assert bla.design in [each.design for each in library.entries(words)], words
        assert [each.design for each in library.entries()] == [red.design, bla.design]
        assert library.entries("bla pearl") == ()
        library.save(bla.design, bla.newest.name, change("3", title="Green", at=later(3)))
        assert library.entries("bla") == ()
        assert [each.design for each in library.entries()] == [bla.design, red.design]


def test_thrown_away_is_out_of_the_list_and_can_be_taken_back(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        entry = library.create(change())
        library.remove(entry.design, later(1))
        library.remove(entry.design, later(9))
        assert library.entries() == ()
        assert [each.removed for each in library.entries(removed=True)] == [later(1)]
        with pytest.raises(RequestError, match="thrown away"):
            library.save(entry.design, entry.newest.name, change("2"))
        library.take_back(entry.design)
        assert library.entries() == (entry,)


def test_purging_goes_by_age_and_leaves_nothing_of_it_in_the_file(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        old, new, kept = (library.create(change(text, title=text)) for text in ("older-one", "newer-one", "kept-one"))
        library.remove(old.design, later(1))
        library.remove(new.design, later(2))
        assert library.purge(later(2)) == 1
        assert [each.design for each in library.entries(removed=True)] == [new.design]
        with pytest.raises(RequestError, match="no design"):
            library.history(old.design)
        assert library.content(kept.design, kept.newest.name) == b"kept-one"
        assert library.create(change()).design > kept.design  # a number is never given again
    content = (tmp_path / "library.sqlite").read_bytes()
    assert b"older-one" not in content
    assert b"newer-one" in content


def test_purging_keeps_a_content_that_another_design_has_too(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        one, two = library.create(change("same")), library.create(change("same", at=later(1)))
        library.remove(one.design, NOW)
        library.purge(later(1))
        assert library.content(two.design, two.newest.name) == b"same"


@pytest.mark.parametrize("design", [0, -1, 2, 2**63, 10**30])
def test_a_design_that_is_not_there_is_a_sentence(tmp_path: Path, design: int) -> None:
    with opened(tmp_path) as library:
        library.create(change())
        with pytest.raises(RequestError, match="There is no design"):
            library.entry(design)
        with pytest.raises(RequestError, match="There is no design"):
            library.save(design, "f" * 64, change())


@pytest.mark.parametrize("name", ["", "f" * 64, "x" * 100_000, "\ud800" * 64, "é" * 64, "'; --"])
def test_a_state_that_is_not_there_is_a_sentence(tmp_path: Path, name: str) -> None:
    with opened(tmp_path) as library:
        entry = library.create(change())
        with pytest.raises(RequestError, match="never was in the state"):
            library.content(entry.design, name)
        with pytest.raises(StaleError):
            library.save(entry.design, name, change("2"))


def test_a_moment_without_its_zone_is_a_fault_of_the_caller() -> None:
    with pytest.raises(ValueError, match="time zone"):
        change(at=datetime(2026, 1, 1))


def test_the_name_of_a_state_says_everything_of_it() -> None:
    first = state_after(None, change("0"))
    names = {
        state_after(first, each).name
        for each in (
            change("1"),
            change("2"),
            change("1", title="b"),
            change("1", at=later(1)),
            change("1", notes="n"),
            Change(content=b"1", title="Hedge", facts=(), doing="other", at=NOW),
            Change(content=b"1", title="Hedge", facts=(), doing="painted", at=NOW, brought_back=first.name),
        )
    } | {state_after(None, change("1")).name, first.name}
    assert len(names) == 9


def test_threads_share_a_library(tmp_path: Path) -> None:
    faults: list[Exception] = []

    def work(library_at: int) -> None:
        try:
            entry = library.create(change(f"{library_at}", title=f"t{library_at}"))
            newest = entry.newest
            for step in range(5):
                newest = library.save(entry.design, newest.name, change(f"{library_at} {step}"))
            assert len(library.history(entry.design)) == 6
        except Exception as fault:
            faults.append(fault)

    with opened(tmp_path) as library:
        threads = [threading.Thread(target=work, args=(at,)) for at in range(6)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert faults == []
        assert len(library.entries()) == 6


def test_a_closed_library_says_so(tmp_path: Path) -> None:
    with opened(tmp_path) as library:
        library.close()
        with pytest.raises(LibraryError, match="closed"):
            library.entries()
