# make demo   draw every size of every spec in specs/ into output/
# make test   everything that is checked before a change goes in
# make quick  the tests but those that take long
# make lint   the part of it that reads the code without running it
# make lowest the tests with the lowest versions pyproject.toml allows; notes that they passed
# make lock   lock versions after a change of pyproject.toml; upgrade=--upgrade takes the newest of all
# make fuzz   what make test tries on some random examples, on all of them; then thousands of random designs,
#             drawn and written, read back and measured, and thousands of spoilt specs
# make bench  speed, as ratios within one run
# make clean  remove what these have written, except .venv and .venv-lowest

# Neighbours stay together, so that what they share is made once; who is done takes over from the other.
pytest = .venv/bin/pytest -n 2 --dist worksteal

.PHONY: demo test tests quick lint lowest lowest-if-changed lock fuzz bench clean

demo:
	@sh .ci/setup run
	@code=0; .venv/bin/schematics build || code=$$?; \
	echo "The drawings are in output/<design>/<size>/pieces.svg and pieces.png,"; \
	echo "the numbers in output/<design>/measurements.json."; \
	test $$code -le 1

# Reading the code takes one processor a while, most of it mypy: tests run beside it.
test:
	@sh .ci/setup dev
	@$(MAKE) --no-print-directory --jobs 2 lint tests

tests:
	@sh .ci/setup dev
	$(pytest)

quick:
	@sh .ci/setup dev
	$(pytest) -m 'not slow'

lint:
	@sh .ci/setup dev
	.venv/bin/ruff check
	.venv/bin/ruff format --check
	.venv/bin/mypy
	.venv/bin/lint-imports --no-cache

lowest_declared = { sed -n '/^requires-python/p; /^dependencies = /,/^]/p; /^\[project.optional/,/^$$/p' pyproject.toml; \
	cat .ci/requirements/lowest.txt; } | cksum

lowest:
	@sh .ci/setup lowest
	.venv-lowest/bin/pytest -n 2 --dist worksteal
	@$(lowest_declared) >.ci/requirements/lowest.passed

lowest-if-changed:
	@$(lowest_declared) | cmp -s - .ci/requirements/lowest.passed || $(MAKE) lowest

lock:
	@sh .ci/setup dev
	@sh .ci/lock $(upgrade)

fuzz:
	@sh .ci/setup dev
	$(pytest) -m 'hypothesis or seeds or thorough' --hypothesis-profile thorough
	@.venv/bin/python -m tests.fuzz.fuzz_specs
	@.venv/bin/python -m tests.fuzz.fuzz_figures
	@.venv/bin/python -m tests.fuzz.fuzz_patterns
	@.venv/bin/python -m tests.fuzz.fuzz_drawings
	@.venv/bin/python -m tests.fuzz.fuzz_grading
	@.venv/bin/python -m tests.fuzz.fuzz_kills
	@.venv/bin/python -m tests.fuzz.fuzz_writes
	@.venv/bin/python -m tests.fuzz.fuzz_cloth

bench:
	@sh .ci/setup dev
	@.venv/bin/python -m tests.bench.bench_size
	@.venv/bin/python -m tests.bench.bench_fit
	@.venv/bin/python -m tests.bench.bench_grading
	@.venv/bin/python -m tests.bench.bench_pattern
	@.venv/bin/python -m tests.bench.bench_serve
	@.venv/bin/python -m tests.bench.bench_batch
	@.venv/bin/python -m tests.bench.bench_cloth

clean:
	rm -rf output/* .mypy_cache .pytest_cache .ruff_cache .hypothesis build *.egg-info
	find schematics tests -name __pycache__ -type d -prune -exec rm -rf {} +
