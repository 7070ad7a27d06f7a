"""Pairing: which sticks, head and slide of the parts books in use carry a rig in every combination."""
