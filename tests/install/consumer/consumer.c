/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stranger's program: three readings in, their mean out. Compiles as C and
 * as C++. */
#include <scatterwise/scatterwise.h>
#include <stdio.h>
#include <string.h>

static int print(void *user, const char *data, size_t size) {
  return fwrite(data, 1, size, (FILE *)user) != size;
}

int main(void) {
  const double gloss[] = {82.4, 81.9, 83.0, 82.2};
  scw_context *context = NULL;
  scw_table *table = NULL;
  scw_readings_result result;
  scw_settings settings;
  scw_report_options options;
  scw_sink sink;
  scw_status status;

  memset(&result, 0, sizeof result);
  memset(&options, 0, sizeof options);
  scw_settings_init(&settings);
  sink.write = print;
  sink.user = stdout;
  if (scw_context_new(&context) != SCW_OK) return 1;
  status = scw_table_from_values(context, "hull", gloss, 4, &table);
  if (status == SCW_OK)
    status = scw_readings(context, table, &settings, NULL, 0, &result);
  if (status == SCW_OK)
    status = scw_report_readings(context, &result, table, options, sink);
  if (status == SCW_OK)
    printf("library %s, mean %.3f\n", scw_version(),
           result.sets[0].summary.mean.value);
  else
    fprintf(stderr, "%s\n", scw_context_message(context));
  scw_readings_result_free(&result);
  scw_table_free(table);
  scw_context_free(context);
  return status != SCW_OK;
}
