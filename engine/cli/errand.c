// SPDX-License-Identifier: MIT
#include "cli/errand.h"

#include <signal.h>
#include <string.h>

#include "base/file.h"
#include "cli/deliver.h"

struct errand errand_new(struct arena *arena, const struct settings *settings, errand_work *work) {
  return (struct errand){.arena = arena,
                         .settings = settings,
                         .problems = problems_in(arena),
                         .clock = worker_clock_usual(),
                         .work = work,
                         .attempts = errand_attempts,
                         .inputs = {.whole = true},
                         .colour = deliver_in_colour(settings->output)};
}

int errand_worse(int a, int b) { return a > b ? a : b; }

// ---- what went wrong, in words -------------------------------------------------------------------------------------

static const char *signal_words(int number) {
  static const struct {
    int number;
    const char *words;
  } rows[] = {
      {SIGSEGV, "it used memory that is not its own, or too deep a stack"},
      {SIGBUS, "it used memory that is not there"},
      {SIGABRT, "it gave up by itself"},
      {SIGFPE, "it divided by zero"},
      {SIGILL, "it met an instruction that does not exist"},
      {SIGSYS, "it asked the system for what the seal forbids"},
      {SIGKILL, "it was ended from outside; the machine may have run out of memory"},
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    if (rows[i].number == number) return rows[i].words;
  }
  return "it was ended by a signal";
}

static void write_time(struct text *text, unsigned ms) {
  text_printf(text, ms % 1000 ? "%u ms" : "%u s", ms % 1000 ? ms : ms / 1000);
}

// "it took longer than 2 s on spill "a" and was ended"
static const char *because(const struct errand *errand, const struct worker_outcome *outcome) {
  struct text text = text_in(errand->arena);
  const char *entity = outcome->note.entity;
  if (outcome->end == WORKER_DIED) {
    text_printf(&text, "the program stopped%s%s: %s", *entity ? " on " : "", entity, signal_words(outcome->signal));
    return text_end(&text);
  }
  text_add(&text, "it took longer than ");
  write_time(&text, outcome->note.kind == AT_RULE ? errand->clock.rule_ms : errand->clock.file_ms);
  text_printf(&text, "%s%s and was ended", *entity ? " on " : "", entity);
  return text_end(&text);
}

static void say(struct errand *errand, const char *file, const char *where, const char *first, const char *then) {
  struct text said = text_in(errand->arena);
  text_printf(&said, "%s%s", first, then);
  problem_add(&errand->problems, (struct problem){.at = {.file = file}, .where = where, .said = text_end(&said)});
}

// ---- setting aside -------------------------------------------------------------------------------------------------

static bool is_broken(const struct errand *errand, const char *id) {
  for (size_t i = 0; i < errand->broken_count; i++) {
    if (strcmp(errand->broken[i].id, id) == 0) return true;
  }
  return false;
}

// A rule that is named again although it is not run any more cannot be helped that way.
static bool break_rule(struct errand *errand, const struct worker_outcome *outcome) {
  const char *id = outcome->note.name;
  if (is_broken(errand, id)) return false;
  const char *why = because(errand, outcome);
  errand->broken =
      arena_grow(errand->arena, errand->broken, errand->broken_count, &errand->broken_room, sizeof *errand->broken);
  errand->broken[errand->broken_count++] = (struct broken_rule){.id = arena_words(errand->arena, id), .because = why};
  say(errand, NULL, id, why, "; this rule counts as broken, and the rest was done without it");
  return true;
}

static bool leave_out_file(struct errand *errand, const struct worker_outcome *outcome) {
  if (!inputs_leave_out(&errand->inputs, outcome->note.name)) return false;
  say(errand, outcome->note.name, NULL, because(errand, outcome),
      "; this file is left out, and the rest was done without it");
  return true;
}

