# Every word a developer or a user types. `make` alone lists them.

VENV   := .venv
BIN    := $(VENV)/bin
DEMO   ?= designs/hill-gorse.json
PACK   ?= out/$(basename $(notdir $(DEMO)))
PYTEST ?= $(BIN)/pytest
export PYTHON

# What is installed, and from which lock: a stamp is redone when its lock or the settings change.
FOR_RUN := $(VENV)/.ready-to-run
FOR_DEV := $(VENV)/.ready-to-test
FOR_MODELS := tools/validator/node_modules/.ready
FOR_SCREEN := src/braidwright/web/screen/index.html
SCREEN     := $(shell find frontend/src frontend/public -type f) $(wildcard frontend/*.json frontend/*.ts frontend/index.html)
NODE       := $(BIN)/python tools/hatch_screen.py

.DEFAULT_GOAL := help
.PHONY: help run pack test check fix format lint types imports screen client bench search lock clean

help: ## list these words
	@echo "Braidwright. Words for make:"
	@sed -n 's/^\([a-z]*\):.*## \(.*\)/  make \1\t\2/p' Makefile | expand -t 20

run: $(FOR_RUN) $(FOR_SCREEN) ## set everything up and open the studio in the browser (Ctrl-C closes it)
	@$(BIN)/braidwright studio

pack: $(FOR_RUN) ## publish the demo design into out/
	@$(BIN)/braidwright publish $(DEMO) --solve -o $(PACK)
	@echo "The pattern pack is in $(CURDIR)/$(PACK)"

test: $(FOR_DEV) $(FOR_MODELS) $(FOR_SCREEN) ## set everything up and run every test
	@tools/chromium.sh
	$(NODE) node_modules/svelte-check/bin/svelte-check --fail-on-warnings --output human --tsconfig ./tsconfig.json
	$(NODE) node_modules/dependency-cruiser/bin/dependency-cruise.mjs --config .dependency-cruiser.cjs src
	$(NODE) node_modules/vitest/vitest.mjs run --reporter=dot
	$(PYTEST)

screen: $(FOR_DEV) $(FOR_SCREEN) ## build the screen

client: $(FOR_DEV) $(FOR_SCREEN) ## make the screen's types from the server's own document
	$(BIN)/python tools/openapi.py frontend/openapi.json
	$(NODE) node_modules/openapi-typescript/bin/cli.js openapi.json -o src/lib/contract/openapi.gen.ts

check: format lint types imports test ## what a change must pass: format, lint, types, import directions, tests

format: $(FOR_DEV) ## say which files are not in the house format
	$(BIN)/ruff format --check .

lint: $(FOR_DEV) ## say what the linter finds
	$(BIN)/ruff check .

types: $(FOR_DEV) ## check the types
	$(BIN)/mypy

imports: $(FOR_DEV) ## check which way imports run
	$(BIN)/lint-imports

fix: $(FOR_DEV) ## put files into the house format and mend what can be mended
	$(BIN)/ruff check --fix-only --exit-zero .
	$(BIN)/ruff format .

bench: $(FOR_DEV) $(FOR_SCREEN) ## measure the speeds promised in docs/benchmarks.md
	$(BIN)/python tools/bench.py
	$(BIN)/python tools/bench_solver.py
	@tools/chromium.sh
	$(BIN)/python tools/bench_studio.py

search: $(FOR_DEV) $(FOR_MODELS) ## run the property tests on many more, and fresh, examples
	$(PYTEST) --hypothesis-profile=search

lock: $(FOR_DEV) ## work out the locks again (UPGRADE=--upgrade takes newer versions)
	$(BIN)/uv pip compile $(LOCKING) --extra dev -o requirements.lock
	$(BIN)/uv pip compile $(LOCKING) --extra build -c requirements.lock -o requirements-run.lock
	cd tools/validator && NODE_USE_SYSTEM_CA=1 ../../$(BIN)/npm install --package-lock-only --ignore-scripts --no-audit --no-fund

LOCKING = --quiet --universal --generate-hashes --python-version 3.11 --no-emit-index-url \
	--custom-compile-command "make lock" $(UPGRADE) pyproject.toml

clean: ## remove what make made
	rm -rf $(VENV) tools/validator/node_modules frontend/node_modules src/braidwright/web/screen out dist build .mypy_cache .pytest_cache .ruff_cache .import_linter_cache .hypothesis

$(FOR_RUN): requirements-run.lock pyproject.toml tools/setup.sh
	@tools/setup.sh requirements-run.lock
	@touch $@

# The lock for development holds the whole of the lock for running.
$(FOR_DEV): requirements.lock pyproject.toml tools/setup.sh
	@tools/setup.sh requirements.lock
	@touch $(FOR_RUN) $@

$(FOR_SCREEN): $(SCREEN) tools/hatch_screen.py | $(FOR_RUN)
	@echo "Building the screen"
	@$(NODE)
	@touch $@

# Tests only: node and npm are in the lock for development, and `make run` needs neither.
$(FOR_MODELS): tools/validator/package-lock.json tools/validator/setup.sh | $(FOR_DEV)
	@tools/validator/setup.sh
	@touch $@
