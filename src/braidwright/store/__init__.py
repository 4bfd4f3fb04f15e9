"""The store: what the program keeps on this machine between two runs, and could always work out again."""
