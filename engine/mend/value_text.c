// SPDX-License-Identifier: MIT
// Values as a fix would write them: in the units of the design, in a text that reads back.
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "mend/mend_inside.h"
#include "units/read.h"
#include "units/write.h"

static bool reads(struct mending *m, const char *text, enum dimension dimension, double *value) {
  struct text wrong = text_in(m->arena), right = text_in(m->arena);
  struct reading reading;
  if (!unit_read(text, strlen(text), dimension, &reading, &wrong, &right)) return false;
  *value = reading.value;
  return true;
}

static bool is_near(double a, double b) { return fabs(a - b) <= 1e-9 * fmax(fabs(a), fabs(b)); }

enum { FINEST = 3, MOST_DECIMALS = 4 };

// The unit that a value was written in, where it was in one alone: "1350 mm +/- 10 mm".
static const struct unit *unit_of(const char *was, enum dimension dimension) {
  size_t digits = strspn(was, "+-0123456789.,"), spaces = strspn(was + digits, " ");
  const char *unit = was + digits + spaces, *end = strstr(unit, " +/-");
  size_t length = end ? (size_t)(end - unit) : strlen(unit);
  const struct unit *found = digits ? unit_named(unit, length) : NULL;
  bool is_length = dimension == DIM_LENGTH || dimension == DIM_ELEVATION;
  if (!found || dimension == DIM_SLOPE || strcmp(found->name, "ft") == 0) return NULL;  // 5 ft 6 in, not 5.5 ft
  return found->dimension == (is_length ? DIM_LENGTH : dimension) ? found : NULL;
}

// "1080 mm" beside "1600 mm", "1,080 mm" beside "1,600 mm".
static const char *text_in_unit(struct mending *m, const struct unit *unit, double value, const char *was) {
  struct text text = text_in(m->arena);
  number_write_short(&text, unit_from_si(unit, value), MOST_DECIMALS, strchr(was, ',') != NULL);
  text_printf(&text, " %s", unit->name);
  return text_end(&text);
}

static bool takes_fractions(const struct unit *unit) { return strcmp(unit->name, "in") == 0; }

const char *mend_value_text(struct mending *m, enum row_id row, double value, const char *was, double *reads_as) {
  const struct row *facts = catalogue_row(row);
  const char *unit = m->units == UNITS_US ? facts->us : facts->si;
  struct write_style style = {.system = m->units, .unit = unit ? unit_named(unit, strlen(unit)) : NULL};
  const struct unit *written = was ? unit_of(was, facts->dimension) : NULL;
  if (written) style.unit = written;
  if (written && !takes_fractions(written)) {
    const char *text = text_in_unit(m, written, value, was);
    if (reads(m, text, facts->dimension, reads_as) && is_near(*reads_as, value)) return text;
  }
  style.decimal = facts->decimal;
  for (style.finer = 0; style.finer <= FINEST; style.finer++) {
    struct text text = text_in(m->arena);
    unit_write(&text, value, facts->dimension, style);
    if (reads(m, text_end(&text), facts->dimension, reads_as) && is_near(*reads_as, value)) return text_end(&text);
  }
  struct text text = text_in(m->arena);
  unit_write_exact(&text, value, facts->dimension, m->units);
  return reads(m, text_end(&text), facts->dimension, reads_as) ? text_end(&text) : NULL;
}

// As it stands: what was written, or what it comes to when nothing was.
static const char *text_now(struct mending *m, const struct mend_base *base, int entity, enum row_id row) {
  const struct slot *slot = store_at(base->store, entity, row);
  const struct row *facts = catalogue_row(row);
  double ignored;
  if (slot->condition != CONDITION_UNSET && slot->text) return slot->text;
  if (facts->sort == SORT_CHOICE && slot->condition != CONDITION_UNSET)
    return catalogue_word((enum word)slot->value)->word;
  if (facts->sort != SORT_NUMBER) return NULL;
  double value = evaluation_number(base->review->evaluation, entity, row);
  return isfinite(value) ? mend_value_text(m, row, value, NULL, &ignored) : NULL;
}

// "+4 3/4 in" beside a "0 in", "30 deg from level" beside a "25 deg": as the rest of the file has it.
static const char *in_style_of(struct mending *m, const char *was, const char *text, enum dimension dimension) {
  static const char from_level[] = " from level";
  double value, plain;
  size_t length = strlen(text), tail = strlen(from_level);
  if (*text == '+' && *was != '+') text++, length--;
  bool ends_so = length > tail && strcmp(text + length - tail, from_level) == 0;
  if (!ends_so || strstr(was, from_level)) return text;
  const char *cut = arena_copy(m->arena, text, length - tail);
  return reads(m, text, dimension, &value) && reads(m, cut, dimension, &plain) && plain == value ? cut : text;
}

struct mend_change mend_change_to(struct mending *m, const struct mend_base *base, int entity, enum row_id row,
                                  const char *text) {
  const struct row *facts = catalogue_row(row);
  struct mend_change change = {.entity = entity, .row = row, .text = text, .value = NAN};
  change.was = text_now(m, base, entity, row);
  if (facts->sort == SORT_NUMBER) {
    if (change.was) change.text = in_style_of(m, change.was, text, facts->dimension);
    reads(m, text, facts->dimension, &change.value);
  }
  if (facts->sort == SORT_CHOICE) change.value = (double)catalogue_word_named(facts->words, text, strlen(text));
  return change;
}

struct changes changes_joined(struct arena *arena, struct changes first, struct changes then) {
  struct mend_change *list = arena_array(arena, first.count + then.count + 1, sizeof *list);
  size_t count = 0;
  for (size_t i = 0; i < first.count; i++) list[count++] = first.list[i];
  for (size_t i = 0; i < then.count; i++) {
    size_t at = 0;
    while (at < count && (list[at].entity != then.list[i].entity || list[at].row != then.list[i].row)) at++;
    const char *was = at < count ? list[at].was : then.list[i].was;
    list[at] = then.list[i];
    list[at].was = was;
    if (at == count) count++;
  }
  return (struct changes){list, count};
}
