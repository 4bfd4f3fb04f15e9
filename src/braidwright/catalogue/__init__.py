"""What we know how to make, and from what: braids, beads, cords and end caps, one TOML file each.

To add one, add a file to the folder of its family; `tests/catalogue/` judges it with no further edit.
"""
