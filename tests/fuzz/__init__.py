"""Mutated lessons: whatever a text may hold, reading and planning answer, and soon."""
