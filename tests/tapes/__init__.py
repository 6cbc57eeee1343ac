"""Tests of the tapes."""
