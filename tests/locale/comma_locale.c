/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loaded before a test program: makes it a host that follows the user's
 * locale, and refuses to go on unless that locale has a decimal comma. */
#include <locale.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

__attribute__((constructor)) static void follow_the_users_locale(void) {
  char text[8];
  if (!setlocale(LC_ALL, "")) {
    fputs("the locale asked for is not there\n", stderr);
    _exit(71);
  }
  snprintf(text, sizeof text, "%.1f", 1.5);
  if (strcmp(localeconv()->decimal_point, ",") || strcmp(text, "1,5")) {
    fprintf(stderr, "the decimal mark is \"%s\" and not a comma\n",
            localeconv()->decimal_point);
    _exit(72);
  }
}
