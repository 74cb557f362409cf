/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scatterwise/scatterwise.h"

int main(void) { return 0; }
