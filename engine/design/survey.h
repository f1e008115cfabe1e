// SPDX-License-Identifier: MIT
// Surveyed points out of a CSV file that lies beside the design: point, northing, easting, elevation, description. Rows
// may be blank or begin with '#'. A header is optional; it may put the columns in another order, and names the unit
// ("elevation (m)"); without one they are in feet or metres as the project's units say. Northing is y and easting x of
// the outlines, elevation a height over the site's datum.
#ifndef FOREBAY_DESIGN_SURVEY_H
#define FOREBAY_DESIGN_SURVEY_H

#include <stdbool.h>

#include "base/file.h"
#include "design/store.h"

// Reads the file that site.survey names, if it names one, into the store. False: problems were added, each at its line.
bool survey_read(struct store *store, const struct file_bytes *beside, size_t count, struct problems *problems);

#endif
