"""Use cases, one file each: the only conductor of files. What it does is said in plain records."""