// True: what held the work up is set aside, and another attempt makes sense.
static bool set_aside(struct errand *errand, const struct worker_outcome *outcome) {
  if (outcome->end != WORKER_RULE_SLOW && outcome->end != WORKER_DIED) return false;
  if (outcome->note.kind == AT_RULE) return break_rule(errand, outcome);
  return outcome->note.kind == AT_RULE_FILE && leave_out_file(errand, outcome);
}

// ---- giving up -----------------------------------------------------------------------------------------------------

static int give_up_slow(struct errand *errand, const struct worker_outcome *outcome) {
  const struct whereabouts_note *note = &outcome->note;
  if (outcome->end == WORKER_RULE_SLOW && note->kind == AT_DESIGN) {
    say(errand, note->name, NULL, because(errand, outcome), "; the design cannot be used");
    return STATUS_UNUSABLE;
  }
  struct text text = text_in(errand->arena);
  text_add(&text, "the work took longer than ");
  write_time(&text, errand->clock.run_ms);
  text_add(&text, " in all and was ended");
  if (*note->name) text_printf(&text, ", last at %s%s%s", note->name, *note->entity ? " on " : "", note->entity);
  say(errand, NULL, NULL, text_end(&text), "");
  return STATUS_UNUSABLE;
}

static int give_up_fault(struct errand *errand, const struct worker_outcome *outcome) {
  struct text text = text_in(errand->arena);
  text_add(&text, "an internal fault: ");
  if (outcome->end == WORKER_NOT_STARTED) text_add(&text, "the work could not be started");
  if (outcome->end == WORKER_DIED) text_printf(&text, "the work stopped: %s", signal_words(outcome->signal));
  if (outcome->end == WORKER_FAULT) text_printf(&text, "the answer is not whole: %s", outcome->why);
  if (*outcome->note.name) text_printf(&text, "; last at %s", outcome->note.name);
  problem_add(&errand->problems,
              (struct problem){.said = text_end(&text), .cause = outcome->error ? strerror(outcome->error) : NULL});
  deliver_words(outcome->last_words.at, outcome->last_words.length);
  return STATUS_FAULT;
}

static int give_up(struct errand *errand, const struct worker_outcome *outcome) {
  bool slow = outcome->end == WORKER_RULE_SLOW || outcome->end == WORKER_RUN_SLOW;
  return slow ? give_up_slow(errand, outcome) : give_up_fault(errand, outcome);
}

// ---- the attempts --------------------------------------------------------------------------------------------------

static void layers_for_api(struct errand *errand) {
  const struct inputs *inputs = &errand->inputs;
  errand->layers = arena_array(errand->arena, inputs->layer_count + 1, sizeof *errand->layers);
  for (size_t i = 0; i < inputs->layer_count; i++) {
    const struct input_layer *from = &inputs->layers[i];
    struct fb_file *files = arena_array(errand->arena, from->count + 1, sizeof *files);
    for (size_t k = 0; k < from->count; k++) {
      files[k] = (struct fb_file){from->files[k].name, from->files[k].bytes, from->files[k].length};
    }
    errand->layers[i] = (struct fb_layer){.name = from->name, .files = files, .count = from->count};
  }
}

static int work_in_child(struct child *child, void *with);

static unsigned first_not_done(const struct worker_outcome *outcomes, unsigned of) {
  unsigned i = 0;
  while (i < of && outcomes[i].end == WORKER_DONE) i++;
  return i;
}

static int collect(struct errand *errand, const struct worker_outcome *outcomes, unsigned of, struct text *results) {
  bool aside = errand->broken_count > 0 || !errand->inputs.whole;
  int status = aside ? STATUS_UNUSABLE : STATUS_CLEAR;
  for (unsigned i = 0; i < of; i++) {
    results[i] = outcomes[i].result;
    status = errand_worse(outcomes[i].status, status);
  }
  return status;
}

