// SPDX-License-Identifier: MIT
#include "report/schema.h"

#include "catalogue/catalogue.h"

// --- JSON by hand: two spaces a level, the rows in their own order

static void add_quoted(struct text *text, const char *words) {
  text_add_char(text, '"');
  for (; *words; words++) {
    if (*words == '"' || *words == '\\') text_add_char(text, '\\');
    text_add_char(text, *words);
  }
  text_add_char(text, '"');
}

static void add_described(struct text *text, const char *says) {
  text_add(text, "\"description\": ");
  add_quoted(text, says);
}

static void add_words(struct text *text, enum word_set set) {
  const char *join = "";
  text_add(text, "\"enum\": [");
  for (int w = 0; w < WORD_COUNT; w++) {
    if (catalogue_word((enum word)w)->set != set) continue;
    text_add(text, join);
    add_quoted(text, catalogue_word((enum word)w)->word);
    join = ", ";
  }
  text_add(text, "]");
}

// A number may stand without quotes where it needs no unit.
static void add_number(struct text *text, const struct row *row) {
  bool bare = row->dimension == DIM_RATIO || row->dimension == DIM_COUNT;
  text_add(text,
           bare ? "\"type\": [\"string\", \"number\"], \"examples\": [" : "\"type\": \"string\", \"examples\": [");
  add_quoted(text, row->standard ? row->standard : dimension_row(row->dimension)->example);
  text_add(text, "]");
}

// One part where a list is asked may stand by itself; its values may stand by position.
static void add_parts(struct text *text, const struct row *row) {
  const char *part = catalogue_kind(row->part)->name;
  text_printf(text,
              "\"anyOf\": [{\"$ref\": \"#/$defs/%s\"}, {\"type\": \"array\", \"items\": {\"$ref\": \"#/$defs/%s\"}}]",
              part, part);
}

static void add_value(struct text *text, const struct row *row) {
  switch (row->sort) {
    case SORT_NUMBER:
      add_number(text, row);
      break;
    case SORT_CHOICE:
      add_words(text, row->words);
      break;
    case SORT_PARTS:
      add_parts(text, row);
      break;
    case SORT_SHAPE:
      text_add(text, "\"$ref\": \"#/$defs/outline\"");
      break;
    case SORT_REFERENCES:
      text_add(text, "\"$ref\": \"#/$defs/names\"");
      break;
    default:
      text_add(text, "\"type\": \"string\"");
      break;
  }
}

static void add_given(struct text *text, const struct row *row) {
  text_printf(text, "        \"%s\": {", row->name);
  add_value(text, row);
  text_add(text, ", ");
  add_described(text, row->says);
  if (row->standard) {
    text_add(text, ", \"default\": ");
    add_quoted(text, row->standard);
  }
  text_add(text, "}");
}

static void add_givens(struct text *text, enum kind kind) {
  const char *join = "\n";
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != kind || !row_is_given(row)) continue;
    text_add(text, join);
    add_given(text, row);
    join = ",\n";
  }
  if (catalogue_kind(kind)->part) return;
  text_printf(text, "%s        \"measured\": {\"$ref\": \"#/$defs/%s_measured\"}", join, catalogue_kind(kind)->name);
}

static void add_required(struct text *text, enum kind kind) {
  const char *join = "";
  text_add(text, "      \"required\": [");
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != kind || !row->required) continue;
    text_add(text, join);
    add_quoted(text, row->name);
    join = ", ";
  }
  text_add(text, "],\n");
}

static void add_object(struct text *text, enum kind kind) {
  const struct kind_row *facts = catalogue_kind(kind);
  text_add(text, "      \"type\": \"object\",\n      ");
  add_described(text, facts->says);
  text_add(text, ",\n");
  add_required(text, kind);
  text_add(text, "      \"additionalProperties\": false,\n      \"properties\": {");
  add_givens(text, kind);
  text_add(text, "\n      }\n");
}

