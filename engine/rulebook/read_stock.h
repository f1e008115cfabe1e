// SPDX-License-Identifier: MIT
// Inside of stock: what reads a `stock { ... }`, and what puts its entries in place of earlier ones.
#ifndef FOREBAY_RULEBOOK_READ_STOCK_H
#define FOREBAY_RULEBOOK_READ_STOCK_H

#include "rulebook/complain.h"
#include "rulebook/stock.h"

void stock_read(struct rulebook *book, struct rule_file *file, const struct value *table, int line);

// stock_keep.c: an entry at its place in the rulebook's stock. False, with a complaint: this layer has one already.
bool stock_keep_pump(struct reading_rule *at, struct stock_pump pump);
bool stock_keep_pipe(struct reading_rule *at, struct stock_pipe pipe);
bool stock_keep_figure(struct reading_rule *at, struct stock_figure figure);
bool stock_keep_tolerance(struct reading_rule *at, struct stock_tolerance tolerance);
// An empty list: nothing of earlier layers can be had.
void stock_drop_pumps(struct reading_rule *at, int line);
void stock_drop_pipes(struct reading_rule *at, int line);

// read_stock_pump.c, read_stock_figures.c
void stock_read_pump(struct reading_rule *at, const struct value *table);
void stock_read_figures(struct reading_rule *at, enum kind kind, const struct value *table);
bool stock_read_price(struct reading_rule *at, const struct value *value, const char *key, double *price);

// A table as a design's reader takes it.
struct written *stock_as_written(struct arena *arena, const struct value *value);

#endif
