// SPDX-License-Identifier: MIT
#include "rulebook/decision.h"

void decision_write(struct text *text, const struct decision *decision) {
  if (decision->sort == DECISION_RETIRED)
    text_add(text, "retired");
  else if (decision->sort == DECISION_BACK)
    text_add(text, "taken back");
  else
    text_printf(text, "%s %s -> %s", decision->what, decision->written, decision->to);
}

static void write_side(struct text *text, const char *layer, const char *says, const char *value,
                       const struct place *at) {
  text_printf(text, "%s %s%s%s (%s:%d)", layer, says, value ? " " : "", value ? value : "", at->file, at->line);
}

void decision_write_dispute(struct text *text, const struct decision *decision) {
  static const char *const sides[][2] = {[DECISION_LIMIT] = {"says", "says"},
                                         [DECISION_SEVERITY] = {"says", "says"},
                                         [DECISION_RETIRED] = {"changes it", "retires it"},
                                         [DECISION_BACK] = {"retires it", "takes it back"}};
  write_side(text, decision->had_layer, sides[decision->sort][0], decision->from, &decision->had_at);
  text_add(text, ", ");
  write_side(text, decision->layer, sides[decision->sort][1], decision->to, &decision->at);
  text_add(text, "; the later one holds");
}
