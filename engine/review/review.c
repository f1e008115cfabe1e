// SPDX-License-Identifier: MIT
#include "review/review.h"

const char *severity_name(enum severity severity) {
  static const char *const names[SEVERITY_COUNT] = {
      [SEVERITY_ADVISE] = "advise",
      [SEVERITY_REVISE] = "revise",
      [SEVERITY_HOLD] = "hold",
  };
  return names[severity];
}

const char *stage_name(enum stage stage) {
  static const char *const names[STAGE_COUNT] = {
      [STAGE_LAYOUT] = "layout",     [STAGE_DIG] = "dig",     [STAGE_LINER] = "liner",   [STAGE_STONE] = "stone",
      [STAGE_PLUMBING] = "plumbing", [STAGE_POWER] = "power", [STAGE_FINISH] = "finish", [STAGE_WATER_UP] = "water-up",
  };
  return names[stage];
}
