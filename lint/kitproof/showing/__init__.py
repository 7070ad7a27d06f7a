"""Findings and numbers made into text, JSON and the rest. Every way of showing starts from the same objects."""
