"""Chapters of a pattern, one to a file; whole.py puts them in order."""
