"""Documents to rigs, parts, cases, moves and orders: typed, frozen, in SI."""