int errand_attempts_parted(struct errand *errand, unsigned of, struct text *results, struct text *diagnostics) {
  struct worker_outcome *outcomes = arena_array(errand->arena, of, sizeof *outcomes);
  struct worker_clock clock = errand->clock;
  for (int attempt = 0;; attempt++) {
    layers_for_api(errand);
    worker_run_all(errand->arena, work_in_child, errand, &clock, outcomes, of);
    unsigned bad = first_not_done(outcomes, of);
    if (bad == of) break;
    if (attempt >= RETRIES || !set_aside(errand, &outcomes[bad])) return give_up(errand, &outcomes[bad]);
    unsigned spent = outcomes[bad].spent_ms;
    clock.run_ms -= clock.run_ms > spent ? spent : clock.run_ms;  // the attempts share it
  }
  *diagnostics = outcomes[0].diagnostics;
  return collect(errand, outcomes, of, results);
}

int errand_attempts(struct errand *errand, struct text *result, struct text *diagnostics) {
  return errand_attempts_parted(errand, 1, result, diagnostics);
}

static bool output_is_input(struct errand *errand) {
  if (!inputs_hold(&errand->inputs, errand->settings->output)) return false;
  say(errand, errand->settings->output, NULL, "this file was read for the work; the result is not written over it", "");
  return true;
}

static bool hand_out(struct errand *errand, struct text *result) {
  const char *output = errand->settings->output;
  if (!errand->verbatim || !output) return deliver(&errand->problems, output, errand->colour, result);
  return result->length == 0 || file_write(&errand->problems, output, result->at, result->length);
}

int errand_finish(struct errand *errand, bool read) {
  struct text result = text_in(errand->arena), diagnostics = text_in(errand->arena);
  int status = STATUS_UNUSABLE;
  read = trials_read(&errand->trials, &errand->problems, &errand->settings->try_) && read;
  if (read && !output_is_input(errand)) {
    status = errand->attempts(errand, &result, &diagnostics);
    if (!hand_out(errand, &result)) {
      status = errand_worse(status, STATUS_UNUSABLE);
    }
  }
  deliver_words(diagnostics.at, diagnostics.length);
  deliver_problems(&errand->problems);
  return status;
}

// ---- in the child --------------------------------------------------------------------------------------------------

static void diagnose(struct child *child, const char *words) {
  frame_write(&child->out, FRAME_DIAGNOSTIC, words, strlen(words));
}

static int no_memory(struct child *child) {
  diagnose(child, "forebay: memory ran out\n");
  return STATUS_FAULT;
}

enum { PROBLEMS_SHOWN = 100 };

struct writing {
  struct child *child;
  const fb_problems *problems;
  struct arena *arena;
};

static void write_problems(void *with) {
  struct writing *writing = with;
  struct text text = text_in(writing->arena);
  size_t count = fb_problems_count(writing->problems);
  for (size_t i = 0; i < count && i < PROBLEMS_SHOWN; i++) {
    const struct fb_problem *from = fb_problems_at(writing->problems, i);
    if (!from->file) text_add(&text, "forebay: ");
    problem_write(&text, &(struct problem){.at = {from->file, from->line},
                                           .where = from->where,
                                           .said = from->said,
                                           .read = from->read,
                                           .right = from->right,
                                           .cause = from->cause});
    text_add_char(&text, '\n');
  }
  if (count > PROBLEMS_SHOWN) text_printf(&text, "and %zu more\n", count - PROBLEMS_SHOWN);
  frame_write(&writing->child->out, FRAME_DIAGNOSTIC, text_end(&text), text.length);
}

static bool diagnose_problems(struct child *child, const fb_problems *problems) {
  struct writing writing = {.child = child, .problems = problems, .arena = arena_new()};
  bool done = writing.arena && arena_try(writing.arena, write_problems, &writing);
  arena_free(writing.arena);
  return done;
}

