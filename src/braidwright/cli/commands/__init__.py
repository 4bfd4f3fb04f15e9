"""Commands, one to a file: to add one, add a file that defines COMMAND. The file's name is the word makers type.

A command file imports what is heavy inside its function, so that the help comes at once.
"""

from braidwright.cli.command import Command
from braidwright.registry import family

COMMANDS: dict[str, Command] = family(__name__, "COMMAND", Command)
