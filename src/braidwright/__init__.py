"""A studio for beaded kumihimo: design a rope, string it, size it, and publish a pattern for it."""

__version__ = "0.1.0"
