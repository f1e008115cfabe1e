// SPDX-License-Identifier: MIT
// The JSON Schema against designs in JSON, good and broken ones, by a checker of the keywords that it uses.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "report/schema.h"

static const char *const KEYWORDS[] = {
    "$ref",    "type",  "enum",    "anyOf",       "items",    "properties",           "required",
    "default", "title", "$schema", "description", "examples", "additionalProperties", "$defs"};

static bool is_of_type(const char *type, const json_t *value) {
  return (strcmp(type, "string") == 0 && json_is_string(value)) ||
         (strcmp(type, "number") == 0 && json_is_number(value)) ||
         (strcmp(type, "array") == 0 && json_is_array(value)) || (strcmp(type, "object") == 0 && json_is_object(value));
}

static bool type_fits(const json_t *types, const json_t *value) {
  size_t i;
  json_t *type;
  if (json_is_string(types)) return is_of_type(json_string_value(types), value);
  json_array_foreach(types, i, type) {
    if (is_of_type(json_string_value(type), value)) return true;
  }
  return types == NULL;
}

static bool enum_fits(const json_t *words, const json_t *value) {
  size_t i;
  json_t *word;
  json_array_foreach(words, i, word) {
    if (json_equal(word, value)) return true;
  }
  return words == NULL;
}

static bool fits(const json_t *root, const json_t *schema, const json_t *value);

static bool any_fits(const json_t *root, const json_t *schemas, const json_t *value) {
  size_t i;
  json_t *schema;
  json_array_foreach(schemas, i, schema) {
    if (fits(root, schema, value)) return true;
  }
  return schemas == NULL;
}

static bool items_fit(const json_t *root, const json_t *schema, const json_t *value) {
  size_t i;
  json_t *item;
  json_array_foreach(value, i, item) {
    if (schema && !fits(root, schema, item)) return false;
  }
  return true;
}

static bool members_fit(const json_t *root, const json_t *schema, const json_t *value) {
  const json_t *others = json_object_get(schema, "additionalProperties");
  size_t i;
  json_t *name;
  json_array_foreach(json_object_get(schema, "required"), i, name) {
    if (json_is_object(value) && !json_object_get(value, json_string_value(name))) return false;
  }
  for (void *it = json_object_iter((json_t *)value); it; it = json_object_iter_next((json_t *)value, it)) {
    const json_t *own = json_object_get(json_object_get(schema, "properties"), json_object_iter_key(it));
    if (!own && json_is_false(others)) return false;
    if (!own) own = json_is_object(others) ? others : NULL;
    if (own && !fits(root, own, json_object_iter_value(it))) return false;
  }
  return true;
}

static void check_keywords(const json_t *schema) {
  for (void *it = json_object_iter((json_t *)schema); it; it = json_object_iter_next((json_t *)schema, it)) {
    size_t k = 0;
    while (k < sizeof KEYWORDS / sizeof *KEYWORDS && strcmp(KEYWORDS[k], json_object_iter_key(it)) != 0) k++;
    if (k == sizeof KEYWORDS / sizeof *KEYWORDS) fail_msg("the checker does not know %s", json_object_iter_key(it));
  }
}

static bool fits(const json_t *root, const json_t *schema, const json_t *value) {
  check_keywords(schema);
  const char *to = json_string_value(json_object_get(schema, "$ref"));
  if (to) {
    const json_t *target = json_object_get(json_object_get(root, "$defs"), to + strlen("#/$defs/"));
    if (!target) fail_msg("%s leads nowhere", to);
    if (!fits(root, target, value)) return false;
  }
  return type_fits(json_object_get(schema, "type"), value) && enum_fits(json_object_get(schema, "enum"), value) &&
         any_fits(root, json_object_get(schema, "anyOf"), value) &&
         items_fit(root, json_object_get(schema, "items"), value) && members_fit(root, schema, value);
}

static json_t *schema_new(void) {
  struct arena *arena = arena_new();
  struct text text = text_in(arena);
  json_error_t error;
  schema_json(&text);
  json_t *schema = json_loads(text_end(&text), JSON_REJECT_DUPLICATES, &error);
  if (!schema) fail_msg("line %d: %s", error.line, error.text);
  arena_free(arena);
  return schema;
}

static bool design_fits(const json_t *schema, const char *name) {
  char path[600];
  json_error_t error;
  snprintf(path, sizeof path, "%s/tests/designs/%s", FOREBAY_ROOT, name);
  json_t *design = json_load_file(path, 0, &error);
  if (!design) fail_msg("%s: %s", path, error.text);
  bool answer = fits(schema, schema, design);
  json_decref(design);
  return answer;
}

static void designs_fit(void **state) {
  (void)state;
  json_t *schema = schema_new();
  assert_true(design_fits(schema, "stone-court.json"));
  assert_true(design_fits(schema, "porch.json"));
  json_decref(schema);
}

static void broken_ones_do_not(void **state) {
  (void)state;
  static const char *const broken[] = {
      "broken/02-bare-number.json",     "broken/04-misspelt-given.json",   "broken/05-misspelt-kind.json",
      "broken/06-misspelt-word.json",   "broken/21-unknown-measured.json", "broken/26-missing-required.json",
      "broken/27-missing-in-part.json", "broken/32-worked-out.json",       "broken/39-no-project.json",
      "broken/30-boolean.json",
  };
  json_t *schema = schema_new();
  for (size_t i = 0; i < sizeof broken / sizeof *broken; i++) {
    if (design_fits(schema, broken[i])) fail_msg("%s fits", broken[i]);
  }
  json_decref(schema);
}

static void lua_is_written_for_all_kinds(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct text designs = text_in(arena), rules = text_in(arena);
  schema_designs(&designs);
  schema_rules(&rules);
  assert_non_null(strstr(text_end(&designs), "---@field lip_width string width of the lip across the flow\n"));
  assert_non_null(strstr(text_end(&designs), "---@return fun(givens: design.spill)\nfunction spill(name) end\n"));
  assert_non_null(strstr(text_end(&rules), "---@field flow_per_width quantity flow over each inch of the lip\n"));
  assert_non_null(strstr(text_end(&rules), "---@field spills_out entity.spill[]\n"));
  arena_free(arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(designs_fit), cmocka_unit_test(broken_ones_do_not),
                                     cmocka_unit_test(lua_is_written_for_all_kinds)};
  return cmocka_run_group_tests_name("report/schema", tests, NULL, NULL);
}
