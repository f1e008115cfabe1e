// SPDX-License-Identifier: MIT
// forebay: checks the design of a recirculating water feature before anyone digs.
//
// Every handle is opaque and has one _free; a function whose name ends in _new returns something to free; everything
// else is borrowed. Numbers are SI. Handles may be used from different threads, one thread a handle at a time. A review
// borrows its design and its rulebook, and works in both: the three are one for this, and so are all reviews of one
// design or by one rulebook. Nothing is global but for what fb_fix_hash_seed says.
#ifndef FOREBAY_H
#define FOREBAY_H

#include "forebay/design.h"
#include "forebay/fix.h"
#include "forebay/problems.h"
#include "forebay/review.h"
#include "forebay/rulebook.h"
#include "forebay/text.h"
#include "forebay/tolerance.h"

#ifdef __cplusplus
extern "C" {
#endif

const char *fb_version(void);  // "0.1.0"

#ifdef __cplusplus
}
#endif
#endif
