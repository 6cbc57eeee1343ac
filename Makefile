# Everything a fresh machine needs: Debian (or the like), Python 3.11 or later, make and git.
# `make demo` and `make test` do all the set-up themselves.

PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
STAMP  := $(VENV)/.ready

.PHONY: help demo test check types lint lock bench blocks plates sheets clean

help:           ## What can be asked for
	@grep -hE '^[a-z-]+: .*##|^[a-z-]+:  *##' $(MAKEFILE_LIST) | sed -E 's/:[^#]*## /  -  /'

demo: $(STAMP)  ## Draw both blocks and cut out a jacket for the demo wearers into out/; list what was written
	$(BIN)/tapewright demo -o out

test: $(STAMP)  ## Everything CI runs: format, lint, layers, types, all tests
	$(MAKE) --no-print-directory lint types
	$(BIN)/pytest -n 2

check: $(STAMP) ## The same without the slow tests, in under a minute
	$(MAKE) --no-print-directory lint types
	$(BIN)/pytest -n 2 -m "not slow"

lint: $(STAMP)  ## Format, lint and layers
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/lint-imports

types: $(STAMP) ## Strict types
	$(BIN)/mypy

bench: $(STAMP) ## Timings, each beside its baseline, written to docs/benchmarks.md
	$(BIN)/python -m benchmarks

blocks: $(STAMP) ## Draw both blocks on the survey's rows again and write docs/blocks.md
	$(BIN)/python -m tests.blocks

plates: $(STAMP) ## Draw again the plates that the documents show
	$(BIN)/python docs/plates.py

sheets: $(STAMP) ## Draw again the contact sheets of the garments, on six real figures each
	$(BIN)/python docs/garments.py

queries: $(STAMP) ## Run every query's file again and write docs/queries.md
	$(BIN)/python docs/queries.py

fuzz: $(STAMP)  ## 200,000 mutated lessons, then ten minutes of lessons that a fuzzer finds for itself
	$(BIN)/python -m tests.fuzz
	$(BIN)/python -m pip install --quiet --require-hashes -r tests/fuzz/requirements.lock
	$(BIN)/python -m tests.fuzz.guided 600

lock:           ## Renew requirements.lock (needs uv)
	uv pip compile --universal --python-version 3.11 --generate-hashes --no-emit-index-url \
	  --extra dev pyproject.toml -o requirements.lock
	uv pip compile --universal --python-version 3.11 --generate-hashes --no-emit-index-url \
	  tests/fuzz/requirements.in -o tests/fuzz/requirements.lock

clean:          ## Remove what was made
	rm -rf out dist .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache $(VENV)

$(STAMP): requirements.lock pyproject.toml build_faces.py faces/package-lock.json
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Tapewright needs Python 3.11 or later; PYTHON=/path/to/python3.11 make ... chooses one."; exit 1; }
	@$(PYTHON) -c 'import venv, ensurepip' 2>/dev/null || \
	  { echo "Python's venv module is missing; on Debian: apt-get install python3-venv"; exit 1; }
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --require-hashes -r requirements.lock
	$(BIN)/python -m pip install --quiet --no-deps --no-build-isolation --editable .
	touch $@
