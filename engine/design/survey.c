// SPDX-License-Identifier: MIT
#include "design/survey.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "units/exact.h"

#define SURVEY_FOOT (1200.0 / 3937.0)  // US survey foot, by definition

static const char COLUMNS[] = "point, northing, easting, elevation, description",
                  PLAIN_NUMBER[] = "a number such as 104.25";

enum { MOST_FIELDS = 32, MOST_WRONG = 20 };

struct field {
  const char *at;
  size_t length;
};

struct survey {
  struct store *store;
  struct problems *problems;
  const struct file_bytes *file;
  struct polygon_surface_point *points;
  int *lines;
  size_t count, room, line_room;
  size_t wrong;
  double unit;                          // m in one unit of the file
  size_t northing, easting, elevation;  // columns
};

// ---- One row ----

static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r'; }

static struct field trimmed(struct field field) {
  while (field.length > 0 && is_blank(field.at[0])) field = (struct field){field.at + 1, field.length - 1};
  while (field.length > 0 && is_blank(field.at[field.length - 1])) field.length--;
  return field;
}

static struct field unquoted(struct field field) {
  field = trimmed(field);
  if (field.length < 2 || field.at[0] != '"' || field.at[field.length - 1] != '"') return field;
  return trimmed((struct field){field.at + 1, field.length - 2});
}

// Commas between quotes belong to the field. What comes after MOST_FIELDS is description.
static size_t split(struct field row, struct field into[MOST_FIELDS]) {
  size_t count = 0, from = 0;
  bool quoted = false;
  for (size_t i = 0; i <= row.length && count < MOST_FIELDS; i++) {
    if (i < row.length && row.at[i] == '"') quoted = !quoted;
    if (i < row.length && (quoted || row.at[i] != ',')) continue;
    into[count++] = unquoted((struct field){row.at + from, i - from});
    from = i + 1;
  }
  return count;
}

static void complain(struct survey *survey, int line, const char *said, struct field read, const char *right) {
  survey->wrong++;
  problem_add(survey->problems, (struct problem){.at = {survey->file->name, line},
                                                 .said = said,
                                                 .read = arena_copy(survey->problems->arena, read.at, read.length),
                                                 .right = right});
}

static bool read_number(struct field field, double *value) {
  return field.length > 0 && number_read(field.at, field.length, value) == field.length;
}

// ---- The header ----

static char small(char c) { return c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c; }

static bool has(struct field field, const char *word) {
  size_t length = strlen(word);
  for (size_t from = 0; from + length <= field.length; from++) {
    size_t same = 0;
    while (same < length && small(field.at[from + same]) == word[same]) same++;
    if (same == length) return true;
  }
  return false;
}

static bool is_header(const struct field *fields, size_t count) {
  double value;
  for (size_t i = 1; i < count && i < 4; i++) {
    if (read_number(fields[i], &value)) return false;
  }
  return count > 1;
}

static const struct {
  const char *words;
  double size;
} units[] = {{"(us survey ft)", SURVEY_FOOT},
             {"(ftus)", SURVEY_FOOT},
             {"(ft)", FOOT},
             {"(feet)", FOOT},
             {"(m)", 1},
             {"(metres)", 1},
             {"(meters)", 1}};

// NaN: none is named.
static double unit_named(struct field field) {
  for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
    if (has(field, units[i].words)) return units[i].size;
  }
  return (double)NAN;
}

static size_t column(const struct field *fields, size_t count, const char *word) {
  for (size_t i = 0; i < count; i++) {
    if (has(fields[i], word)) return i;
  }
  return count;
}

static void read_header(struct survey *survey, int line, struct field row, const struct field *fields, size_t count) {
  const size_t columns[3] = {column(fields, count, "north"), column(fields, count, "east"),
                             column(fields, count, "elev")};
  double unit = (double)NAN;
  for (size_t i = 0; i < 3; i++) {
    if (columns[i] == count) {
      complain(survey, line, "the header does not name the columns northing, easting and elevation", row, COLUMNS);
      return;
    }
    double named = unit_named(fields[columns[i]]);
    bool bracketed = memchr(fields[columns[i]].at, '(', fields[columns[i]].length) != NULL;
    if ((bracketed && isnan(named)) || (!isnan(unit) && !isnan(named) && unit != named)) {
      complain(survey, line, "the unit in the header is none that a survey is read in, or not one for all",
               fields[columns[i]], "one unit for the three columns: (ft), (us survey ft) or (m)");
      return;
    }
    if (!isnan(named)) unit = named;
  }
  survey->northing = columns[0];
  survey->easting = columns[1];
  survey->elevation = columns[2];
  if (!isnan(unit)) survey->unit = unit;
}

// ---- The points ----

static bool read_column(struct survey *survey, int line, struct field field, const char *said, double *value) {
  if (!read_number(field, value)) {
    complain(survey, line, said, field, PLAIN_NUMBER);
    return false;
  }
  *value *= survey->unit;
  return true;
}

