/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "utf8.h"

/* What a lead byte announces: the length, and the range of the byte that
 * follows it (later bytes are 80 to BF). Table 3-7 of the Unicode standard. */
typedef struct lead {
  size_t length;
  unsigned char low, high;
} lead;

static lead lead_of(unsigned char c) {
  if (c < 0x80) return (lead){1, 0, 0};
  if (c < 0xC2) return (lead){0, 0, 0};
  if (c < 0xE0) return (lead){2, 0x80, 0xBF};
  if (c == 0xE0) return (lead){3, 0xA0, 0xBF};
  if (c == 0xED) return (lead){3, 0x80, 0x9F};
  if (c < 0xF0) return (lead){3, 0x80, 0xBF};
  if (c == 0xF0) return (lead){4, 0x90, 0xBF};
  if (c < 0xF4) return (lead){4, 0x80, 0xBF};
  if (c == 0xF4) return (lead){4, 0x80, 0x8F};
  return (lead){0, 0, 0};
}

size_t scwi_utf8_sequence(const char *bytes, size_t size, bool *cut) {
  const unsigned char *c = (const unsigned char *)bytes;
  lead first = lead_of(c[0]);
  *cut = false;
  for (size_t i = 1; i < first.length; i++) {
    if (i == size) {
      *cut = true;
      return 0;
    }
    unsigned char low = i == 1 ? first.low : 0x80;
    unsigned char high = i == 1 ? first.high : 0xBF;
    if (c[i] < low || c[i] > high) return 0;
  }
  return first.length;
}

size_t scwi_utf8_write(uint32_t character, char *to) {
  size_t length = character < 0x80      ? 1
                  : character < 0x800   ? 2
                  : character < 0x10000 ? 3
                                        : 4;
  static const unsigned char marks[] = {0, 0x00, 0xC0, 0xE0, 0xF0};
  for (size_t i = length; i-- > 1; character >>= 6)
    to[i] = (char)(0x80 | (character & 0x3F));
  to[0] = (char)(marks[length] | character);
  return length;
}

size_t scwi_ascii_run(const char *bytes, size_t size) {
  enum { STRIDE = 64 }; /* whole strides become a few vector instructions */
  const unsigned char *c = (const unsigned char *)bytes;
  size_t i = 0;
  for (; i + STRIDE <= size; i += STRIDE) {
    unsigned char odd = 0; /* top bit set by zero and by 80 to FF */
    for (size_t k = 0; k < STRIDE; k++)
      odd = (unsigned char)(odd | c[i + k] | (unsigned char)(c[i + k] - 1));
    if (odd & 0x80) break;
  }
  while (i < size && c[i] != 0 && c[i] < 0x80) i++;
  return i;
}

size_t scwi_utf8_count(const char *bytes, size_t size) {
  size_t count = 0;
  for (size_t i = 0; i < size; i++)
    count += ((unsigned char)bytes[i] & 0xC0) != 0x80;
  return count;
}
