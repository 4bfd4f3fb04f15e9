"""How hypothesis runs here.

The same examples every time and no clock, so that neither chance nor a busy machine fails a test;
`make search` looks further afield. Nothing is kept on the machine between two runs, and no process is started that
would outlive them; the tests of that give it a folder of their own.
"""

import os

from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=True, max_examples=60)
settings.register_profile("search", deadline=None, max_examples=1000, print_blob=True)
settings.load_profile("house")

os.environ["BRAIDWRIGHT_CACHE"] = "off"
# No test may open the library of whoever runs it; those that want one give a folder of their own.
os.environ["BRAIDWRIGHT_LIBRARY"] = os.path.join(os.sep, "nonexistent", "the tests give a folder of their own")