static void keep_point(struct survey *survey, struct polygon_surface_point point, int line, struct field row) {
  for (size_t i = 0; i < survey->count; i++) {
    if (hypot(survey->points[i].x - point.x, survey->points[i].y - point.y) >= POLYGON_SURFACE_APART) continue;
    struct text said = text_in(survey->problems->arena);
    text_printf(&said, "this point stands where the point of line %d stands", survey->lines[i]);
    complain(survey, line, text_end(&said), row, "one point at each place");
    return;
  }
  struct arena *arena = survey->store->arena;
  survey->points = arena_grow(arena, survey->points, survey->count, &survey->room, sizeof *survey->points);
  survey->lines = arena_grow(arena, survey->lines, survey->count, &survey->line_room, sizeof *survey->lines);
  survey->points[survey->count] = point;
  survey->lines[survey->count++] = line;
}

static void read_point(struct survey *survey, int line, struct field row, const struct field *fields, size_t count) {
  size_t last = survey->northing > survey->easting ? survey->northing : survey->easting;
  if (survey->elevation > last) last = survey->elevation;
  if (count <= last) {
    complain(survey, line, "this row has too few columns", row, COLUMNS);
    return;
  }
  struct polygon_surface_point point;
  bool good = read_column(survey, line, fields[survey->northing], "the northing is no number", &point.y);
  good = read_column(survey, line, fields[survey->easting], "the easting is no number", &point.x) && good;
  good = read_column(survey, line, fields[survey->elevation], "the elevation is no number", &point.z) && good;
  if (good) keep_point(survey, point, line, row);
}

static void read_row(struct survey *survey, int line, struct field row, bool *begun) {
  row = trimmed(row);
  if (row.length == 0 || row.at[0] == '#') return;
  struct field fields[MOST_FIELDS];
  size_t count = split(row, fields);
  if (!*begun && is_header(fields, count)) {
    read_header(survey, line, row, fields, count);
  } else {
    read_point(survey, line, row, fields, count);
  }
  *begun = true;
}

static void read_rows(struct survey *survey) {
  const char *at = survey->file->bytes, *end = at + survey->file->length;
  if (survey->file->length >= 3 && memcmp(at, "\xEF\xBB\xBF", 3) == 0) at += 3;
  bool begun = false;
  for (int line = 1; at < end && survey->wrong < MOST_WRONG && survey->count <= POLYGON_SURFACE_POINTS; line++) {
    const char *stop = memchr(at, '\n', (size_t)(end - at));
    if (!stop) stop = end;
    read_row(survey, line, (struct field){at, (size_t)(stop - at)}, &begun);
    at = stop + 1;
  }
}

// ---- The file as a whole ----

static void complain_of_file(struct store *store, struct problems *problems, int site, const char *said,
                             const char *read, const char *right) {
  struct text where = text_in(problems->arena);
  store_describe(&where, store, site, ROW_site_survey);
  problem_add(problems, (struct problem){.at = {store->file, store_at(store, site, ROW_site_survey)->line},
                                         .where = text_end(&where),
                                         .said = said,
                                         .read = read,
                                         .right = right});
}

static const char *last_part(const char *path) {
  const char *slash = strrchr(path, '/');
  return slash ? slash + 1 : path;
}

static const struct file_bytes *named(const struct file_bytes *beside, size_t count, const char *name) {
  for (size_t i = 0; i < count; i++) {
    if (strcmp(last_part(beside[i].name), name) == 0) return &beside[i];
  }
  return NULL;
}

static double unit_of_project(const struct store *store) {
  int project = store_of_kind(store, KIND_project, 0);
  return store_at(store, project, ROW_project_units)->value == (double)WORD_units_si ? 1 : FOOT;
}

static bool check_count(struct store *store, struct problems *problems, int site, const struct survey *survey) {
  const char *name = survey->file->name;
  if (survey->wrong > 0) return false;
  if (survey->count < 3) {
    complain_of_file(store, problems, site, "this survey has fewer than three points", name,
                     "three points or more, spread all round the pit");
  } else if (survey->count > POLYGON_SURFACE_POINTS) {
    complain_of_file(store, problems, site, "this survey has too many points", name,
                     "at most 2,000 points, those round the pit");
  } else {
    return true;
  }
  return false;
}

bool survey_read(struct store *store, const struct file_bytes *beside, size_t count, struct problems *problems) {
  if (store_count(store, KIND_site) == 0) return true;
  int site = store_of_kind(store, KIND_site, 0);
  const struct slot *slot = store_at(store, site, ROW_site_survey);
  if (slot->condition != CONDITION_GIVEN) return true;
  struct survey survey = {.store = store,
                          .problems = problems,
                          .file = named(beside, count, slot->text),
                          .unit = unit_of_project(store),
                          .northing = 1,
                          .easting = 2,
                          .elevation = 3};
  if (!survey.file) {
    complain_of_file(store, problems, site, "there is no such file in the folder of the design", slot->text,
                     "the name of a CSV file that lies beside the design, such as \"ground.csv\"");
    return false;
  }
  read_rows(&survey);
  if (!check_count(store, problems, site, &survey)) return false;
  store->survey = survey.points;
  store->survey_count = survey.count;
  store->survey_file = survey.file;
  return true;
}
