"""The forces that a tight braid balances: one to a file, energy and gradient together.

A force is a compiled function of a cell and its points; it adds its gradient and returns its energy. To add one, write
its file and add it up in `balance.py`.
"""
