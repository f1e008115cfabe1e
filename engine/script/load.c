// SPDX-License-Identifier: MIT
#include <stdio.h>
#include <string.h>

#include "script/inside.h"
#include "script/syntax_scan.h"
#include "script/syntax_words.h"

enum { PIECE = 4096 };

struct load {
  struct script *script;
  const char *name;  // "@path", kept
  const char *bytes;
  size_t length, fed;
};

static const char *feed(lua_State *L, void *with, size_t *size) {
  (void)L;
  struct load *load = with;
  size_t rest = load->length - load->fed;
  *size = rest < PIECE ? rest : PIECE;
  const char *piece = load->bytes + load->fed;
  load->fed += *size;
  return *size ? piece : NULL;
}

// Lua shortens a chunk's name to LUA_IDSIZE - 1 bytes and writes "name:line: " before what it says.
static const char *split_place(const char *said, const char *path, int *line) {
  size_t length = strlen(path);
  if (length > LUA_IDSIZE - 1) length = LUA_IDSIZE - 1;
  *line = 0;
  if (strlen(said) <= length || said[length] != ':') return said;
  const char *at = said + length + 1;
  while (*at >= '0' && *at <= '9') *line = *line * 10 + (*at++ - '0');
  return strncmp(at, ": ", 2) == 0 ? at + 2 : at;
}

// The parser's stack alone runs out by an error that the message handler of the call around it has seen already.
static const char *words_of_parser(lua_State *L) {
  const char *said = lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : NULL;
  return said ? said : "C stack overflow";
}

static int raise_syntax(lua_State *L, const struct load *load) {
  const char *said = words_of_parser(L);
  struct script_failure *failure = &new_failure(L, SCRIPT_SYNTAX)->failure;
  struct syntax_words words;
  int line;
  said = split_place(said, load->name + 1, &line);
  syntax_words_find(&words, load->bytes, load->length, line, said);
  failure->file = load->name + 1;
  failure->line = words.line;
  copy_words(failure->said, sizeof failure->said, words.said ? words.said : said);
  copy_words(failure->read, sizeof failure->read, words.read);
  if (words.right) copy_words(failure->right, sizeof failure->right, words.right);
  if (words.said) copy_words(failure->cause, sizeof failure->cause, said);
  return raise_failure(L);
}

static int load_text(lua_State *L) {
  struct load *load = lua_touserdata(L, 1);  // load environment
  int status = lua_load(L, feed, load, load->name, "t");
  if (status == LUA_ERRMEM) return script_stop(L, memory_used_up);
  if (status != LUA_OK) return raise_syntax(L, load);
  lua_pushvalue(L, 2);
  lua_setupvalue(L, -2, 1);  // a main function has one upvalue, _ENV
  return 1;
}

static void keep_name(void *with) {
  struct load *load = with;
  struct arena *kept = load->script->kept;
  struct chunk_name *name = arena_alloc(kept, sizeof *name);
  struct text text = text_in(kept);
  text_add_char(&text, '@');
  text_add(&text, load->name);
  *name = (struct chunk_name){load->script->chunk_names, text_end(&text)};
  load->script->chunk_names = name;
}

static const char *find_name(const struct script *script, const char *path) {
  for (const struct chunk_name *known = script->chunk_names; known; known = known->older)
    if (strcmp(known->name + 1, path) == 0) return known->name;
  return NULL;
}

static const char *chunk_name_for(struct script *script, const char *path) {
  const char *known = find_name(script, path);
  if (known) return known;
  struct load load = {.script = script, .name = path};
  if (arena_try(script->kept, keep_name, &load)) return script->chunk_names->name;
  script->starved = true;
  return NULL;
}

static void skip_byte_order_mark(struct load *load) {
  if (load->length < 3 || memcmp(load->bytes, "\xEF\xBB\xBF", 3) != 0) return;
  load->bytes += 3;
  load->length -= 3;
}

static bool has_bytes(const char *bytes, size_t length, const char *word) {
  size_t word_length = strlen(word);
  const char *at = bytes, *end = bytes + length;
  while ((at = memchr(at, word[0], (size_t)(end - at)))) {
    if ((size_t)(end - at) >= word_length && memcmp(at, word, word_length) == 0) return true;
    at++;
  }
  return false;
}

// `_ENV` would let a text swap the words under its own feet, and Lua 5.4.4 makes wrong code where it is <const>.
static int line_of_environment(const struct load *load) {
  if (!has_bytes(load->bytes, load->length, "_ENV")) return 0;  // the token scan is for the few that hold them
  struct token_scan scan = token_scan_of(load->bytes, load->length);
  struct syntax_token token = token_next(&scan);
  while (token.kind != TOKEN_END && !token_is(&token, "_ENV")) token = token_next(&scan);
  return token.kind == TOKEN_END ? 0 : token.line;
}

static bool refuse_environment(struct script *script, const char *name, int line, struct script_failure *failure) {
  *failure = (struct script_failure){.kind = SCRIPT_MISUSE, .slot = -1, .file = name + 1, .line = line};
  copy_words(failure->said, sizeof failure->said, "this name has no use here");
  copy_words(failure->read, sizeof failure->read, "_ENV");
  copy_words(failure->right, sizeof failure->right, "another name");
  lua_pop(script->lua, 1);
  return false;
}

static bool refuse(struct script *script, struct script_failure *failure) {
  copy_words(failure->said, sizeof failure->said, memory_used_up);
  lua_pop(script->lua, 1);  // the environment
  return false;
}

static bool refuse_length(struct script *script, const char *name, size_t length, struct script_failure *failure) {
  *failure = (struct script_failure){.kind = SCRIPT_MISUSE, .slot = -1, .file = name + 1};
  snprintf(failure->said, sizeof failure->said, "the file has %zu bytes, at most %zu are read", length,
           script->budget.file_bytes);
  copy_words(failure->right, sizeof failure->right, "two files, or a shorter one");
  lua_pop(script->lua, 1);
  return false;
}

bool script_load(struct script *script, const char *path, const char *bytes, size_t length,
                 struct script_failure *failure) {
  const char *name = chunk_name_for(script, path);
  *failure = (struct script_failure){.kind = SCRIPT_STOPPED, .slot = -1};
  if (!name) return refuse(script, failure);
  if (length > script->budget.file_bytes) return refuse_length(script, name, length, failure);
  struct load load = {script, name, bytes, length, 0};
  skip_byte_order_mark(&load);
  int line = line_of_environment(&load);
  if (line) return refuse_environment(script, name, line, failure);
  return script_protect(script, load_text, &load, 1, 1, failure);
}
