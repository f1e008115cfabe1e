// SPDX-License-Identifier: MIT
#include "api/handles.h"

struct filling {
  struct arena *arena;
  void (*work)(struct arena *arena, void *with);
  void *with;
  bool done;
};

static void fill(void *with) {
  struct filling *filling = with;
  filling->work(filling->arena, filling->with);
}

// The new arena's attempt lies inside that of the one beside it: when the latter gives up, the new arena is left with
// an attempt that is gone, and is freed without another look.
static void try_to_fill(void *with) {
  struct filling *filling = with;
  filling->done = arena_try(filling->arena, fill, filling);
}

struct arena *arena_filled(struct beside *beside, void (*work)(struct arena *arena, void *with), void *with,
                           fb_problems *problems) {
  struct filling filling = {.arena = arena_new(), .work = work, .with = with};
  if (filling.arena && !beside) try_to_fill(&filling);
  if (filling.arena && beside && !arena_try(beside->arena, try_to_fill, &filling)) {
    filling.done = false;
    beside->gave_up = true;
  }
  if (filling.done) return filling.arena;
  arena_free(filling.arena);
  problems_note_no_memory(problems);
  return NULL;
}

struct writing {
  bool (*write)(struct text *text, void *with);
  void *with;
  fb_text *made;
  bool written;
};

static void write_text(struct arena *arena, void *with) {
  struct writing *writing = with;
  writing->made = arena_alloc(arena, sizeof *writing->made);
  *writing->made = (fb_text){arena, text_in(arena)};
  writing->written = writing->write(&writing->made->text, writing->with);
}

fb_text *text_filled(struct beside *beside, bool (*write)(struct text *text, void *with), void *with,
                     fb_problems *problems) {
  struct writing writing = {.write = write, .with = with};
  struct arena *arena = arena_filled(beside, write_text, &writing, problems);
  if (!arena || writing.written) return arena ? writing.made : NULL;
  arena_free(arena);
  return NULL;
}

const char *fb_text_bytes(const fb_text *text) { return text->text.at ? text->text.at : ""; }

size_t fb_text_length(const fb_text *text) { return text->text.length; }

void fb_text_free(fb_text *text) {
  if (text) arena_free(text->arena);
}

struct file_bytes file_kept(struct arena *arena, const struct fb_file *file) {
  return (struct file_bytes){.name = arena_words(arena, file->name),
                             .bytes = arena_copy(arena, file->bytes, file->length),
                             .length = file->length};
}

const char *fb_version(void) { return FOREBAY_VERSION; }
