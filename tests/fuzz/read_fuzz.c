// SPDX-License-Identifier: MIT
// For clang's fuzzer: any bytes as a design in Lua and in JSON.
//   clang -g -O1 -fsanitize=fuzzer,address,undefined -Iengine tests/fuzz/read_fuzz.c build/libengine.a -llua5.4
//   -ljansson -lgeos_c -lm
// A run starts from tests/designs: ./a.out corpus tests/designs tests/designs/broken
#include <stddef.h>
#include <stdint.h>

#include "design/read.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

struct reading_job {
  struct arena *arena;
  struct file_bytes file;
};

static void read_one(void *with) {
  struct reading_job *job = with;
  struct problems problems = problems_in(job->arena);
  const struct store *store = design_read(job->arena, &job->file, &problems);
  if ((store == NULL) != (problems.count > 0)) __builtin_trap();
  struct text told = text_in(job->arena);
  problems_write(&told, &problems, 100);
}

static void read_as(const char *name, const uint8_t *data, size_t size) {
  struct arena *arena = arena_new();
  if (!arena) return;
  struct reading_job job = {arena, {name, arena_copy(arena, (const char *)data, size), size}};
  arena_try(arena, read_one, &job);
  arena_free(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  read_as("fuzz.lua", data, size);
  read_as("fuzz.json", data, size);
  return 0;
}
