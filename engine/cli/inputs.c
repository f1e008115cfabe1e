// SPDX-License-Identifier: MIT
#define _GNU_SOURCE  // realpath, readlink
#include "cli/inputs.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char *folder_of(struct arena *arena, const char *path) {
  const char *slash = strrchr(path, '/');
  if (!slash) return ".";
  return slash == path ? "/" : arena_copy(arena, path, (size_t)(slash - path));
}

// Which of them the design names is not known before the child has read it. One that cannot be read is missing only if
// the design names it, and then the child says so.
static size_t read_beside(struct problems *problems, const char *path, struct file_bytes **beside) {
  struct problems quiet = problems_in(problems->arena);
  const char **names;
  size_t count, read = 0;
  if (!file_list(&quiet, folder_of(problems->arena, path), ".csv", &names, &count, NULL)) return 0;
  *beside = arena_array(problems->arena, INPUT_MOST_BESIDE, sizeof **beside);
  for (size_t i = 0; i < count && read < INPUT_MOST_BESIDE; i++) {
    read += file_read(&quiet, names[i], INPUT_MOST, &(*beside)[read]);
  }
  return read;
}

bool inputs_read_design(struct inputs *inputs, struct problems *problems, const char *path) {
  if (!file_read(problems, path, INPUT_MOST, &inputs->design)) return false;
  inputs->beside_count = read_beside(problems, path, &inputs->beside);
  return true;
}

bool inputs_read_other(struct inputs *inputs, struct problems *problems, const char *path) {
  struct input_other *other = &inputs->others[inputs->other_count];
  if (!file_read(problems, path, INPUT_MOST, &other->design)) return false;
  other->beside_count = read_beside(problems, path, &other->beside);
  inputs->other_count++;
  return true;
}

// Where the rules are in the tree that this program was built in; NULL: it runs elsewhere.
static const char *rules_of_the_tree(struct arena *arena) {
  char self[PATH_MAX];
  ssize_t length = readlink("/proc/self/exe", self, sizeof self - 1);
  if (length <= 0) return NULL;
  self[length] = '\0';
  char *slash = strrchr(self, '/');
  if (!slash) return NULL;
  *slash = '\0';
  struct text path = text_in(arena);
  text_printf(&path, "%s/../rules/trade", self);
  char real[PATH_MAX];
  return file_is_folder(path.at) && realpath(path.at, real) ? arena_words(arena, real) : NULL;
}

static const char *trade_rules(struct arena *arena) {
  const char *named = getenv("FOREBAY_RULES");
  if (named && *named) return named;
  const char *near = rules_of_the_tree(arena);
  return near ? near : FOREBAY_SHARE "/rules/trade";
}

// A layer is called after its folder or file: "house" for rules/house/ and for house.lua.
static const char *layer_name(struct arena *arena, const char *path) {
  char real[PATH_MAX];
  const char *whole = realpath(path, real) ? real : path;
  const char *slash = strrchr(whole, '/');
  const char *last = slash && slash[1] ? slash + 1 : whole;
  size_t length = strlen(last);
  bool lua = length > 4 && strcmp(last + length - 4, ".lua") == 0;
  return arena_copy(arena, last, lua ? length - 4 : length);
}

static bool read_folder(struct inputs *inputs, struct problems *problems, struct input_layer *layer, const char *path) {
  const char **names;
  size_t count;
  bool whole;
  if (!file_list(problems, path, ".lua", &names, &count, &whole)) return false;
  inputs->whole = inputs->whole && whole;
  if (count == 0) {
    problem_add(problems, (struct problem){.at = {path, 0}, .said = "there is no rule file (*.lua) in this folder"});
    return false;
  }
  layer->files = arena_array(problems->arena, count, sizeof *layer->files);
  for (size_t i = 0; i < count; i++) {
    bool read = file_read(problems, names[i], INPUT_MOST, &layer->files[layer->count]);
    layer->count += read;
    inputs->whole = inputs->whole && read;
  }
  return true;
}

// Two layers of one name would pass for one, and a firm's own `trade` for the trade's.
static const char *layer_name_of_its_own(const struct inputs *inputs, struct arena *arena, const char *path) {
  const char *name = layer_name(arena, path);
  for (size_t i = 0; i < inputs->layer_count; i++) {
    if (strcmp(inputs->layers[i].name, name) == 0) return arena_words(arena, path);
  }
  return name;
}

static bool read_layer(struct inputs *inputs, struct problems *problems, const char *name, const char *path) {
  struct input_layer *layer = &inputs->layers[inputs->layer_count];
  layer->name = name;
  inputs->layer_count++;
  if (file_is_folder(path)) return read_folder(inputs, problems, layer, path);
  layer->files = arena_alloc(problems->arena, sizeof *layer->files);
  layer->count = 1;
  return file_read(problems, path, INPUT_MOST, layer->files);
}

