"""The library: every design of a maker with every state it ever had, in one SQLite file on this machine.

It keeps contents, titles and facts to search by, and knows nothing of braids: who calls it has read the design.
"""
