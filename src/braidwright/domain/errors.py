"""Every error the program raises on purpose, as one tree.

BraidwrightError
├── BraidError       a braid that cannot be worked: which move, which slot, why
├── CatalogueError   a bead, cord, end cap or braid that is not known, or a wrong catalogue file
├── DesignError      a design that contradicts itself
├── DocumentError    a design file that cannot be read
├── RequestError     a wish that cannot be met: a number, a name, a flag
├── OutputError      a result that cannot be written
└── LibraryError     the library of designs cannot be opened, read or written
    ├── DamagedError  a state of a design that was damaged on the disk
    └── StaleError    a change made from a state that is no longer the newest one

A message is one sentence a maker understands: what is wrong, where, and what to do.
"""


class BraidwrightError(Exception):
    """Anything that went wrong and that the person at the keyboard can mend."""


class BraidError(BraidwrightError):
    """A braid that cannot be worked on a disk as it is written."""


class CatalogueError(BraidwrightError):
    """A name that the catalogue does not know, or a catalogue file with a fault."""


class DesignError(BraidwrightError):
    """A design whose parts do not fit each other."""


class DocumentError(BraidwrightError):
    """A design file that is not one, or has a wrong field."""


class RequestError(BraidwrightError):
    """A wish that cannot be met as it was made."""


class OutputError(BraidwrightError):
    """A file or folder that could not be written."""


class LibraryError(BraidwrightError):
    """The library of designs cannot be opened, read or written; what it holds is as it was."""


class DamagedError(LibraryError):
    """A state of a design that was damaged on the disk; the others can still be read."""


class StaleError(LibraryError):
    """A change made from a state that is no longer the newest one, and therefore not kept.

    Args:
        sentence: What happened and what to do.
        newest: The name of the state that is the newest now.
    """

    def __init__(self, sentence: str, newest: str) -> None:
        super().__init__(sentence)
        self.newest = newest