static void add_part_definition(struct text *text, enum kind kind) {
  text_printf(text,
              "    \"%s\": {\"anyOf\": [\n      {\"type\": \"array\", \"items\": {\"type\": [\"string\", "
              "\"number\"]}},\n      {\n",
              catalogue_kind(kind)->name);
  add_object(text, kind);
  text_add(text, "      }\n    ]}");
}

// What somebody took on site: each value that is worked out, and with what it was taken.
static void add_measured(struct text *text, enum kind kind) {
  text_printf(text, "    \"%s_measured\": {\n      \"type\": \"object\", \"additionalProperties\": false,\n",
              catalogue_kind(kind)->name);
  text_add(text, "      \"properties\": {\n        \"with\": {\"type\": \"string\"}");
  for (int r = 0; r < ROW_COUNT; r++) {
    const struct row *row = catalogue_row((enum row_id)r);
    if (row->kind != kind || (row->sort != SORT_QUANTITY && !row->derived)) continue;
    text_printf(text, ",\n        \"%s\": {", row->name);
    add_number(text, row);
    text_add(text, ", ");
    add_described(text, row->says);
    text_add(text, "}");
  }
  text_add(text, "\n      }\n    }");
}

static void add_definitions(struct text *text) {
  for (int k = 0; k < KIND_COUNT; k++) {
    if (k == KIND_link) continue;
    text_add(text, ",\n");
    if (catalogue_kind((enum kind)k)->part) {
      add_part_definition(text, (enum kind)k);
      continue;
    }
    text_printf(text, "    \"%s\": {\n", catalogue_kind((enum kind)k)->name);
    add_object(text, (enum kind)k);
    text_add(text, "    },\n");
    add_measured(text, (enum kind)k);
  }
}

static void add_shapes(struct text *text) {
  text_add(text,
           "    \"names\": {\"anyOf\": [{\"type\": \"string\"}, {\"type\": \"array\", \"items\": {\"type\": "
           "\"string\"}}]},\n");
  text_add(text,
           "    \"outline\": {\n      \"type\": \"object\", \"additionalProperties\": false,\n      \"properties\": {");
  const char *join = "\n";
  for (int w = 0; w < WORD_COUNT; w++) {
    if (catalogue_word((enum word)w)->set != WORDS_shape) continue;
    text_printf(text, "%s        \"%s\": {\"type\": [\"string\", \"array\"], ", join,
                catalogue_word((enum word)w)->word);
    add_described(text, catalogue_word((enum word)w)->says);
    text_add(text, "}");
    join = ",\n";
  }
  text_add(text, "\n      }\n    }");
}

static void add_top(struct text *text) {
  const char *join = "\n";
  for (int k = 0; k < KIND_COUNT; k++) {
    const struct kind_row *facts = catalogue_kind((enum kind)k);
    if (facts->part) continue;
    text_printf(text,
                facts->unnamed ? "%s    \"%s\": {\"type\": \"array\", \"items\": {\"$ref\": \"#/$defs/%s\"}}"
                : facts->single
                    ? "%s    \"%s\": {\"$ref\": \"#/$defs/%s\"}"
                    : "%s    \"%s\": {\"type\": \"object\", \"additionalProperties\": {\"$ref\": \"#/$defs/%s\"}}",
                join, facts->name, facts->name);
    join = ",\n";
  }
}

void schema_json(struct text *text) {
  text_add(
      text,
      "{\n  \"$schema\": \"https://json-schema.org/draft/2020-12/schema\",\n  \"title\": \"A design for forebay\",\n");
  text_add(text,
           "  \"type\": \"object\",\n  \"required\": [\"project\"],\n  \"additionalProperties\": false,\n  "
           "\"properties\": {");
  add_top(text);
  text_add(text, "\n  },\n  \"$defs\": {\n");
  add_shapes(text);
  add_definitions(text);
  text_add(text, "\n  }\n}\n");
}
