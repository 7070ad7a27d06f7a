"""The trade's words: dimensions, units, kinds of part, their fields. Plain tables that every other room reads."""
