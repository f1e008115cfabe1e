// SPDX-License-Identifier: MIT
#define _GNU_SOURCE  // MAP_ANONYMOUS, strnlen
#include "cli/whereabouts.h"

#include <stdatomic.h>
#include <stddef.h>
#include <string.h>
#include <sys/mman.h>

struct whereabouts {
  atomic_uint count;  // odd while a note is being written
  atomic_int kind;
  char name[WHEREABOUTS_NAME];
  char entity[WHEREABOUTS_ENTITY];
};

struct whereabouts *whereabouts_new(void) {
  void *page = mmap(NULL, sizeof(struct whereabouts), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  return page == MAP_FAILED ? NULL : page;
}

void whereabouts_free(struct whereabouts *page) {
  if (page) munmap(page, sizeof *page);
}

static void put(char *to, size_t size, const char *words) {
  size_t length = words ? strnlen(words, size - 1) : 0;
  if (length > 0) memcpy(to, words, length);
  to[length] = '\0';
}

void whereabouts_set(struct whereabouts *page, enum whereabouts_kind kind, const char *name, const char *entity) {
  atomic_fetch_add(&page->count, 1);
  atomic_store(&page->kind, (int)kind);
  put(page->name, sizeof page->name, name);
  put(page->entity, sizeof page->entity, entity);
  atomic_fetch_add(&page->count, 1);
}

unsigned whereabouts_count(const struct whereabouts *page) { return atomic_load(&page->count); }

static void take(char *to, const char *from, size_t size) {
  memcpy(to, from, size);
  to[size - 1] = '\0';
  for (char *c = to; *c; c++) {
    if ((unsigned char)*c < 0x20 || *c == 0x7f) *c = '?';
  }
}

// A child that is alive may be writing: look again until two counts agree. One that died halfway never agrees: what is
// there is used as it is.
void whereabouts_read(const struct whereabouts *page, struct whereabouts_note *note) {
  unsigned before = 0, after = 1;
  for (int look = 0; look < 100 && (before != after || before % 2 != 0); look++) {
    before = atomic_load(&page->count);
    int kind = atomic_load(&page->kind);
    note->kind = kind > AT_START && kind < AT_KINDS ? (enum whereabouts_kind)kind : AT_START;
    take(note->name, page->name, sizeof note->name);
    take(note->entity, page->entity, sizeof note->entity);
    after = atomic_load(&page->count);
  }
}
