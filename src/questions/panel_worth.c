/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What more of a level would buy, from the components as they were found. */
#include <math.h>
#include <string.h>

#include "figure.h"
#include "panel_part.h"

/* Of how many groups of component `i` the mean is made. In a crossed design
 * those of the interaction are its cells. */
static double groups_of(const scw_panel_part *part, size_t i) {
  return (double)part->component[i].figures.groups;
}

static double sd_of(const scw_panel_component *component) {
  scw_figure sd = component->figures.sd;
  return component->figures.state == SCW_PRESENT && scwi_present(sd) ? sd.value
                                                                     : 0;
}

/* The largest SD: only ratios matter here, and squares may not be doubles. */
static double scale_of(const scw_panel_part *part) {
  double scale = 0;
  for (size_t i = 0; i < part->n_components; i++)
    scale = fmax(scale, sd_of(&part->component[i]));
  return scale;
}

static double variance_of(const scw_panel_component *component, double scale) {
  double sd = sd_of(component) / scale;
  return sd * sd;
}

/* Does another group of component `top` bring others of component `below`?
 * What stands lower in a nested design does. Crossed, operators do not bring
 * spots, nor spots operators. */
static bool brings(const scw_panel_part *part, size_t top, size_t below) {
  if (part->design != SCW_PANEL_CROSSED || top == below) return below >= top;
  return below > 1 && below > top;
}

/* The variance of the mean by the components, in the square of their scale, with twice as many of component
 * `twice` (n_components: as it is). */
static double variance_of_mean(const scw_panel_part *part, size_t twice) {
  double sum = 0, scale = scale_of(part);
  for (size_t i = 0; i < part->n_components; i++) {
    double groups = groups_of(part, i);
    bool more = twice < part->n_components && brings(part, twice, i);
    if (groups > 0 && scale > 0)
      sum += variance_of(&part->component[i], scale) /
             (more ? 2 * groups : groups);
  }
  return sum;
}

static size_t find(const scw_panel_part *part, const char *level) {
  for (size_t i = 0; i < part->n_components; i++)
    if (!strcmp(part->component[i].level, level)) return i;
  return part->n_components;
}

static void find_repeats(scw_panel_part *part) {
  size_t spot = find(part, "spot"), repeat = find(part, "repeat");
  part->repeats_worth = scwi_missing(SCW_NOT_COMPUTED);
  if (spot == part->n_components || repeat == part->n_components) return;
  double spots = sd_of(&part->component[spot]);
  double repeats = sd_of(&part->component[repeat]);
  if (part->component[repeat].figures.state != SCW_PRESENT ||
      part->component[spot].figures.state != SCW_PRESENT)
    part->repeats_worth = scwi_missing(SCW_NOT_TOLD_APART);
  else if (spots > 0)
    part->repeats_worth = scwi_figure(fmax(1, repeats / spots));
  else
    part->repeats_worth = scwi_missing(SCW_UNBOUNDED);
}

void scwi_panel_worth(scw_panel_part *part) {
  double now = variance_of_mean(part, part->n_components);
  scw_figure u = part->mean.standard_uncertainty;
  for (size_t i = 0; i < part->n_components; i++) {
    scw_panel_component *component = &part->component[i];
    bool told = component->figures.state == SCW_PRESENT && now > 0 &&
                strcmp(component->level, "interaction") != 0;
    component->twice =
        !told              ? scwi_missing(SCW_NOT_COMPUTED)
        : scwi_present(u)
            ? scwi_figure(u.value * sqrt(variance_of_mean(part, i) / now))
            : u;
  }
  find_repeats(part);
}
