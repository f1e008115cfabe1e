// SPDX-License-Identifier: MIT
// Typed reading, made from the rows: `spill_get_flow(ev, spill)`. A misspelt name, or another kind's value, does not
// compile. What each returns when it is missing: NaN, WORD_COUNT, at = -1, "" or 0 members.
#ifndef FOREBAY_QUANTITIES_READ_H
#define FOREBAY_QUANTITIES_READ_H

#include "quantities/bundles.h"
#include "quantities/evaluate.h"

struct any_ref {
  int at;
};
#define K(kind, ...)  \
  struct kind##_ref { \
    int at;           \
  };
#include "catalogue/kinds.def"
#undef K

#define READER(result, kind, name) static inline result kind##_get_##name(struct evaluation *ev, struct kind##_ref of)
// A list: how many, the i-th member, for (size_t i = 0; i < basin_count_shelves(ev, basin); i++).
#define LIST(kind, name, part)                                                                                \
  static inline size_t kind##_count_##name(struct evaluation *ev, struct kind##_ref of) {                     \
    return evaluation_members(ev, of.at, ROW_##kind##_##name);                                                \
  }                                                                                                           \
  static inline struct part##_ref kind##_##name##_at(struct evaluation *ev, struct kind##_ref of, size_t i) { \
    return (struct part##_ref){evaluation_member(ev, of.at, ROW_##kind##_##name, i)};                         \
  }
#define STATED(kind, name)                                                               \
  static inline bool kind##_states_##name(struct evaluation *ev, struct kind##_ref of) { \
    return evaluation_stated(ev, of.at, ROW_##kind##_##name);                            \
  }

#define Q(kind, name, ...) \
  READER(double, kind, name) { return evaluation_number(ev, of.at, ROW_##kind##_##name); }
#define G(kind, name, ...) Q(kind, name, _) STATED(kind, name)
#define GD G
#define C(kind, name, ...)                                                                    \
  READER(enum word, kind, name) { return evaluation_choice(ev, of.at, ROW_##kind##_##name); } \
  STATED(kind, name)
#define T(kind, name, ...) \
  READER(const char *, kind, name) { return evaluation_text(ev, of.at, ROW_##kind##_##name); }
#define R(kind, name, target, ...)                                                      \
  READER(struct target##_ref, kind, name) {                                             \
    return (struct target##_ref){evaluation_reference(ev, of.at, ROW_##kind##_##name)}; \
  }                                                                                     \
  STATED(kind, name)
#define RN(kind, name, ...) R(kind, name, any, _)
#define RL(kind, name, ...) LIST(kind, name, link)
#define P(kind, name, part, ...) LIST(kind, name, part)
#define S(kind, name, ...) C(kind, name, _) LIST(kind, name, point)
#define B(kind, name, from, ...) LIST(kind, name, from)
#define U(kind, name, bundle, ...) \
  READER(const struct bundle *, kind, name) { return evaluation_bundle(ev, of.at, ROW_##kind##_##name); }
#include "catalogue/rows.def"

#undef READER
#undef LIST
#undef STATED

static inline enum kind kind_of(struct evaluation *ev, struct any_ref of) {
  return of.at < 0 ? KIND_COUNT : evaluation_design(ev)->entities[of.at].kind;
}

// `the`: the only entity of a kind, and all of a kind.
static inline struct site_ref the_site(struct evaluation *ev) {
  return (struct site_ref){store_of_kind(evaluation_design(ev), KIND_site, 0)};
}
static inline struct project_ref the_project(struct evaluation *ev) {
  return (struct project_ref){store_of_kind(evaluation_design(ev), KIND_project, 0)};
}

#endif
