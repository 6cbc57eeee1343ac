"""Tests of the units."""
