"""Fitting of what the measures of a body tell about each other, from two public surveys of real people.

`python -m fitting` writes `src/tapewright/measures/model.json`, which the program reads when it is asked for
an estimate or looks at a sheet as a whole. Nothing here is part of the program.
"""
