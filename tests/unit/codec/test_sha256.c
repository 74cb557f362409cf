/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SHA-256 against the examples NIST publishes with FIPS 180-4 ("SHA-256
 * Examples", csrc.nist.gov: one block, two blocks) and the million letters a
 * of FIPS 180-2, appendix B.3; the empty message is from NIST's CAVP short
 * message vectors (Len = 0). */
#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "sha256.h"

static scwi_sha256 *new_hash(scw_context **context) {
  scwi_sha256 *hash;
  assert_int_equal(scwi_context_make(context), SCW_OK);
  assert_int_equal(scwi_sha256_new(*context, &hash), SCW_OK);
  return hash;
}

static void published_digests(void **state) {
  static const struct { const char *message, *digest; } cases[] = {
      {"abc",
       "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
      {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
       "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
      {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"}};
  scw_context *context;
  scwi_sha256 *hash = new_hash(&context);
  char digest[65];
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    scwi_sha256_update(hash, cases[i].message, strlen(cases[i].message));
    scwi_sha256_finish(hash, digest); /* and starts anew */
    assert_string_equal(digest, cases[i].digest);
  }
  scwi_sha256_free(hash);
  scw_context_free(context);
}

static void a_million_letters_in_pieces_of_any_size(void **state) {
  static const size_t pieces[] = {1, 7, 63, 64, 65, 1000, 4096, 1000000};
  enum { MILLION = 1000000 };
  char *letters = malloc(MILLION), digest[65];
  scw_context *context;
  scwi_sha256 *hash = new_hash(&context);
  (void)state;
  assert_non_null(letters);
  memset(letters, 'a', MILLION);
  for (size_t i = 0; i < sizeof pieces / sizeof *pieces; i++) {
    for (size_t at = 0; at < MILLION; at += pieces[i]) {
      size_t left = MILLION - at;
      scwi_sha256_update(hash, letters + at,
                         left < pieces[i] ? left : pieces[i]);
    }
    scwi_sha256_finish(hash, digest);
    assert_string_equal(
        digest,
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  }
  free(letters);
  scwi_sha256_free(hash);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(published_digests),
      cmocka_unit_test(a_million_letters_in_pieces_of_any_size),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
