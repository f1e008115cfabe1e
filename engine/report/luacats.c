// SPDX-License-Identifier: MIT
#include "catalogue/catalogue.h"
#include "report/schema.h"

static void add_word_union(struct text *text, enum word_set set) {
  const char *join = "";
  for (int w = 0; w < WORD_COUNT; w++) {
    if (catalogue_word((enum word)w)->set != set) continue;
    text_printf(text, "%s\"%s\"", join, catalogue_word((enum word)w)->word);
    join = "|";
  }
}

// --- a design: what may be written

static void add_written_type(struct text *text, const struct row *row) {
  bool bare = row->dimension == DIM_RATIO || row->dimension == DIM_COUNT;
  switch (row->sort) {
    case SORT_NUMBER:
      text_add(text, bare ? "string|number" : "string");
      break;
    case SORT_CHOICE:
      add_word_union(text, row->words);
      break;
    case SORT_PARTS:
      text_printf(text, "design.%s|design.%s[]", catalogue_kind(row->part)->name, catalogue_kind(row->part)->name);
      break;
    case SORT_REFERENCES:
      text_add(text, "string|string[]");
      break;
    case SORT_SHAPE:
      text_add(text, "design.outline");
      break;
    default:
      text_add(text, "string");
      break;
  }
}

static void add_given_field(struct text *text, const struct row *row) {
  text_printf(text, "---@field %s%s ", row->name, row->required ? "" : "?");
  add_written_type(text, row);
  text_printf(text, " %s", row->says);
  if (row->standard) text_printf(text, "; without it %s", row->standard);
  text_add(text, "\n");
}

// The values of a part may stand by position.
static void add_design_class(struct text *text, enum kind kind) {
  const struct kind_row *facts = catalogue_kind(kind);
  text_printf(text, "\n---%s\n---@class (exact) design.%s\n", facts->says, facts->name);
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind == kind && row_is_given(row)) add_given_field(text, row);
  }
  text_add(text,
           facts->part ? "---@field [integer] string|number\n" : "---@field measured? table<string, string|number>\n");
}

static void add_constructor(struct text *text, enum kind kind) {
  const struct kind_row *facts = catalogue_kind(kind);
  if (facts->part) return;
  if (!kind_is_named(facts)) {
    text_printf(text, "---@param givens design.%s\nfunction %s(givens) end\n", facts->name, facts->name);
    return;
  }
  text_printf(text, "---@param name string\n---@return fun(givens: design.%s)\nfunction %s(name) end\n", facts->name,
              facts->name);
}

void schema_designs(struct text *text) {
  text_add(text,
           "---@meta\n-- SPDX-License-Identifier: MIT\n-- Written by `make annotations` from the catalogue; changes "
           "here are lost.\n");
  text_add(text, "\n---@class design.outline\n");
  for (int w = 0; w < WORD_COUNT; w++) {
    const struct word_row *word = catalogue_word((enum word)w);
    if (word->set != WORDS_shape) continue;
    text_printf(text, "\n---%s\n---@param points string|table\n---@return design.outline\nfunction %s(points) end\n",
                word->says, word->word);
  }
  for (int k = 0; k < KIND_COUNT; k++) {
    if (k == KIND_link) continue;
    add_design_class(text, (enum kind)k);
    add_constructor(text, (enum kind)k);
  }
}

// --- a rule: what can be read

static void add_target_union(struct text *text, const struct row *row) {
  const char *join = "";
  for (int k = 0; k < KIND_COUNT; k++) {
    if ((row->targets >> k & 1u) == 0 || catalogue_kind((enum kind)k)->part) continue;
    text_printf(text, "%sentity.%s", join, catalogue_kind((enum kind)k)->name);
    join = "|";
  }
}

static void add_read_type(struct text *text, const struct row *row) {
  switch (row->sort) {
    case SORT_NUMBER:
    case SORT_QUANTITY:
      text_add(text, "quantity");
      break;
    case SORT_CHOICE:
      add_word_union(text, row->words);
      break;
    case SORT_REFERENCE:
      add_target_union(text, row);
      break;
    case SORT_REFERENCES:
      text_add(text, "entity.link[]");
      break;
    case SORT_PARTS:
    case SORT_BACK:
      text_printf(text, "entity.%s[]", catalogue_kind(row->part)->name);
      break;
    case SORT_SHAPE:
      add_word_union(text, WORDS_shape);
      break;
    default:
      text_add(text, "string");
      break;
  }
}

