# Everything a developer runs. Each target does its own set-up; what is already done is not done again.
#
#   make demo     the collar room: budget table here, HTML page and picture in target/demo/
#   make test     every check, in the order in which a mistake is cheapest to find; minutes
#   make test-deep  the same with every kept reference value recomputed, new random examples and the released module
#   make bench    speed, as ratios against peers run side by side
#   make help     the rest

SHELL       := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
MAKEFLAGS   += --no-builtin-rules
.DEFAULT_GOAL := help

PYTHON ?= python3
CARGO  ?= cargo

# The features that need no Python; the rest of the crate is `python`.
RUST_FEATURES := parallel,serde
# The profile of the compiled module: quick to build by default. `make bench` and `make wheel` take the one that is
# released, `wheel`, with its whole-program optimisation.
PROFILE ?= dev

VENV   := .venv
PY     := $(VENV)/bin/python
# maturin sets variables that PyO3's build script watches: in a folder of its own it doesn't undo cargo's work.
MATURIN_TARGET := target/python
STUB   := python/stillroom/_core.pyi

export PYO3_PYTHON := $(CURDIR)/$(PY)
export PIP_DISABLE_PIP_VERSION_CHECK := 1
export MPLBACKEND := Agg
export PROFILE
# Random examples of the Rust tests are the same in every run; `make test-deep` draws new ones.
export PROPTEST_RNG_SEED ?= 20261127

RUST_SOURCES := Cargo.toml Cargo.lock derive/Cargo.toml $(shell find src derive/src -name '*.rs' -o -name '*.csv')
PYTHON_DIRS  := $(wildcard python tests/python benches notebooks-demo)

say = @printf '\n\033[1m== %s\033[0m\n' "$(1)"

.PHONY: help demo test test-deep references bench build stubs format lint lint-rust lint-python rust features docs python types msrv wheel clean

help: ## list the targets
	@awk -F ':.*## ' '/^[a-z-]+:.*## /{printf "  make %-12s %s\n", $$1, $$2}' Makefile

# ---- set-up ---------------------------------------------------------------------------------------------------------

$(VENV)/.installed: requirements-dev.txt
	$(call say,Python environment in $(VENV))
	@$(PYTHON) -c 'import sys, venv, ensurepip; sys.exit(sys.version_info < (3, 10))' || \
	  { echo "needs Python 3.10 or newer with its venv module (set PYTHON=...)"; exit 1; }
	$(PYTHON) -m venv --clear $(VENV)
	$(PY) -m pip install --quiet --requirement requirements-dev.txt
	@touch $@

$(VENV)/.module-$(PROFILE): $(VENV)/.installed pyproject.toml $(RUST_SOURCES)
	$(call say,compiled module ($(PROFILE) profile))
	@rm -f $(VENV)/.module-*
	VIRTUAL_ENV=$(CURDIR)/$(VENV) $(VENV)/bin/maturin develop --quiet --locked --profile $(PROFILE) --target-dir $(MATURIN_TARGET)
	@touch $@

build: $(VENV)/.module-$(PROFILE) ## compile the Python module into .venv

# ---- the job --------------------------------------------------------------------------------------------------------

demo: build ## the collar room's budget: table, target/demo/*.html and *.png
	@$(PY) notebooks-demo/run_demo.py

# ---- checks ---------------------------------------------------------------------------------------------------------

test: lint rust features docs types python ## every check
	$(call say,all checks passed)

# Hours of references and long random searches; the released module.
test-deep: ## every check with all references recomputed and new random examples
	@$(MAKE) --no-print-directory PROFILE=wheel STILLROOM_REFERENCES=recompute \
	  PROPTEST_RNG_SEED=$$(date +%s) PROPTEST_CASES=1024 test

references: build ## writes tests/data/references/ anew where a module of references has changed; commit the result
	STILLROOM_REFERENCES=write $(PY) -m pytest -q

lint: lint-rust lint-python

