# make                build/gorewright
# make first-balloon  the starter design, its sheets and its templates, in a folder
#                     (a design that is there already is kept)
# make check          build and run the tests
# make bench          counted instructions, memory and sizes, each with its limit
# make asan           the tests again, with the address and undefined-behaviour sanitizers
# make valgrind       every command on every sample, with memory checked
# make coverage       lines of each source file that the tests run
# make lint           gcc, clang, cppcheck, clang-tidy, mandoc: no warning is let pass
# make install        into $(DESTDIR)$(PREFIX); make uninstall takes it out again

PREFIX ?= /usr/local
CFLAGS ?= -O2 -g
PKG_CONFIG ?= pkg-config
BUILD ?= build
# Set WERROR=-Werror to stop at the first warning, as `make lint` does.
WERROR ?=
# Short lines; V=1 shows every command in full, make -s none.
V ?=
SILENT := $(findstring s,$(firstword -$(MAKEFLAGS)))
QUIET := $(if $(V),,@)
SAY := @$(if $(V)$(SILENT),true,echo)

VERSION := 0.1
WARNINGS := -Wall -Wextra -Wshadow -Wconversion -Wdouble-promotion -Wstrict-prototypes \
	-Wmissing-prototypes -Wvla -Wformat=2 -Wundef
DEFINES := -D_POSIX_C_SOURCE=200809L -DVERSION='"$(VERSION)"'
ALL_CFLAGS = -std=c11 $(DEFINES) -Iinclude -Isrc $(WARNINGS) $(WERROR) -MMD -MP $(CFLAGS)
CONFIG_CFLAGS = $(shell $(PKG_CONFIG) --cflags libconfig)
CURSES_CFLAGS = $(shell $(PKG_CONFIG) --cflags ncursesw)
LIBS = $(shell $(PKG_CONFIG) --libs libconfig ncursesw) -lm