static bool read_trade(struct inputs *inputs, struct problems *problems) {
  const char *path = trade_rules(problems->arena);
  if (read_layer(inputs, problems, "trade", path)) return true;
  problem_add(problems, (struct problem){.said = "the trade rules cannot be read, and nothing is judged without them",
                                         .read = path,
                                         .right = "their folder in FOREBAY_RULES, or install forebay again"});
  return false;
}

bool inputs_read_rules(struct inputs *inputs, struct problems *problems, const struct settings *settings) {
  const struct words *rules = &settings->rules;
  size_t most = settings->without_house ? 0 : rules->count;
  size_t checked = settings->check ? settings->operands.count : 0;
  inputs->layers = arena_array(problems->arena, most + checked + 1, sizeof *inputs->layers);
  inputs->whole = true;
  inputs->layer_count = 0;
  bool read = read_trade(inputs, problems);
  for (size_t i = 0; read && i < most; i++) {
    read = read_layer(inputs, problems, layer_name_of_its_own(inputs, problems->arena, rules->at[i]), rules->at[i]);
  }
  return read;
}

bool inputs_leave_out(struct inputs *inputs, const char *name) {
  bool found = false;
  for (size_t i = 0; i < inputs->layer_count; i++) {
    struct input_layer *layer = &inputs->layers[i];
    size_t kept = 0;
    for (size_t k = 0; k < layer->count; k++) {
      if (strcmp(layer->files[k].name, name) != 0) layer->files[kept++] = layer->files[k];
    }
    found = found || kept < layer->count;
    layer->count = kept;
  }
  inputs->whole = inputs->whole && !found;
  return found;
}

static bool same_file(const struct stat *target, const char *path) {
  struct stat status;
  return path && stat(path, &status) == 0 && status.st_dev == target->st_dev && status.st_ino == target->st_ino;
}

// Of an earlier layer, under whatever name; NULL: none.
static struct file_bytes *file_in_layers(struct inputs *inputs, size_t layers, const char *path) {
  struct stat target;
  if (stat(path, &target) != 0) return NULL;
  for (size_t i = 0; i < layers; i++) {
    for (size_t k = 0; k < inputs->layers[i].count; k++) {
      if (same_file(&target, inputs->layers[i].files[k].name)) return &inputs->layers[i].files[k];
    }
  }
  return NULL;
}

// The last layer's files: what an earlier layer has stays there alone, and takes the name given here.
static void take_checked(struct inputs *inputs, struct arena *arena) {
  size_t last = inputs->layer_count - 1, kept = 0;
  struct input_layer *layer = &inputs->layers[last];
  const char **names = arena_array(arena, inputs->checked.count + layer->count + 1, sizeof *names);
  for (size_t i = 0; i < inputs->checked.count; i++) names[i] = inputs->checked.at[i];
  for (size_t i = 0; i < layer->count; i++) {
    struct file_bytes *there = file_in_layers(inputs, last, layer->files[i].name);
    names[inputs->checked.count++] = layer->files[i].name;
    if (there)
      there->name = layer->files[i].name;
    else
      layer->files[kept++] = layer->files[i];
  }
  layer->count = kept;
  inputs->checked.at = names;
  inputs->layer_count -= kept == 0;
}

bool inputs_read_checked(struct inputs *inputs, struct problems *problems, const struct settings *settings) {
  const struct words *paths = &settings->operands;
  bool read = true;
  for (size_t i = 0; read && i < paths->count; i++) {
    read = read_layer(inputs, problems, layer_name(problems->arena, paths->at[i]), paths->at[i]);
    if (read) take_checked(inputs, problems->arena);
  }
  return read;
}

bool inputs_hold(const struct inputs *inputs, const char *path) {
  struct stat target;
  if (!path || stat(path, &target) != 0 || !S_ISREG(target.st_mode)) return false;
  bool held = same_file(&target, inputs->design.name);
  for (size_t i = 0; i < inputs->beside_count; i++) held = held || same_file(&target, inputs->beside[i].name);
  for (size_t i = 0; i < inputs->other_count; i++) {
    const struct input_other *other = &inputs->others[i];
    held = held || same_file(&target, other->design.name);
    for (size_t k = 0; k < other->beside_count; k++) held = held || same_file(&target, other->beside[k].name);
  }
  for (size_t i = 0; i < inputs->layer_count; i++) {
    for (size_t k = 0; k < inputs->layers[i].count; k++) {
      held = held || same_file(&target, inputs->layers[i].files[k].name);
    }
  }
  return held;
}
