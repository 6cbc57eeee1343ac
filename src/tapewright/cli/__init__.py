"""The command line: it reads arguments, calls one use case, prints. Nothing is worked out here."""
