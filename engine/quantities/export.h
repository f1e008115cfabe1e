// SPDX-License-Identifier: MIT
// Included last by a discipline's file, which defines FOREBAY_ROWS as its .def and has, for each row there,
//   static double flow_of_spill(struct evaluation *ev, struct spill_ref spill)
// and then DERIVED(kind, name) for each given that it works out when nobody wrote it.
// Makes the functions that the table of rows calls (functions.c). No include guard: once a file.
#define Q(kind, name, ...)                                             \
  double work_out_##kind##_##name(struct evaluation *ev, int entity);  \
  double work_out_##kind##_##name(struct evaluation *ev, int entity) { \
    return name##_of_##kind(ev, (struct kind##_ref){entity});          \
  }
#define U(kind, name, ...)                                                  \
  const void *work_out_##kind##_##name(struct evaluation *ev, int entity);  \
  const void *work_out_##kind##_##name(struct evaluation *ev, int entity) { \
    return name##_of_##kind(ev, (struct kind##_ref){entity});               \
  }
#include FOREBAY_ROWS
#undef Q
#undef U

#define DERIVED(kind, name)                                            \
  double work_out_##kind##_##name(struct evaluation *ev, int entity);  \
  double work_out_##kind##_##name(struct evaluation *ev, int entity) { \
    return name##_of_##kind(ev, (struct kind##_ref){entity});          \
  }
