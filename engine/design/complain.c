// SPDX-License-Identifier: MIT
#include "design/settle.h"

#include "design/overlay.h"

void store_complain(const struct store *store, struct problems *problems, int entity, enum row_id row,
                    struct complaint complaint) {
  struct text where = text_in(problems->arena);
  int line = complaint.line;
  const struct overlay *said = row == ROW_COUNT ? NULL : store_at(store, entity, row)->said;
  if (row == ROW_COUNT) {
    store_describe_entity(&where, store, entity);
  } else {
    store_describe(&where, store, entity, row);
    if (line == 0) line = store_at(store, entity, row)->line;
  }
  if (line == 0) line = store->entities[entity].at.line;
  struct place at = said && complaint.line == 0 ? said->at : (struct place){store->file, line};
  problem_add(problems, (struct problem){.at = at,
                                         .where = text_end(&where),
                                         .said = complaint.said,
                                         .read = complaint.read,
                                         .right = complaint.right});
}

const char *store_nearest_entity(const struct store *store, const char *written, uint64_t targets) {
  const char **names = arena_array(store->arena, store->entity_count + 1, sizeof *names);
  size_t count = 0;
  for (size_t e = 0; e < store->entity_count; e++) {
    const struct entity *entity = &store->entities[e];
    if (entity->name && kinds_hold(targets, entity->kind)) names[count++] = entity->name;
  }
  return text_nearest(written, names, count);
}

void store_write_targets(struct text *text, uint64_t targets) {
  text_add(text, targets == KIND_ANY ? "a name" : "the name of a ");
  if (targets != KIND_ANY) catalogue_write_kinds(text, targets, " or a ");
}

const char *store_word_choices(struct arena *arena, enum word_set set) {
  struct text choices = text_in(arena);
  int left = 0;
  for (int w = 0; w < WORD_COUNT; w++) left += catalogue_word((enum word)w)->set == set;
  for (int w = 0; w < WORD_COUNT; w++) {
    if (catalogue_word((enum word)w)->set != set) continue;
    text_printf(&choices, "\"%s\"", catalogue_word((enum word)w)->word);
    left--;
    if (left > 0) text_add(&choices, left == 1 ? " or " : ", ");
  }
  return text_end(&choices);
}