lint-rust: $(VENV)/.installed
	$(call say,cargo fmt)
	@$(CARGO) fmt --all --check && echo "formatted"
	$(call say,clippy: library without features; everything with all of them)
	$(CARGO) clippy --quiet --locked --lib --no-default-features -- -D warnings
	$(CARGO) clippy --quiet --locked --workspace --all-targets --features $(RUST_FEATURES),python -- -D warnings
	@echo "no warnings"

lint-python: $(VENV)/.installed
	$(call say,ruff)
	@$(VENV)/bin/ruff check $(PYTHON_DIRS)
	@$(VENV)/bin/ruff format --check $(PYTHON_DIRS)

rust: ## Rust tests and documentation examples; no Python linked
	$(call say,cargo test)
	@$(CARGO) test --quiet --locked --features $(RUST_FEATURES)

features: ## each feature by itself compiles
	$(call say,features one by one)
	@for f in parallel serde; do $(CARGO) check --quiet --locked --lib --no-default-features --features "$$f" && echo "ok: features [$$f]"; done
	@if $(CARGO) tree --locked --edges normal --prefix none | grep -E '^(pyo3|numpy|rayon|serde) '; then \
	  echo "the default features must stay light"; exit 1; else echo "ok: default features bring in no pyo3, numpy, rayon or serde"; fi

docs: ## rustdoc with warnings as errors
	$(call say,rustdoc)
	@RUSTDOCFLAGS="-D warnings" $(CARGO) doc --quiet --locked --no-deps --features $(RUST_FEATURES) && echo "ok: target/doc/stillroom/index.html"

types: build ## mypy strict, stubs against the module, stubs against the source
	$(call say,mypy; stubtest; stub drift)
	@$(VENV)/bin/mypy
	@MYPYPATH=python $(VENV)/bin/stubtest stillroom
	@$(MAKE) --silent target/stubs/stillroom/_core.pyi
	@diff -u $(STUB) target/stubs/stillroom/_core.pyi && echo "ok: $(STUB) is what the source says" || \
	  { echo "$(STUB) is behind the source: run 'make stubs' and commit it"; exit 1; }

python: build ## Python tests, notebooks executed
	$(call say,pytest)
	@$(PY) -m pytest --numprocesses 2 --dist loadgroup

# ---- stubs ----------------------------------------------------------------------------------------------------------

target/stubs/stillroom/_core.pyi: $(VENV)/.installed pyproject.toml $(RUST_SOURCES)
	@$(VENV)/bin/maturin generate-stubs --quiet --profile stubs --features python,stubs --target-dir $(MATURIN_TARGET) --out target/stubs
	@$(VENV)/bin/ruff format --quiet $@
	@touch $@

stubs: target/stubs/stillroom/_core.pyi ## write python/stillroom/_core.pyi from the source
	cp $< $(STUB)

# ---- the rest -------------------------------------------------------------------------------------------------------

bench: ## Rust benchmarks, then the peers side by side
	@$(MAKE) --no-print-directory PROFILE=wheel build
	$(call say,cargo bench)
	@$(CARGO) bench --quiet --locked --features $(RUST_FEATURES)
	$(call say,peers)
	@$(PY) benches/peers/run.py

format: $(VENV)/.installed ## put every file into the house format
	$(CARGO) fmt --all
	$(VENV)/bin/ruff check --fix --exit-zero --quiet $(PYTHON_DIRS)
	$(VENV)/bin/ruff format $(PYTHON_DIRS)

msrv: ## compile with the oldest supported Rust (needs that toolchain)
	$(CARGO) +$$(sed -n 's/^rust-version = "\(.*\)"/\1.0/p' Cargo.toml) check --locked --lib --features $(RUST_FEATURES)

wheel: $(VENV)/.installed ## the wheel and the source distribution, in dist/
	$(VENV)/bin/maturin build --locked --profile wheel --target-dir $(MATURIN_TARGET) --out dist
	$(VENV)/bin/maturin sdist --out dist

clean: ## remove everything that make has made
	rm -rf target dist $(VENV) python/stillroom/_core*.so
