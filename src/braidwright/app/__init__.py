"""Use cases: what a person can ask for, as verbs. The one place where catalogue, physics and drawings meet."""
