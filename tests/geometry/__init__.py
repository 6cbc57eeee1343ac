"""Checks of the 2-D maths against closed forms, published formulas and other libraries."""
