"""The tightening: how a braid settles under tension. Knows no names, only numbers."""
