"""Find the members of a family: every file of a folder that defines the family's constant.

A family folder is a list that nobody keeps: adding a file is the whole change. Its `__init__.py` says which
constant a member defines, and asks `family` for all of them.
"""

from importlib import import_module
from pkgutil import iter_modules
from typing import TypeVar

Member = TypeVar("Member")


class FamilyError(Exception):
    """A file in a family folder that is not a member. For the person who wrote it, not for a maker."""


def family(package: str, constant: str, kind: type[Member]) -> dict[str, Member]:
    """Every member of a family, by file name.

    Args:
        package: The folder, as its `__init__.py` knows it: pass `__name__`.
        constant: The name each file must define, such as "FORMAT".
        kind: The type the constant must have.

    Returns:
        The members in the order of their file names.

    Raises:
        FamilyError: A file does not define the constant, defines it with another type, or offers a member
            that another file offers already. What begins with an underscore is a helper, not a member.
    """
    folder = import_module(package)
    names = sorted(found.name for found in iter_modules(folder.__path__) if not found.name.startswith("_"))
    members: dict[str, Member] = {}
    for name in names:
        where = f"{package}.{name}"
        member = getattr(import_module(where), constant, None)
        if not isinstance(member, kind):
            raise FamilyError(f"{where} must define {constant}: {kind.__name__}")
        _refuse_twins(member, where, members)
        members[name] = member
    return members


def _refuse_twins(member: object, where: str, others: dict[str, Member]) -> None:
    """Two members with one `name`, or one member offered by two files, are a copy that was not finished."""
    name = getattr(member, "name", None)
    for stem, other in others.items():
        if other is member or (name is not None and getattr(other, "name", None) == name):
            again = member if name is None else name
            raise FamilyError(f"{where} offers {again} again: {stem} already does; give it its own name")
