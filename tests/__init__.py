"""Tests; the main job is checked against something outside the project, named beside each check."""