static int work_in_child(struct child *child, void *with) {
  const struct errand *errand = with;
  if (errand->settings->require_seal && !seal_whole(&child->seal)) {
    diagnose(child, "forebay: --require-seal asks for a whole seal; here it is ");
    diagnose(child, seal_words(&child->seal));
    diagnose(child, "\n");
    return STATUS_UNUSABLE;
  }
  fb_problems *problems = fb_problems_new();
  if (!problems) return no_memory(child);
  fb_fix_hash_seed();  // behind the seal the system gives none
  int status = errand->work(child, errand, problems);
  bool said = diagnose_problems(child, problems);
  if (fb_problems_out_of_memory(problems) || !said) status = no_memory(child);
  fb_problems_free(problems);
  return status;
}

static struct fb_file as_public(const struct file_bytes *file) {
  return (struct fb_file){file->name, file->bytes, file->length};
}

fb_design *errand_design(struct child *child, const struct errand *errand, const fb_rulebook *rulebook,
                         fb_problems *problems) {
  const struct file_bytes *read = &errand->inputs.design;
  whereabouts_set(child->page, AT_DESIGN, read->name, NULL);
  struct fb_file beside[INPUT_MOST_BESIDE];
  for (size_t i = 0; i < errand->inputs.beside_count; i++) beside[i] = as_public(&errand->inputs.beside[i]);
  struct fb_file file = as_public(read);
  struct fb_reading with = {.beside = beside,
                            .beside_count = errand->inputs.beside_count,
                            .stock_of = rulebook,
                            .trials = errand->trials.list,
                            .trial_count = errand->trials.count};
  fb_design *design = fb_design_with_new(&file, &with, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  return design;
}

static void note_file(void *with, const char *file) {
  const struct child *child = with;
  whereabouts_set(child->page, AT_RULE_FILE, file, NULL);
}

fb_rulebook *errand_rulebook(struct child *child, const struct errand *errand, fb_problems *problems) {
  fb_rulebook *rulebook = fb_rulebook_new(errand->layers, errand->inputs.layer_count, NULL, note_file, child, problems);
  whereabouts_set(child->page, AT_REST, NULL, NULL);
  for (size_t i = 0; rulebook && i < errand->broken_count; i++) {
    fb_rulebook_break(rulebook, errand->broken[i].id, errand->broken[i].because);
  }
  return rulebook;
}

static bool has_firm(const struct errand *errand) {
  return errand->settings->rules.count > 0 && !errand->settings->without_house;
}

bool errand_read_priced(struct errand *errand) {
  bool read = inputs_read_design(&errand->inputs, &errand->problems, errand->settings->operands.at[0]);
  return read && (!has_firm(errand) || inputs_read_rules(&errand->inputs, &errand->problems, errand->settings));
}

fb_design *errand_priced(struct child *child, const struct errand *errand, bool *whole, fb_problems *problems) {
  fb_rulebook *rulebook = has_firm(errand) ? errand_rulebook(child, errand, problems) : NULL;
  *whole = !has_firm(errand) || (rulebook && fb_rulebook_whole(rulebook));
  fb_design *design = errand_design(child, errand, rulebook, problems);
  if (rulebook) fb_rulebook_free(rulebook);
  return design;
}

int errand_answer(struct child *child, fb_text *text, int status) {
  if (!text) return no_memory(child);
  frame_write(&child->out, FRAME_RESULT, fb_text_bytes(text), fb_text_length(text));
  fb_text_free(text);
  return status;
}

enum fb_stage errand_stage(const struct errand *errand) {
  return errand->settings->stage > 0 ? (enum fb_stage)(errand->settings->stage - 1) : FB_LAYOUT;
}

int errand_on_design(struct child *child, const struct errand *errand, fb_problems *problems, errand_then *then) {
  fb_rulebook *rulebook = errand_rulebook(child, errand, problems);
  if (!rulebook) return errand_answer(child, NULL, STATUS_FAULT);
  fb_design *design = errand_design(child, errand, rulebook, problems);
  int status = design ? then(child, errand, design, rulebook, problems) : STATUS_UNUSABLE;
  fb_design_free(design);
  fb_rulebook_free(rulebook);
  return status;
}
