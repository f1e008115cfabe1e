// SPDX-License-Identifier: MIT
// Files handed in, texts handed out.
#ifndef FOREBAY_TEXT_H
#define FOREBAY_TEXT_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

struct fb_file {
  const char *name;  // for messages; borrowed for the call
  const char *bytes;
  size_t length;
};

typedef struct fb_text fb_text;

const char *fb_text_bytes(const fb_text *text);  // NUL-ended
size_t fb_text_length(const fb_text *text);
void fb_text_free(fb_text *text);

#ifdef __cplusplus
}
#endif
#endif
