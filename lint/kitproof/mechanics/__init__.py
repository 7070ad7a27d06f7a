"""Mechanics: the mathematics of the bench check on plain floats and intervals; it knows no part, rig or list."""
