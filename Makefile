# make brief: build every topic and print where the PDFs are. make test: lint and all tests.
# Both set up .venv from requirements.lock when it is missing or older than the lock.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
DEBIAN := libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0

# golden: keep what the demo says and draws now; git diff shows what moved. outcomes: the same of sentences.
.PHONY: brief unlock archive report test lint bench calibrate golden outcomes topic doctor schema picture map tour demo lock clean

CORES ?= all
BUILD := $(BIN)/python -m pipeline build --cores $(CORES)

brief: $(VENV)/ready
	@$(BUILD) --briefs

# unlock: after a build that was killed.
unlock: $(VENV)/ready
	@$(BUILD) --unlock

report: brief
	@$(BUILD) --report output/report.html
	@ls output/report.html

test: lint
	@$(BIN)/python -m pytest -n 2 --dist worksteal

lint: $(VENV)/ready
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .
	@$(BIN)/snakefmt --check Snakefile
	@$(BIN)/python -m mypy

bench: $(VENV)/ready
	@$(BIN)/python -m tests.bench

archive: $(VENV)/ready
	@test -f "config/topics/$(TOPIC).yaml" || { echo "Which topic? make archive TOPIC=NAME; there are:"; \
	  ls config/topics | sed 's/\.yaml$$//'; exit 1; }
	@$(BUILD) "archive_$(TOPIC)"
	@$(BUILD)

golden: brief
	@$(BIN)/python -m tests.golden

outcomes: $(VENV)/ready
	@$(BIN)/python -m tests.outcomes

# voice: every form of what is said, with three findings each, to be read aloud.
.PHONY: voice
voice: $(VENV)/ready
	@$(BIN)/python -m tests.voice_aloud

# mutants: put small faults into modules that have changed (or have a survivor that nothing explains),
# and see whether a test fails on each.
.PHONY: mutants
mutants: $(VENV)/ready
	@$(BIN)/python -m tests.mutants

# faults: odd, damaged and hostile inputs by the thousand, and kills; FULL=1 tries all of them.
.PHONY: faults
faults: $(VENV)/ready
	@$(BIN)/python -m tests.faults

# topic: make topic NAME=my-own writes config/topics/my-own.yaml; FROM=OTHER: like that topic.
topic: $(VENV)/ready
	@$(BIN)/python -m pipeline topic "$(NAME)" $(if $(FROM),--from "$(FROM)")

doctor: $(VENV)/ready
	@$(BIN)/python -m pipeline doctor

calibrate: $(VENV)/ready
	@$(BIN)/python -m tests.calibration

schema: $(VENV)/ready
	@$(BIN)/python -m pipeline.config
	@$(BIN)/python -m pipeline.contracts
	@$(BIN)/python -m pipeline.ingest.ball_tables

picture: $(VENV)/ready
	@$(BIN)/python -m tests.picture

map: $(VENV)/ready
	@$(BIN)/python -m tests.modules

tour: $(VENV)/ready
	@$(BIN)/python -m tests.tour

demo: $(VENV)/ready
	@$(BIN)/python demo_data/generate.py

lock:
	uv pip compile --universal --python-version 3.11 --generate-hashes --extra test \
	  --no-emit-index-url --no-header -q -o requirements.lock pyproject.toml

clean:
	rm -rf output/* output/.made .snakemake

$(VENV)/ready: requirements.lock
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
	  || { echo "Python 3.11 or newer is needed; set PYTHON=/path/to/python3"; exit 1; }
	@[ ! -L $(VENV) ] || { echo "$(VENV) is a link: what it leads to would be emptied; take the link away"; exit 1; }
	@$(PYTHON) -m venv --clear $(VENV) || { echo "python venv is missing: apt-get install python3-venv"; exit 1; }
	@echo "Setting up $(VENV) from requirements.lock ..."
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	@$(BIN)/python -c 'import weasyprint' 2>/dev/null || $(MAKE) --no-print-directory libraries
	@touch $@

# WeasyPrint's system libraries: installed when that is possible, else the line to type.
.PHONY: libraries
libraries:
	@if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	  apt-get update -qq && apt-get install -y -qq --no-install-recommends $(DEBIAN) >/dev/null; fi
	@$(BIN)/python -c 'import weasyprint' 2>/dev/null || { \
	  echo "WeasyPrint needs system libraries. Type the line for your system, then make again:"; \
	  echo "  Debian or Ubuntu: sudo apt-get install $(DEBIAN)"; \
	  echo "  Fedora:           sudo dnf install pango harfbuzz"; \
	  echo "  macOS:            brew install pango"; exit 1; }
