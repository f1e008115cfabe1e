// SPDX-License-Identifier: MIT
// One whole review through the public library, in one process and without the seal: for counting its instructions.
// review DESIGN TRADE_RULES... -- HOUSE_RULES...
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "forebay/forebay.h"

static void stop(const char *what) {
  fprintf(stderr, "review: %s\n", what);
  exit(2);
}

static struct fb_file read_whole(const char *name) {
  FILE *from = fopen(name, "rb");
  if (!from) stop(name);
  size_t room = 1 << 20, length;
  char *bytes = malloc(room);
  if (!bytes) stop("no memory");
  length = fread(bytes, 1, room, from);
  fclose(from);
  return (struct fb_file){.name = name, .bytes = bytes, .length = length};
}

static void stop_at_problems(const fb_problems *problems) {
  for (size_t i = 0; i < fb_problems_count(problems); i++) {
    const struct fb_problem *p = fb_problems_at(problems, i);
    fprintf(stderr, "%s:%d: %s\n", p->file ? p->file : "", p->line, p->said);
  }
  stop("could not be used");
}

int main(int argc, char **argv) {
  if (argc < 2) stop("which design?");
  size_t count = (size_t)argc - 1, trade = 0, house = 0;
  struct fb_file *files = calloc(count, sizeof *files);
  if (!files) stop("no memory");
  files[0] = read_whole(argv[1]);
  bool in_house = false;
  for (int i = 2; i < argc; i++) {
    if (strcmp(argv[i], "--") == 0) {
      in_house = true;
    } else {
      files[1 + trade + house] = read_whole(argv[i]);
      in_house ? house++ : trade++;
    }
  }

  const struct fb_layer layers[] = {{"trade", files + 1, trade}, {"house", files + 1 + trade, house}};
  fb_problems *problems = fb_problems_new();
  fb_design *design = fb_design_new(&files[0], NULL, 0, problems);
  fb_rulebook *rulebook = fb_rulebook_new(layers, house > 0 ? 2 : 1, NULL, NULL, NULL, problems);
  if (!design || !rulebook) stop_at_problems(problems);
  fb_review *review = fb_review_new(design, rulebook, FB_LAYOUT, NULL, NULL, problems);
  if (!review) stop_at_problems(problems);
  fb_text *report = fb_report_text_new(review, &(struct fb_report_style){.width = 80});
  if (!report) stop("no report");
  struct fb_counts counts = fb_review_counts(review);
  printf("%zu rules on %zu things, a report of %zu bytes\n", counts.rules, counts.entities, fb_text_length(report));

  fb_text_free(report);
  fb_review_free(review);
  fb_rulebook_free(rulebook);
  fb_design_free(design);
  fb_problems_free(problems);
  for (size_t i = 0; i < 1 + trade + house; i++) free((void *)(size_t)files[i].bytes);
  free(files);
  return 0;
}
