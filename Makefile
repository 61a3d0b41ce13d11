# make            build/gorewright
# make check      build and run the tests
# make bench      counted instructions, memory and sizes, each with its limit
# make install    into $(DESTDIR)$(PREFIX)

PREFIX ?= /usr/local
CFLAGS ?= -O2 -g
PKG_CONFIG ?= pkg-config
BUILD ?= build

VERSION := 0.1
WARNINGS := -Wall -Wextra -Wshadow -Wconversion -Wdouble-promotion -Wstrict-prototypes \
	-Wmissing-prototypes -Wvla -Wformat=2 -Wundef
# Set WERROR=-Werror to stop at the first warning, as the continuous check does.
WERROR ?=
ALL_CFLAGS = -std=c11 -D_POSIX_C_SOURCE=200809L -Iinclude -Isrc -DVERSION='"$(VERSION)"' \
	$(WARNINGS) $(WERROR) -MMD -MP $(CFLAGS)
CONFIG_CFLAGS = $(shell $(PKG_CONFIG) --cflags libconfig)
LIBS = $(shell $(PKG_CONFIG) --libs libconfig) -lm

SOURCES := $(sort $(wildcard src/*/*.c))
OBJECTS := $(SOURCES:src/%.c=$(BUILD)/%.o)
TEST_SOURCES := $(sort $(wildcard tests/*/test_*.c))
TESTS := $(TEST_SOURCES:tests/%.c=$(BUILD)/tests/%)
# Tests of geometry against a general library, and tests that run the program.
TEST_LIBS = $(shell $(PKG_CONFIG) --libs cmocka) $(shell $(PKG_CONFIG) --libs gsl)

all: $(BUILD)/gorewright

$(BUILD)/gorewright: $(BUILD)/main.o $(OBJECTS)
	$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)

$(BUILD)/%.o: src/%.c
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) $(CONFIG_CFLAGS) -c -o $@ $<

$(BUILD)/tests/%.o: tests/%.c
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) -Itests -c -o $@ $<

$(BUILD)/tests/%: $(BUILD)/tests/%.o $(BUILD)/tests/support.o $(OBJECTS)
	$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS) $(TEST_LIBS)

# Every driver runs, even after one has failed; the sum decides.
check: $(BUILD)/gorewright $(TESTS)
	@failed=; for test in $(TESTS); do \
		GOREWRIGHT=$(abspath $(BUILD)/gorewright) $$test || failed="$$failed $$test"; \
	done; \
	if [ -n "$$failed" ]; then echo "failed:$$failed"; exit 1; fi; \
	echo "all $(words $(TESTS)) test drivers passed"

clean:
	rm -rf $(BUILD)

-include $(shell find $(BUILD) -name '*.d' 2>/dev/null)

.PHONY: all check clean
.SECONDARY:
