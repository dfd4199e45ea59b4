# Everything runs in .venv, made from a bare Python 3.11 or newer by the first target that needs it.
# Its packages come from requirements/*.txt, checked against their hashes.

VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip install --quiet --disable-pip-version-check
LOCKED := $(PIP) --require-hashes
WORKERS ?= 2
PYTEST_ARGS ?=
# `make demo` goes on from the plan and its sheets to the site, until Ctrl-C; SERVE=0 stops before.
SERVE ?= 1
PORT ?= 8734

# A stamp is newer than every file it was made from; a changed lock brings the environment up to date.
PROGRAM := $(VENV)/.program
TOOLS := $(VENV)/.tools

.PHONY: help demo pictures storyline test soak bench validate mutation docs lint format coverage lock clean
.DEFAULT_GOAL := help

help:
	@echo "make demo      plan the demo club's session, print its sheets into sheets/, serve its site"
	@echo "               (SERVE=0 stops before the site, PORT=8735 serves it there)"
	@echo "make test      run the tests (installs the system parts they need where it may)"
	@echo "make lint      ruff, mypy, the contract on imports, and reference pages that are up to date"
	@echo "make format    put the code into the project's layout"
	@echo "make bench     benchmarks, as ratios"
	@echo "make soak      the random tests with ten times as many cases"
	@echo "make coverage  the tests, with the branches they leave out"
	@echo "make validate  published protocols and invented athletes against the model (minutes):"
	@echo "               docs/reference/validation.md, docs/reference/learning.md"
	@echo "make mutation  change a hundred operators, one at a time, and see whether a test notices (an"
	@echo "               hour or more): docs/reference/mutation.md"
	@echo "make docs      every generated page of docs/reference/ but learning.md"
	@echo "make pictures  every picture of docs/pictures/, with those of the site"
	@echo "make storyline the storyline of the demo club: each day's screens into storyline/, and"
	@echo "               docs/reference/coachs-day.md"
	@echo "make lock      resolve requirements/*.txt again (LOCK_ARGS=--upgrade for newest releases)"
	@echo "make clean     remove what the other targets wrote, except the environment"

demo: $(PROGRAM)
ifneq ($(SERVE),0)
	@$(BIN)/python tools/free_port.py $(PORT)
endif
	@$(BIN)/squadwright plan --demo
	@$(BIN)/squadwright print --demo --out sheets/
ifneq ($(SERVE),0)
	@echo "Making the site ready: some seconds, on a busy machine half a minute."
	@$(BIN)/squadwright serve --demo --port $(PORT)
endif

test: $(TOOLS)
	@tools/system_parts
	@$(BIN)/python -m pytest -n $(WORKERS) --dist worksteal --benchmark-disable -m "not soak" $(PYTEST_ARGS)

soak: $(TOOLS)
	@tools/system_parts
	@SQUADWRIGHT_SOAK=1 $(BIN)/python -m pytest -n $(WORKERS) --dist worksteal --benchmark-disable \
	  -m "soak or random_cases or hypothesis" $(PYTEST_ARGS)

coverage: $(TOOLS)
	@tools/system_parts
	@$(BIN)/python -m pytest -n $(WORKERS) --dist worksteal --benchmark-disable -m "not soak" \
	  --cov --cov-report=term $(PYTEST_ARGS)

bench: $(TOOLS)
	@$(BIN)/python -m pytest benchmarks --benchmark-only --benchmark-group-by=group \
	  --benchmark-columns=median,rounds --benchmark-sort=name $(PYTEST_ARGS)

mutation: $(TOOLS)
	@$(LOCKED) -r requirements/mutation.txt
	@$(BIN)/python tools/mutation.py cover
	@$(BIN)/python tools/mutation.py try
	@$(BIN)/python tools/mutation.py write

lint: $(TOOLS)
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check --output-format concise .
	@$(BIN)/mypy
	@$(BIN)/lint-imports --no-logo
	@$(BIN)/python tools/reference_pages.py --check command-line formulas

format: $(TOOLS)
	@$(BIN)/ruff check --fix .
	@$(BIN)/ruff format .

validate: $(PROGRAM)
	@$(BIN)/python tools/reference_pages.py validation learning

docs: $(PROGRAM)
	@$(BIN)/python tools/reference_pages.py

pictures: $(TOOLS)
	@tools/system_parts
	@$(BIN)/python tools/pictures.py
	@$(BIN)/python tools/screenshots.py

storyline: $(TOOLS)
	@tools/system_parts
	@SQUADWRIGHT_STORYLINE=1 $(BIN)/python -m pytest -q tests/browser/test_storyline.py

lock: $(TOOLS)
	@UV=$(BIN)/uv tools/lock $(LOCK_ARGS)

clean:
	rm -rf sheets storyline dist build .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis \
	  .benchmarks .coverage .coverage.*
	find src tests benchmarks tools -name __pycache__ -type d -prune -exec rm -rf {} +

$(VENV)/bin/python:
	@python=$$(tools/find_python) && echo "Making $(VENV) with $$python" && "$$python" -m venv $(VENV)

$(PROGRAM): requirements/runtime.txt requirements/build.txt pyproject.toml | $(VENV)/bin/python
	@echo "Installing the program's packages into $(VENV) (about a minute the first time)"
	@$(LOCKED) -r requirements/runtime.txt -r requirements/build.txt
	@$(PIP) --no-deps --no-build-isolation --editable .
	@touch $@

$(TOOLS): requirements/test.txt requirements/data.txt requirements/dev.txt $(PROGRAM)
	@echo "Installing the test and development packages into $(VENV)"
	@$(LOCKED) -r requirements/test.txt -r requirements/dev.txt
	@$(LOCKED) --no-deps -r requirements/data.txt
	@touch $@
