"""Ways downhill, one to a file. A solver sees unknowns and a gradient, never a force."""
