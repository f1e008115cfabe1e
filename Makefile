# SPDX-License-Identifier: MIT
# forebay: `make help` lists what this file can do.

SHELL = bash
.SHELLFLAGS = -o pipefail -c

VERSION = 0.1.0

# The layers of engine/, lowest first. A file includes only from its own layer or from one further left; this list is
# what gets built and what tests/layers checks the includes against.
LAYERS = base units physics script catalogue design quantities review rulebook mend chance report api cli

PREFIX ?= /usr/local
BUILD ?= build
OBJCOPY ?= objcopy
DEMO ?= projects/stone-court.lua

# Debian packages; a|b: either will do, the first is installed.
DEPS = gcc libc6-dev pkgconf|pkg-config liblua5.4-dev libjansson-dev libgeos-dev libseccomp-dev
DEPS_TEST = $(DEPS) libcmocka-dev libudunits2-dev lua-check $(DEPS_WITNESS)
DEPS_WITNESS = python3 python3-fluids python3-scipy python3-iapws python3-shapely
DEPS_BENCH = $(DEPS) lua5.4
DEPS_LINT = $(DEPS_TEST) clang-format clang-tidy cppcheck shellcheck
PACKAGES = lua5.4 jansson geos libseccomp

# pkg-config is asked once, when a recipe first needs it: `make deps` must work before it is there.
PACKAGES_CFLAGS = $(eval PACKAGES_CFLAGS := $$(patsubst -I%,-isystem %,\
  $$(shell pkg-config --cflags $(PACKAGES))))$(PACKAGES_CFLAGS)
PACKAGES_LIBS = $(eval PACKAGES_LIBS := $$(shell pkg-config --libs $(PACKAGES)))$(PACKAGES_LIBS)

CFLAGS ?= -O2 -g -D_FORTIFY_SOURCE=2 -fstack-protector-strong
WERROR ?= -Werror
LANGUAGE = -std=c11 -Wall -Wextra -Wpedantic -Wconversion -Wshadow $(WERROR) -ffp-contract=off
# gcc alone: messages are cut to their room on purpose; and with sanitizers it takes initialized values for others.
GCC_ONLY = $(eval GCC_ONLY := $$(if $$(findstring Free Software,$$(shell $$(CC) --version)),-Wno-format-truncation \
  $(if $(SANITIZE),-Wno-maybe-uninitialized)))$(GCC_ONLY)
INCLUDES = -Iengine -Iinclude
COMPILE = $(CC) $(LANGUAGE) $(GCC_ONLY) -fPIC $(SANITIZE) $(INCLUDES) $(PACKAGES_CFLAGS) $(CPPFLAGS) $(CFLAGS)
LINK_FLAGS = -Wl,--as-needed -Wl,-z,relro,-z,now $(SANITIZE) $(LDFLAGS)
SANITIZERS = -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer

SOURCES := $(foreach layer,$(LAYERS),$(sort $(wildcard engine/$(layer)/*.c)))
OBJECTS = $(SOURCES:engine/%.c=$(BUILD)/obj/%.o)
MAIN = $(BUILD)/obj/cli/main.o
PUBLIC = $(filter-out $(BUILD)/obj/cli/%,$(OBJECTS))
ENGINE = $(BUILD)/libengine.a
COMMAND = $(BUILD)/forebay
SONAME = libforebay.so.0
SHARED = $(BUILD)/libforebay.so.$(VERSION)

# A test is one file; its name is enough. ONLY=text narrows a run to the tests whose path holds that text.
TEST_FOLDERS = tests/unit/* tests/reference tests/designs tests/rules tests/cli tests/fault
TEST_SOURCES := $(sort $(wildcard $(addsuffix /*_test.c,$(TEST_FOLDERS))))
TEST_SCRIPTS := $(sort $(wildcard tests/cli/*.sh tests/rules/*.sh tests/reference/*.sh)) \
  tests/layers tests/luacheck tests/annotations
only = $(if $(ONLY),$(foreach t,$1,$(if $(findstring $(ONLY),$t),$t)),$1)
FUZZED = $(patsubst %.c,$(BUILD)/%.o,$(call only,$(wildcard tests/fuzz/*.c)))  # compiled, so that they stay right
TESTS = $(patsubst %.c,$(BUILD)/%,$(call only,$(TEST_SOURCES)))

HEADERS = $(wildcard include/forebay/*.h)
SHARE_FILES = $(wildcard rules/trade/*.lua rules/house/*.lua projects/*.lua)
C_FILES = $(shell find engine include tests -name '*.[ch]' | sort)

QUIET = $(if $(V),,@)
CORES ?= $(shell nproc 2>/dev/null || echo 2)
JOBS = $(if $(findstring -j,$(MAKEFLAGS)),,-j$(CORES))

.PHONY: all tests demo test sanitize bench accuracy annotations install uninstall clean lint format help
.PHONY: deps deps-test deps-bench deps-lint ready FORCE
.DELETE_ON_ERROR:
.SECONDARY:

all: $(COMMAND) $(BUILD)/libforebay.a $(BUILD)/libforebay.so

# --- building

ready: $(filter deps,$(MAKECMDGOALS))
	@pkg-config --exists --print-errors $(PACKAGES) || \
	  { echo 'Libraries are missing: `make deps` installs them.' >&2; exit 1; }

# Written anew only when what they hold changes; what depends on them is then made again.
keep = @mkdir -p $(@D); echo '$1' | cmp -s - $@ || echo '$1' > $@
$(BUILD)/flags: FORCE | ready
	$(call keep,$(COMPILE) $(LINK_FLAGS))
$(BUILD)/prefix: FORCE
	$(call keep,$(PREFIX) $(VERSION))
$(BUILD)/objects: FORCE
	$(call keep,$(OBJECTS))

PLACES = -DFOREBAY_SHARE='"$(PREFIX)/share/forebay"' -DFOREBAY_VERSION='"$(VERSION)"'
$(BUILD)/obj/api/%.o $(BUILD)/obj/cli/%.o: DEFINES = $(PLACES)
$(filter $(BUILD)/obj/api/% $(BUILD)/obj/cli/%,$(OBJECTS)): $(BUILD)/prefix

$(BUILD)/obj/%.o: engine/%.c $(BUILD)/flags
	@mkdir -p $(@D); echo 'cc $<'
	$(QUIET)$(COMPILE) $(DEFINES) -MMD -MP -c -o $@ $<

# Everything but main(), with all names open: what the command and the tests link.
$(ENGINE): $(filter-out $(MAIN),$(OBJECTS)) $(BUILD)/objects
	@rm -f $@; echo 'ar $@'
	$(QUIET)$(AR) rcs $@ $(filter %.o,$^)

$(COMMAND): $(MAIN) $(ENGINE)
	@echo 'link $@'
	$(QUIET)$(CC) $(LINK_FLAGS) -o $@ $^ $(PACKAGES_LIBS) -lm

# What others link shows the names that begin with fb_ and no more.
$(BUILD)/libforebay.o: $(PUBLIC) $(BUILD)/objects
	$(QUIET)$(CC) -nostdlib -r -o $@ $(filter %.o,$^)
	$(QUIET)$(OBJCOPY) --wildcard --keep-global-symbol='fb_*' $@

$(BUILD)/libforebay.a: $(BUILD)/libforebay.o
	@rm -f $@; echo 'ar $@'
	$(QUIET)$(AR) rcs $@ $<

$(BUILD)/exports.map: FOREBAY_EXPORTS = FOREBAY_0 { global: fb_*; local: *; };
$(BUILD)/exports.map: FORCE
	$(call keep,$(FOREBAY_EXPORTS))

$(SHARED): $(PUBLIC) $(BUILD)/objects $(BUILD)/exports.map
	@echo 'link $@'
	$(QUIET)$(CC) -shared -Wl,-soname,$(SONAME) -Wl,--version-script=$(BUILD)/exports.map -Wl,-z,defs $(LINK_FLAGS) \
	  -o $@ $(filter %.o,$^) $(PACKAGES_LIBS) -lm

$(BUILD)/$(SONAME): $(SHARED)
	@ln -sf $(<F) $@

$(BUILD)/libforebay.so: $(BUILD)/$(SONAME)
	@ln -sf $(<F) $@

-include $(OBJECTS:.o=.d)

# --- testing

tests: $(COMMAND) $(TESTS) $(FUZZED)

$(BUILD)/tests/%: tests/%.c $(ENGINE) $(BUILD)/flags
	@mkdir -p $(@D); echo 'cc $@'
	$(QUIET)$(COMPILE) -Itests -DFOREBAY_ROOT='"$(CURDIR)"' -MMD -MP -MF $@.d $(LINK_FLAGS) -o $@ $< \
	  $(ENGINE) $(PACKAGES_LIBS) $(TEST_LIBS) -lm

$(BUILD)/tests/fuzz/%.o: tests/fuzz/%.c $(BUILD)/flags
	@mkdir -p $(@D); echo 'cc $@'
	$(QUIET)$(COMPILE) -MMD -MP -c -o $@ $<

TEST_LIBS = -lcmocka -ludunits2
$(BUILD)/tests/bench/%: TEST_LIBS =

-include $(TESTS:%=%.d) $(FUZZED:.o=.d) $(wildcard $(BUILD)/tests/bench/*.d)

test: deps-test | $(filter all demo,$(MAKECMDGOALS))
	+@failed=; \
	$(MAKE) --no-print-directory -k $(JOBS) $(if $(ONLY),,all) tests || failed='build'; \
	$(MAKE) --no-print-directory -k $(JOBS) sanitize || failed="$$failed build/san"; \
	CORES=$(CORES) BUILD=$(BUILD) BUILDS_FAILED="$$failed" tests/run \
	  $(TESTS) $(TESTS:$(BUILD)/%=$(BUILD)/san/%) $(call only,$(TEST_SCRIPTS))

sanitize: | $(filter all,$(MAKECMDGOALS))
	+@$(MAKE) --no-print-directory $(JOBS) BUILD=$(BUILD)/san SANITIZE='$(SANITIZERS)' CFLAGS='-O1 -g' tests

# What the tests know from outside, beside ours. WORST=1: the ten farthest apart.
accuracy: deps-test | $(filter all,$(MAKECMDGOALS))
	+@$(MAKE) --no-print-directory $(JOBS) $(BUILD)/tests/designs/checked_test $(BUILD)/tests/reference/reference_test
	@BUILD=$(BUILD) tests/accuracy/run $(if $(WORST),--worst)

# What editors read of the catalogue; kept in the tree, and tests/annotations says when they are out of date.
annotations: deps | $(filter all,$(MAKECMDGOALS))
	+@$(MAKE) --no-print-directory $(JOBS) $(COMMAND)
	@tests/annotations --write

BENCHES = $(addprefix $(BUILD)/tests/bench/,review quantities network_bench trials)
bench: deps-bench | $(filter all,$(MAKECMDGOALS))
	+@$(MAKE) --no-print-directory $(JOBS) all $(BENCHES)
	@FOREBAY=$(abspath $(COMMAND)) tests/bench/run $(DEMO)

# --- keeping it tidy

.PHONY: lint-format lint-tidy lint-cppcheck lint-lua lint-shell
lint: deps-lint
	+@$(MAKE) --no-print-directory -k lint-format lint-tidy lint-cppcheck lint-lua lint-shell

lint-format:
	clang-format --dry-run -Werror $(C_FILES)

lint-tidy:
	@echo clang-tidy; printf '%s\n' $(SOURCES) | \
	  xargs -P $(CORES) -I{} clang-tidy --quiet {} -- $(TIDY_FLAGS) 2> >(grep -v 'warnings\? generated' >&2)
TIDY_FLAGS = $(LANGUAGE) $(INCLUDES) $(PACKAGES_CFLAGS) '-DFOREBAY_SHARE=""' '-DFOREBAY_VERSION=""'

lint-cppcheck:
	cppcheck -q -j $(CORES) --std=c11 --enable=warning,performance,portability --inline-suppr --error-exitcode=1 \
	  --suppressions-list=.cppcheck-suppressions $(INCLUDES) engine

lint-lua:
	@tests/luacheck | grep -v '^ok'; exit $${PIPESTATUS[0]}

lint-shell:
	shellcheck .ci/run .ci/deps tests/run tests/layers tests/luacheck tests/annotations tests/accuracy/run tests/bench/run $(wildcard tests/*/*.sh)

format:
	clang-format -i $(C_FILES)

clean:
	rm -rf $(BUILD)

# --- packages

deps:
	@.ci/deps $(foreach p,$(DEPS),'$p')
deps-test:
	@.ci/deps $(foreach p,$(DEPS_TEST),'$p')
deps-bench:
	@.ci/deps $(foreach p,$(DEPS_BENCH),'$p')
deps-lint:
	@.ci/deps $(foreach p,$(DEPS_LINT),'$p')

# --- trying it

STATUS_0 = nothing is held by the rules in force; this is not a permit to dig
STATUS_1 = something is held: do not dig yet
STATUS_2 = a design or a rule could not be used
STATUS_3 = an internal fault of forebay: please report it

demo: deps | $(filter all,$(MAKECMDGOALS))
	+@$(MAKE) --no-print-directory $(JOBS) all
	@$(COMMAND) review $(DEMO) $(if $(wildcard rules/house/*.lua),--rules rules/house); status=$$?; \
	case $$status in 0) means='$(STATUS_0)';; 1) means='$(STATUS_1)';; 2) means='$(STATUS_2)';; 3) means='$(STATUS_3)';; \
	  *) means='forebay was stopped';; esac; \
	echo; echo "Exit status $$status: $$means."; [ $$status -le 1 ]

# --- installing

ROOT = $(DESTDIR)$(PREFIX)
LIBRARY = libforebay.a libforebay.so $(SONAME) $(notdir $(SHARED)) pkgconfig/forebay.pc
INSTALLED = bin/forebay $(addprefix lib/,$(LIBRARY)) share/man/man1/forebay.1 \
  $(HEADERS) $(SHARE_FILES:%=share/forebay/%)
FOLDERS = include/forebay $(addprefix share/forebay/,rules/trade rules/house rules projects) share/forebay

install: all
	install -d $(addprefix $(ROOT)/,bin lib/pkgconfig share/man/man1 $(FOLDERS))
	install $(COMMAND) $(ROOT)/bin/
	install -m 644 $(BUILD)/libforebay.a $(SHARED) $(ROOT)/lib/
	ln -sf $(notdir $(SHARED)) $(ROOT)/lib/$(SONAME)
	ln -sf $(SONAME) $(ROOT)/lib/libforebay.so
	sed 's|@PREFIX@|$(PREFIX)|; s|@VERSION@|$(VERSION)|; s|@PACKAGES@|$(filter-out geos libseccomp,$(PACKAGES))|' \
	  include/forebay.pc.in > $(ROOT)/lib/pkgconfig/forebay.pc
	install -m 644 engine/cli/forebay.1 $(ROOT)/share/man/man1/
	install -m 644 $(HEADERS) $(ROOT)/include/forebay/
	for f in $(SHARE_FILES); do install -m 644 $$f $(ROOT)/share/forebay/$$f || exit 1; done

# Takes away what install put there; a firm's own files beside them stay.
uninstall:
	rm -f $(addprefix $(ROOT)/,$(INSTALLED))
	-@rmdir $(addprefix $(ROOT)/,$(FOLDERS)) 2>/dev/null || true

help:
	@echo 'make [all]      build the command and the libraries into build/'
	@echo 'make demo       build, then review a demonstration garden (DEMO=file for another)'
	@echo 'make test       build plainly and with sanitizers, run every test (ONLY=text: those whose path holds it)'
	@echo 'make bench      time a whole review, trials and the flow solver; count instructions where valgrind is installed'
	@echo 'make accuracy   print every value known from outside beside ours (WORST=1: the ten farthest apart)'
	@echo 'make annotations  write what editors read of the catalogue: a JSON Schema, and annotations for Lua'
	@echo 'make deps       install the Debian packages that building needs (nothing, where none is missing)'
	@echo 'make install    into PREFIX (/usr/local), under DESTDIR; make uninstall takes it away again'
	@echo 'make lint       check format, C, Lua and shell; make format puts the format right'
	@echo 'make sanitize   the sanitizer build by itself, in build/san'
	@echo 'make clean      remove build/'
	@echo 'CC, CFLAGS, CPPFLAGS and LDFLAGS are honoured; V=1 shows the commands; WERROR= lets warnings pass.'
