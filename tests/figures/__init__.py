"""Tests of the line figures."""
