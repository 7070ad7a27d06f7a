"""Proofs a camera-support gear list: reads it, works out the numbers behind it and says what would not hold."""

__version__ = "0.1.0"
