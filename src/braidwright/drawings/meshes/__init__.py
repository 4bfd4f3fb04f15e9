"""The rope as a solid: turn a bead, sweep a cord, put the model together, write it down."""
