// SPDX-License-Identifier: MIT
// + - * / ^ and comparison between quantities: what their metatable answers.
#include <math.h>

#include "script/quantity_inside.h"
#include "units/compare.h"

static double larger(double a, double b) { return a > b ? a : b; }

static double scale_of(const struct script_quantity *quantity) {
  return larger(quantity->scale, fabs(quantity->value));
}

// Each operator says how powers, value and scale combine.
struct operation {
  const char *doing;
  bool (*powers)(struct powers a, struct powers b, struct powers *result);
  double (*value)(double a, double b);
  double (*scale)(const struct script_quantity pair[2], double value);
  bool alike;  // a bare number takes the other's sort
};

static double sum(double a, double b) { return a + b; }
static double difference(double a, double b) { return a - b; }
static double product(double a, double b) { return a * b; }
static double quotient(double a, double b) { return a / b; }

// The band is a share of the largest term: the difference of two elevations is known as well as the elevations are.
static double scale_of_terms(const struct script_quantity pair[2], double value) {
  (void)value;
  return larger(scale_of(&pair[0]), scale_of(&pair[1]));
}

static double relative(const struct script_quantity *quantity) {
  return quantity->value != 0 ? scale_of(quantity) / fabs(quantity->value) : 1;
}

static double scale_of_factors(const struct script_quantity pair[2], double value) {
  if (value == 0) return scale_of(&pair[0]) * scale_of(&pair[1]);
  return fabs(value) * larger(relative(&pair[0]), relative(&pair[1]));
}

static double scale_of_parts(const struct script_quantity pair[2], double value) {
  if (value == 0) return scale_of(&pair[0]) / fabs(pair[1].value);
  return fabs(value) * larger(relative(&pair[0]), relative(&pair[1]));
}

static const struct operation adding = {"added to", powers_add, sum, scale_of_terms, true};
static const struct operation subtracting = {"reduced by", powers_subtract, difference, scale_of_terms, true};
static const struct operation multiplying = {"multiplied by", powers_multiply, product, scale_of_factors, false};
static const struct operation dividing = {"divided by", powers_divide, quotient, scale_of_parts, false};

static int push_result(lua_State *L, double value, struct powers powers, double scale, uint32_t flags) {
  flags &= SCRIPT_OUTSIDE | SCRIPT_POISONED;
  if (!isfinite(value) && !(flags & SCRIPT_POISONED))
    return script_misuse(L, "a divisor that is not 0", "the result is not a number");
  struct script_quantity *result = script_push_quantity(L, value, powers);
  result->scale = scale;
  result->flags = flags;
  return 1;
}

static int reckon(lua_State *L, const struct operation *by) {
  struct script_quantity pair[2];
  struct powers powers = {0};
  read_two(L, 1, 2, by->doing, pair);
  uint32_t flags = pair[0].flags | pair[1].flags;
  if (is_poisoned(pair)) return push_result(L, 0, powers, 0, flags);
  if (by->alike) adopt_powers(L, 1, 2, pair);
  if (!by->powers(pair[0].powers, pair[1].powers, &powers)) return raise_pair(L, 1, 2, by->doing);
  double value = by->value(pair[0].value, pair[1].value);
  return push_result(L, value, powers, by->scale(pair, value), flags);
}

static int add(lua_State *L) { return reckon(L, &adding); }
static int subtract(lua_State *L) { return reckon(L, &subtracting); }
static int multiply(lua_State *L) { return reckon(L, &multiplying); }
static int divide(lua_State *L) { return reckon(L, &dividing); }

static int negate(lua_State *L) {
  const struct script_quantity *quantity = script_to_quantity(L, 1);
  if (quantity->powers.point)
    return script_misuse(L, "the difference of two of them", "a height or a temperature cannot be turned negative");
  return push_result(L, -quantity->value, quantity->powers, quantity->scale, quantity->flags);
}

static int raise_power(lua_State *L) {
  struct script_quantity base, result;
  lua_Integer times;
  bool fits = script_read_quantity(L, 1, &base) && lua_isinteger(L, 2);
  times = fits ? lua_tointeger(L, 2) : 0;
  if (times < 1 || times > 4)
    return script_misuse(L, "^ 2, ^ 3 or ^ 4", "a value with a unit is raised to 1, 2, 3 or 4 alone");
  if (base.flags & SCRIPT_POISONED) return push_result(L, 0, base.powers, 0, base.flags);
  result = base;
  for (; times > 1; times--) {
    if (!powers_multiply(result.powers, base.powers, &result.powers)) return raise_pair(L, 1, 1, "multiplied by");
    result.value *= base.value;
  }
  return push_result(L, result.value, result.powers, fabs(result.value) * relative(&base), base.flags);
}

static int refuse_remainder(lua_State *L) {
  return script_misuse(L, "+ - * / or ^", "%% and // do not work on values with units");
}

static int refuse_part(lua_State *L) {
  char words[DIMENSION_ROOM], name[DIMENSION_ROOM];
  describe_value(L, 1, words, sizeof words);
  copy_words(name, sizeof name, lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : luaL_typename(L, 2));
  return script_misuse(L, "the value itself", "%s has no part `%s`", words, name);
}

// Order within the band: a value at its limit is neither below nor above, and is <= and >= it.
static int is_equal(lua_State *L) {
  struct script_quantity pair[2];
  script_quantity_pair(L, 1, 2, "compared with", pair);
  lua_pushboolean(L, !is_poisoned(pair) && script_compare(&pair[0], &pair[1]) == STANDS_AT);
  return 1;
}

static int is_below(lua_State *L) {
  struct script_quantity pair[2];
  script_quantity_pair(L, 1, 2, "compared with", pair);
  lua_pushboolean(L, !is_poisoned(pair) && script_compare(&pair[0], &pair[1]) == STANDS_BELOW);
  return 1;
}

static int is_not_above(lua_State *L) {
  struct script_quantity pair[2];
  script_quantity_pair(L, 1, 2, "compared with", pair);
  lua_pushboolean(L, !is_poisoned(pair) && script_compare(&pair[0], &pair[1]) != STANDS_ABOVE);
  return 1;
}

static void push_text(lua_State *L, int index) {
  char buffer[256];
  size_t length;
  int type = lua_type(L, index);
  if (type != LUA_TSTRING && type != LUA_TNUMBER && type != LUA_TUSERDATA) raise_pair(L, 1, 2, "joined with");
  const char *words = words_of_value(L, index, buffer, sizeof buffer, &length);
  lua_pushlstring(L, words, length);
}

static int join(lua_State *L) {
  push_text(L, 1);
  push_text(L, 2);
  lua_concat(L, 2);
  return 1;
}

static const luaL_Reg events[] = {{"__add", add},
                                  {"__sub", subtract},
                                  {"__mul", multiply},
                                  {"__div", divide},
                                  {"__unm", negate},
                                  {"__pow", raise_power},
                                  {"__eq", is_equal},
                                  {"__lt", is_below},
                                  {"__le", is_not_above},
                                  {"__concat", join},
                                  {"__index", refuse_part},
                                  {"__mod", refuse_remainder},
                                  {"__idiv", refuse_remainder},
                                  {NULL, NULL}};

void open_quantities(lua_State *L) {
  lua_newtable(L);
  luaL_setfuncs(L, events, 0);
  lua_pushliteral(L, "quantity");
  lua_setfield(L, -2, "__name");
  script_of(L)->quantity_meta = luaL_ref(L, LUA_REGISTRYINDEX);
}
