// SPDX-License-Identifier: MIT
#include <string.h>

#include "api/handles.h"
#include "base/digest.h"

struct loading {
  const struct fb_layer *layers;
  size_t count;
  struct rulebook_budget budget;
  void (*watch)(void *with, const char *file);
  void *with;
  fb_problems *problems;
  fb_rulebook *made;
};

static void read_layer(const struct loading *order, struct report_layer *layer, const struct fb_layer *from,
                       struct problems *found) {
  struct arena *arena = order->made->arena;
  uint64_t digest = digest_begin();
  layer->name = arena_words(arena, from->name);
  for (size_t i = 0; i < from->count; i++) {
    struct file_bytes file = file_kept(arena, &from->files[i]);
    if (order->watch) order->watch(order->with, file.name);
    rulebook_read_file(order->made->rulebook, layer->name, &file, found);
    digest = digest_add(digest, file.bytes, file.length + 1);  // with its closing NUL, which parts the files
  }
  layer->digest = digest_words(arena, digest);
}

static void count_rules(fb_rulebook *made) {
  size_t count;
  const struct rule_facts *rules = rulebook_rules(made->rulebook, &count);
  for (size_t l = 0; l < made->layer_count; l++) {
    for (size_t r = 0; r < count; r++) made->layers[l].rules += strcmp(rules[r].layer, made->layers[l].name) == 0;
  }
}

static void load(struct arena *arena, void *with) {
  struct loading *order = with;
  struct problems found = problems_in(arena);
  fb_rulebook *made = order->made = arena_alloc(arena, sizeof *made);
  *made = (fb_rulebook){.arena = arena, .layer_count = order->count};
  made->rulebook = rulebook_in(arena, order->budget);
  made->layers = arena_array(arena, order->count, sizeof *made->layers);
  for (size_t i = 0; i < order->count; i++) read_layer(order, &made->layers[i], &order->layers[i], &found);
  rulebook_finish(made->rulebook, &found);
  count_rules(made);
  problems_sort(&found);
  problems_hand_over(order->problems, &found);
}

fb_rulebook *fb_rulebook_new(const struct fb_layer *layers, size_t count, const struct fb_budget *budget,
                             void (*watch)(void *with, const char *file), void *with, fb_problems *problems) {
  struct loading order = {
      .layers = layers, .count = count, .watch = watch, .with = with, .problems = problems, .made = NULL};
  if (budget) {
    order.budget = (struct rulebook_budget){.file_instructions = budget->file_instructions,
                                            .rule_instructions = budget->rule_instructions,
                                            .memory = budget->memory};
  }
  return arena_filled(NULL, load, &order, problems) ? order.made : NULL;
}

void fb_rulebook_free(fb_rulebook *rulebook) {
  if (rulebook) arena_free(rulebook->arena);
}

bool fb_rulebook_whole(const fb_rulebook *rulebook) { return rulebook_whole(rulebook->rulebook); }

size_t fb_rulebook_count(const fb_rulebook *rulebook) {
  size_t count;
  rulebook_rules(rulebook->rulebook, &count);
  return count;
}

struct breaking {
  fb_rulebook *rulebook;
  const char *id, *because;
};

static void break_rule(void *with) {
  const struct breaking *order = with;
  struct arena *arena = order->rulebook->arena;
  rulebook_break(order->rulebook->rulebook, order->id, arena_words(arena, order->because));
}

void fb_rulebook_break(fb_rulebook *rulebook, const char *rule_id, const char *because) {
  struct breaking order = {rulebook, rule_id, because};
  arena_try(rulebook->arena, break_rule, &order);
}

// --- as text

struct describing {
  const struct rulebook *rulebook;
  const char *id;
  fb_problems *problems;
};

static bool fail_unknown(struct text *text, const struct describing *order) {
  struct problems found = problems_in(text->arena);
  problem_add(&found, (struct problem){.said = "no rule of this name is in force",
                                       .read = order->id,
                                       .right = rulebook_nearest(order->rulebook, order->id)});
  problems_hand_over(order->problems, &found);
  return false;
}

static bool describe(struct text *text, void *with) {
  const struct describing *order = with;
  if (!order->id) {
    rulebook_list(order->rulebook, text);
    return true;
  }
  return rulebook_describe(order->rulebook, order->id, text) || fail_unknown(text, order);
}

fb_text *fb_rulebook_text_new(fb_rulebook *rulebook, const char *id, fb_problems *problems) {
  struct describing order = {rulebook->rulebook, id, problems};
  struct beside beside = {.arena = rulebook->arena};
  return text_filled(&beside, describe, &order, problems);
}

// --- its own examples

struct testing {
  struct rulebook *rulebook;
  struct rule_test_style style;
  void (*watch)(void *with, const char *rule);
  void *with;
  struct rule_test_counts counts;
};

static void tell_rule(void *with, const char *rule, const char *entity) {
  const struct testing *order = with;
  (void)entity;
  if (order->watch) order->watch(order->with, rule);
}

static bool test(struct text *text, void *with) {
  struct testing *order = with;
  order->counts = rulebook_test(order->rulebook, text, order->style, (struct rulebook_watch){tell_rule, order});
  return true;
}

static fb_text *test_all(fb_rulebook *rulebook, struct testing *order, size_t *passed, size_t *failed,
                         fb_problems *problems) {
  struct beside beside = {.arena = rulebook->arena};
  order->rulebook = rulebook->rulebook;
  fb_text *text = text_filled(&beside, test, order, problems);
  *passed = order->counts.passed;
  *failed = order->counts.failed;
  return text;
}

fb_text *fb_rule_test_new(fb_rulebook *rulebook, void (*watch)(void *with, const char *rule), void *with,
                          size_t *passed, size_t *failed, fb_problems *problems) {
  struct testing order = {.watch = watch, .with = with};
  return test_all(rulebook, &order, passed, failed, problems);
}

fb_text *fb_rule_test_tap_new(fb_rulebook *rulebook, bool files_lost, void (*watch)(void *with, const char *rule),
                              void *with, size_t *passed, size_t *failed, fb_problems *problems) {
  struct testing order = {.style = {.tap = true, .files_lost = files_lost}, .watch = watch, .with = with};
  return test_all(rulebook, &order, passed, failed, problems);
}
