"""Shipped garments drawn for people on whom no rule was fitted."""
