"""How hypothesis runs here: the same examples every time, and no clock, so that a busy machine fails nothing."""

from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=True, max_examples=60)
settings.register_profile("search", deadline=None, max_examples=1000, print_blob=True)
settings.load_profile("house")