static void add_read_field(struct text *text, const struct row *row) {
  text_printf(text, "---@field %s ", row->name);
  add_read_type(text, row);
  if (row->says) text_printf(text, " %s", row->says);
  text_add(text, "\n");
}

static void add_entity_class(struct text *text, enum kind kind) {
  const struct kind_row *facts = catalogue_kind(kind);
  text_printf(text, "\n---%s\n---@class (exact) entity.%s\n", facts->says, facts->name);
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind == kind && row->sort != SORT_BUNDLE) add_read_field(text, row);
  }
  if (kind != KIND_site) text_add(text, "---@field site entity.site\n");
  if (kind != KIND_project) text_add(text, "---@field project entity.project\n");
}

static const char words_of_rules[] =
    "\n---A number with what it measures.\n---@class quantity\n"
    "---@operator add(quantity): quantity\n---@operator sub(quantity): quantity\n---@operator unm: quantity\n"
    "---@operator mul(quantity|number): quantity\n---@operator div(quantity|number): quantity\n"
    "\n---What a comparison found; nil when it is satisfied.\n---@class finding\n"
    "\n---@param written string\n---@return quantity\nfunction q(written) end\n"
    "\n---@param value quantity|number\n---@param limit quantity|number\n---@return finding?\nfunction at_least(value, "
    "limit) end\n"
    "\n---@param value quantity|number\n---@param limit quantity|number\n---@return finding?\nfunction at_most(value, "
    "limit) end\n"
    "\n---@param value quantity|number\n---@param low quantity|number\n---@param high quantity|number\n---@return "
    "finding?\n"
    "function within(value, low, high) end\n"
    "\n---@param value string\n---@param ... string\n---@return finding?\nfunction is(value, ...) end\n"
    "\n---@param condition any\n---@param what string\n---@return finding?\nfunction must(condition, what) end\n"
    "\n---@class rule.body\n---@field title string\n---@field for_each string|string[]\n---@field when? "
    "table|function\n"
    "---@field stage \"layout\"|\"dig\"|\"liner\"|\"stone\"|\"plumbing\"|\"power\"|\"finish\"|\"water-up\"\n"
    "---@field severity? \"hold\"|\"revise\"|\"advise\"\n---@field judges? string\n---@field at_least? "
    "string|number|table\n"
    "---@field at_most? string|number|table\n---@field within? table\n---@field is? string|string[]\n---@field limit? "
    "table\n"
    "---@field check? fun(entity: any, limit: table): finding?\n---@field why string\n---@field source string\n"
    "---@field caution? string\n---@field life_safety? boolean\n---@field fix? table\n---@field examples table[]\n"
    "\n---@param id string\n---@return fun(body: rule.body)\nfunction rule(id) end\n"
    "\n---@param id string\n---@return fun(body: table)\nfunction adjust(id) end\n"
    "\n---@param id string\n---@return fun(body: { because: string })\nfunction retire(id) end\n"
    "\n---@class stock.pump\n---@field model string\n---@field type string\n---@field curve table[]\n"
    "---@field price? string\n---@field power? string\n---@field best_flow? string\n"
    "\n---@class stock.pipe\n---@field size string\n---@field material? string\n---@field price? string\n"
    "\n---@class stock.body\n---@field pumps? stock.pump[]\n---@field pipe_sizes? stock.pipe[]\n"
    "---@field prices? table<string, string>\n---@field rates? table<string, string|number>\n"
    "---@field tolerances? table<string, string>\n"
    "\n---@param body stock.body\nfunction stock(body) end\n";

void schema_rules(struct text *text) {
  text_add(text,
           "---@meta\n-- SPDX-License-Identifier: MIT\n-- Written by `make annotations` from the catalogue; changes "
           "here are lost.\n");
  text_add(text, words_of_rules);
  for (int k = 0; k < KIND_COUNT; k++) add_entity_class(text, (enum kind)k);
}
