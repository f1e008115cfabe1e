// SPDX-License-Identifier: MIT
#include <string.h>

#include "api/handles.h"

// Every key once, with what it is for. @ stands for the name of the first rule, @-check is the second's.
static const char starter[] =
    "-- SPDX-License-Identifier: MIT\n"
    "-- Rules of our own, on top of the trade's. Look at them while you write:\n"
    "--   forebay rulebook --check THIS-FILE         what is wrong, line by line\n"
    "--   forebay rule-test --rules THIS-FILE        whether each example comes out as it says\n"
    "--   forebay review --rules THIS-FILE DESIGN    a design by them\n"
    "-- forebay explain --list basin shows what may be read of a basin, and so for every kind.\n"
    "-- No rule makes a job safe: local codes, licensed practice and the people on site decide.\n"
    "\n"
    "-- The plain form: one value and its limit.\n"
    "rule \"@\" {\n"
    "  -- What should be so, in one sentence: it heads the finding.\n"
    "  title = \"A bowl in reach of wind keeps 3 in of freeboard\",\n"
    "  -- The kind of thing it looks at, or a list of them: { \"spill\", \"jet\" }.\n"
    "  for_each = \"basin\",\n"
    "  -- Where it applies; leave it out where it always does. Further lines must all be so:\n"
    "  -- depth = { at_least = \"4 ft\" }, reach = { one_of = { \"children\", \"public\" } }.\n"
    "  when = { purpose = \"bowl\" },\n"
    "  -- The last stage before which it must be right: layout, dig, liner, stone, plumbing, power, finish, water-up.\n"
    "  stage = \"layout\",\n"
    "  -- hold: do not dig. revise: mend the drawing. advise: better practice.\n"
    "  severity = \"advise\",\n"
    "  -- true where a life depends on it: then no answer counts as held.\n"
    "  life_safety = false,\n"
    "  -- The value, and one of: at_least, at_most, within = { \"20 %\", \"60 %\" }, is = \"fitted\".\n"
    "  -- By severity: at_least = { revise = \"1 in\", advise = \"3 in\" }.\n"
    "  judges = \"freeboard\", at_least = \"3 in\",\n"
    "  -- What goes wrong on site and what it costs.\n"
    "  why = [[Wind pushes the water of a bowl over its rim. The bowl then runs low every dry week, and the wall "
    "under\n"
    "    it stays wet and goes green.]],\n"
    "  -- Where the limit is from, and how well that is known.\n"
    "  source = \"common practice, no source\",\n"
    "  -- Who decides where someone can get hurt; leave it out where nobody can.\n"
    "  caution = \"Above a walk, a wet rim is a slip and a fall: the local code has the last word.\",\n"
    "  -- The change to try: raise, lower (by ..., to_no_more_than, to_no_less_than), set ... to, or advise = "
    "\"words\".\n"
    "  fix = { raise = \"rim\", by = \"1/2 in\" },\n"
    "  -- Small designs that show what it says. At least one flagged, one clear, one with \"limit\" in its name that\n"
    "  -- stands exactly there, and one that states what the value is worked out from.\n"
    "  examples = {\n"
    "    { \"low rim\", basin = { purpose = \"bowl\", rim = \"26 in\", water_level = \"24 in\" }, outcome = "
    "\"flagged\" },\n"
    "    { \"high rim\", basin = { purpose = \"bowl\", rim = \"30 in\", water_level = \"24 in\" }, outcome = \"clear\" "
    "},\n"
    "    { \"at the limit\", basin = { purpose = \"bowl\", freeboard = \"3 in\" }, outcome = \"clear\" },\n"
    "    { \"no bowl\", basin = { purpose = \"display\", freeboard = \"1 in\" }, outcome = \"not applicable\" },\n"
    "  },\n"
    "}\n"
    "\n"
    "-- The form with a check, for what one comparison cannot say.\n"
    "rule \"@-check\" {\n"
    "  title = \"A line longer than 60 ft can be shut off\",\n"
    "  for_each = \"pipe\",\n"
    "  stage = \"plumbing\", severity = \"advise\",\n"
    "  -- What a firm may want to change stands here by name, and not in the function.\n"
    "  limit = { long = \"60 ft\" },\n"
    "  -- at_least, at_most, within, is and must give nothing back when they are met, and the finding when not:\n"
    "  -- join by `or` what must all be met, by `and` what may stand in for one another. Nothing returned is clear.\n"
    "  check = function(pipe, limit)\n"
    "    return at_most(pipe.length, limit.long) and is(pipe.valve, \"ball\", \"gate\", \"globe\")\n"
    "  end,\n"
    "  why = [[A long line without a valve is drained for each repair at its end. That costs half a day, and the "
    "water.]],\n"
    "  source = \"common practice, no source\",\n"
    "  fix = { set = \"valve\", to = \"ball\" },\n"
    "  examples = {\n"
    "    { \"long and bare\", pipe = { length = \"80 ft\", valve = \"none\" }, outcome = \"flagged\" },\n"
    "    { \"long with a valve\", pipe = { length = \"80 ft\", valve = \"ball\" }, outcome = \"clear\" },\n"
    "    { \"at the limit\", pipe = { length = \"60 ft\", valve = \"none\" }, outcome = \"clear\" },\n"
    "  },\n"
    "}\n";

static const char usual_name[] = "our-own", behind[] = "-check";

struct naming {
  const char *name;
  fb_problems *problems;
};

// The second rule's name must be one too.
static bool is_name(struct arena *arena, const char *name) {
  return rulebook_is_name(text_phrase(arena, "%s%s", name, behind)) && rulebook_is_name(name);
}

static bool write_starter(struct text *text, void *with) {
  const struct naming *order = with;
  if (!is_name(text->arena, order->name)) {
    struct problems found = problems_in(text->arena);
    problem_add(&found, (struct problem){.said = "a rule cannot have this name",
                                         .read = order->name,
                                         .right = "small letters, digits and hyphens, as in sheet-breaks-up"});
    problems_hand_over(order->problems, &found);
    return false;
  }
  for (const char *at = starter; *at; at++) {
    if (*at == '@')
      text_add(text, order->name);
    else
      text_add_char(text, *at);
  }
  return true;
}

fb_text *fb_starter_rules_new(const char *name, fb_problems *problems) {
  struct naming order = {name ? name : usual_name, problems};
  return text_filled(NULL, write_starter, &order, problems);
}
