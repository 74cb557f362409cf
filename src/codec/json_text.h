/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the two writers of JSON share. */
#ifndef SCWI_JSON_TEXT_H
#define SCWI_JSON_TEXT_H

#include "text.h"

/* The key of the object that says why figures are null. */
#define SCWI_JSON_MISSING "missing"

/* Any text as a JSON string in quotes; broken UTF-8 becomes U+FFFD. */
void scwi_json_quote(scwi_text *to, const char *text);

#endif