SOURCES := $(sort $(wildcard src/*/*.c))
OBJECTS := $(SOURCES:src/%.c=$(BUILD)/%.o)
TEST_SOURCES := $(sort $(wildcard tests/*/test_*.c))
TESTS := $(TEST_SOURCES:tests/%.c=$(BUILD)/tests/%)
BENCH_SOURCES := $(sort $(wildcard tests/bench/*.c))
BENCHES := $(BENCH_SOURCES:tests/%.c=$(BUILD)/tests/%)
# Geometry is tested against a general library.
TEST_LIBS = $(shell $(PKG_CONFIG) --libs cmocka gsl)
PAGES := $(sort $(wildcard man/*.[1-8]))
SAMPLES := $(sort $(wildcard samples/*))

all: $(BUILD)/gorewright

$(BUILD)/gorewright: $(BUILD)/main.o $(OBJECTS)
	$(SAY) link $@
	$(QUIET)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)

# The one file that knows curses.
$(BUILD)/screen/terminal.o: CONFIG_CFLAGS = $(CURSES_CFLAGS)

$(BUILD)/%.o: src/%.c
	@mkdir -p $(@D)
	$(SAY) cc $<
	$(QUIET)$(CC) $(ALL_CFLAGS) $(CONFIG_CFLAGS) -c -o $@ $<

$(BUILD)/tests/%.o: tests/%.c
	@mkdir -p $(@D)
	$(SAY) cc $<
	$(QUIET)$(CC) $(ALL_CFLAGS) -Itests -c -o $@ $<

$(BUILD)/tests/%: $(BUILD)/tests/%.o $(BUILD)/tests/support.o $(OBJECTS)
	$(SAY) link $@
	$(QUIET)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS) $(TEST_LIBS)

# ---- a first balloon -----------------------------------------------------------

FIRST := first-balloon
first-balloon: all
	mkdir -p $(FIRST)
	test -e $(FIRST)/design.cfg || $(BUILD)/gorewright starter -o $(FIRST)/design.cfg
	$(BUILD)/gorewright sheets -o $(FIRST)/sheets.txt $(FIRST)/design.cfg
	$(BUILD)/gorewright templates -o $(FIRST)/templates.ps $(FIRST)/design.cfg
	@$(BUILD)/gorewright check $(FIRST)/design.cfg
	@echo
	@echo "Read $(FIRST)/sheets.txt, look at $(FIRST)/templates.ps in a document viewer,"
	@echo "change $(FIRST)/design.cfg in any editor, or on the screens:"
	@echo "    $(BUILD)/gorewright $(FIRST)/design.cfg"

# ---- tests -------------------------------------------------------------------

tests: all $(TESTS) $(BENCHES)

# Every driver runs, even after one has failed; the sum decides.
check: all $(TESTS)
	@failed=; for test in $(TESTS); do \
		GOREWRIGHT=$(abspath $(BUILD)/gorewright) $$test || failed="$$failed $$test"; \
	done; \
	if [ -n "$$failed" ]; then echo "failed:$$failed"; exit 1; fi; \
	echo "all $(words $(TESTS)) test drivers passed"

bench: all $(BENCHES)
	GOREWRIGHT=$(abspath $(BUILD)/gorewright) PROGRAMS='$(BENCHES)' sh tests/bench/bench.sh

SANITIZE := -O1 -g -fno-omit-frame-pointer -fsanitize=address,undefined -fno-sanitize-recover=all
asan:
	$(MAKE) -s BUILD=$(BUILD)/asan CFLAGS='$(SANITIZE)' check

valgrind: all
	GOREWRIGHT=$(abspath $(BUILD)/gorewright) sh tests/bench/memory.sh $(SAMPLES)

coverage:
	$(MAKE) -s BUILD=$(BUILD)/coverage CFLAGS='-O0 -g --coverage' check
	sh tests/bench/coverage.sh $(BUILD)/coverage $(SOURCES)

# ---- lint --------------------------------------------------------------------

LINTED := $(wildcard src/*.c src/*/*.c)
lint:
	$(MAKE) -s BUILD=$(BUILD)/gcc CC=gcc WERROR=-Werror tests
	$(MAKE) -s BUILD=$(BUILD)/clang CC=clang WERROR=-Werror tests
	cppcheck --quiet --std=c11 --enable=warning,portability,performance --inline-suppr \
		--suppress=missingIncludeSystem --suppress=uninitvar \
		--suppress=duplicateAssignExpression --suppress=negativeIndex:src/paper/typeface.c \
		--error-exitcode=1 $(DEFINES) -Iinclude -Isrc $(LINTED)
	if command -v clang-tidy >/dev/null; then clang-tidy --quiet $(LINTED) -- -std=c11 \
		$(DEFINES) -Iinclude -Isrc; fi
	mandoc -Tlint -Wwarning $(PAGES)

# ---- install -----------------------------------------------------------------

DATA = $(DESTDIR)$(PREFIX)/share/gorewright
MAN = $(DESTDIR)$(PREFIX)/share/man

install: all
	install -d $(DESTDIR)$(PREFIX)/bin $(DATA)/samples
	install -m 755 $(BUILD)/gorewright $(DESTDIR)$(PREFIX)/bin/gorewright
	for page in $(PAGES); do \
		install -D -m 644 $$page $(MAN)/man$${page##*.}/$${page##*/} || exit 1; done
	for sample in $(SAMPLES); do install -m 644 $$sample $(DATA)/samples || exit 1; done

uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/gorewright
	for page in $(PAGES); do rm -f $(MAN)/man$${page##*.}/$${page##*/}; done
	rm -rf $(DATA)

clean:
	rm -rf $(BUILD)

-include $(shell find $(BUILD) -name '*.d' 2>/dev/null)

.PHONY: all first-balloon tests check bench asan valgrind coverage lint install uninstall clean
.SECONDARY:
