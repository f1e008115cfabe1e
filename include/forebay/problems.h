// SPDX-License-Identifier: MIT
// What a call found wrong with what it was given. Diagnostics, not findings: findings are in the review.
#ifndef FOREBAY_PROBLEMS_H
#define FOREBAY_PROBLEMS_H

#include <stdbool.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct fb_problems fb_problems;

struct fb_problem {
  const char *file;   // as named by the caller; NULL: none
  int line;           // from 1; 0: the file as a whole
  const char *where;  // the entity and given, or the rule; NULL: none
  const char *said;   // what is wrong
  const char *read;   // what was written there; NULL: nothing to show
  const char *right;  // what would be right; NULL: nothing to propose
  const char *cause;  // a library's own words; NULL: none
};

fb_problems *fb_problems_new(void);  // NULL: no memory
void fb_problems_free(fb_problems *problems);
size_t fb_problems_count(const fb_problems *problems);
const struct fb_problem *fb_problems_at(const fb_problems *problems, size_t index);  // NULL past the end
bool fb_problems_out_of_memory(const fb_problems *problems);

#ifdef __cplusplus
}
#endif
#endif
