// SPDX-License-Identifier: MIT
#include <stdio.h>

#include "script/quantity_inside.h"
#include "units/read.h"

// q"2 ft 6 in"
struct q_job {
  const char *text;
  size_t length;
  struct reading reading;
  struct text wrong, right;
  bool fine;
};

static void read_any(void *with) {
  struct q_job *job = with;
  job->fine = unit_read_any(job->text, job->length, &job->reading, &job->wrong, &job->right);
}

static int push_poisoned(lua_State *L) {
  script_push_quantity(L, 0, (struct powers){0})->flags = SCRIPT_POISONED;
  return 1;
}

static int refuse_reading(lua_State *L, struct q_job *job) {
  char said[160], right[160], read[96];
  snprintf(said, sizeof said, "this value %.120s", text_end(&job->wrong));
  copy_words(right, sizeof right, text_end(&job->right));
  copy_words(read, sizeof read, job->text);
  script_slip(L, said, read, *right ? right : NULL);
  return push_poisoned(L);
}

int word_q(lua_State *L) {
  if (script_to_quantity(L, 1)) {
    lua_settop(L, 1);
    return 1;
  }
  if (script_is_stand_in(L, 1)) return push_poisoned(L);
  if (lua_type(L, 1) != LUA_TSTRING) {
    char buffer[64];
    size_t length;
    const char *read = lua_isnone(L, 1) ? NULL : words_of_value(L, 1, buffer, sizeof buffer, &length);
    script_slip(L, "q reads a text with a unit", read, "the value in quotes, as in q\"2 ft 6 in\"");
    return push_poisoned(L);
  }
  struct arena *arena = scratch_arena(L);
  struct q_job job = {.wrong = text_in(arena), .right = text_in(arena)};
  job.text = lua_tolstring(L, 1, &job.length);
  script_charge(L, job.length / 64 + 1);
  script_in_arena(L, arena, read_any, &job);
  if (!job.fine) return refuse_reading(L, &job);
  struct script_quantity *quantity =
      script_push_quantity(L, job.reading.value, dimension_row(job.reading.dimension)->powers);
  quantity->tolerance = job.reading.tolerance;
  return 1;
}
