/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dictionary.h"

#include <string.h>

#define ROLE(key, role) {key, SCWI_MEANS_ROLE, SCW_ROLE_##role, NULL}
#define READING(key, quantity) {key, SCWI_MEANS_READING, 0, quantity}
#define SIDE(key, side) {key, SCWI_MEANS_SIDE, SCW_SIDE_##side, NULL}
#define SUMMARY(key) {key, SCWI_MEANS_SUMMARY, 0, NULL}
#define OTHER(key) {key, SCWI_MEANS_OTHER, 0, NULL}
#define FILLER(key) {key, SCWI_MEANS_FILLER, 0, NULL}

static const scwi_entry roles[] = {
    ROLE("set", SET), ROLE("group", SET), ROLE("series", SET),

    ROLE("product", PRODUCT), ROLE("sample", PRODUCT),
    ROLE("coating", PRODUCT), ROLE("dressing", PRODUCT), ROLE("wax", PRODUCT),
    ROLE("treatment", PRODUCT), ROLE("sealant", PRODUCT),
    ROLE("polish", PRODUCT), ROLE("formula", PRODUCT),

    ROLE("panel", PANEL), ROLE("plate", PANEL), ROLE("board", PANEL),
    ROLE("hull", PANEL), ROLE("coupon", PANEL), ROLE("specimen", PANEL),

    ROLE("state", STATE), ROLE("condition", STATE), ROLE("stage", STATE),
    ROLE("when", STATE), ROLE("phase", STATE),

    ROLE("spot", SPOT), ROLE("track", SPOT), ROLE("position", SPOT),
    ROLE("place", SPOT), ROLE("point", SPOT), ROLE("location", SPOT),

    ROLE("repeat", REPEAT), ROLE("replicate", REPEAT), ROLE("rep", REPEAT),

    ROLE("order", ORDER), ROLE("sequence", ORDER), ROLE("seq", ORDER),
    ROLE("run order", ORDER), ROLE("reading order", ORDER),

    ROLE("session", SESSION), ROLE("date", SESSION), ROLE("day", SESSION),

    ROLE("direction", DIRECTION), ROLE("dir", DIRECTION),

    ROLE("geometry", GEOMETRY), ROLE("angle", GEOMETRY),
    ROLE("gloss angle", GEOMETRY),

    ROLE("x", X), ROLE("y", Y),
    ROLE("row", ROW), ROLE("column", COLUMN), ROLE("col", COLUMN),

    ROLE("operator", OPERATOR), ROLE("tester", OPERATOR),
    ROLE("reader", OPERATOR), ROLE("technician", OPERATOR),
    ROLE("person", OPERATOR), ROLE("laboratory", OPERATOR),
    ROLE("lab", OPERATOR), ROLE("by", OPERATOR), ROLE("read by", OPERATOR),
    ROLE("measured by", OPERATOR),

    ROLE("replaces", REPLACES), ROLE("read again", REPLACES),
    ROLE("takes back", TAKES_BACK),
};

static const scwi_entry words[] = {
    READING("reading", ""), READING("readings", ""), READING("value", ""),
    READING("values", ""), READING("measurement", ""),
    READING("measured", ""), READING("result", ""),
    READING("gloss", "gloss"), READING("haze", "haze"),
    READING("pull", "pull"), READING("pull force", "pull"),
    READING("force", "force"), READING("friction", "friction"),
    READING("coefficient", "coefficient"), READING("cof", "coefficient"),
    READING("thickness", "thickness"), READING("roughness", "roughness"),
    READING("hardness", "hardness"),

    SIDE("before", BEFORE), SIDE("baseline", BEFORE), SIDE("initial", BEFORE),
    SIDE("pre", BEFORE), SIDE("pretreatment", BEFORE),
    SIDE("pre-treatment", BEFORE),
    SIDE("after", AFTER), SIDE("final", AFTER), SIDE("post", AFTER),
    SIDE("posttreatment", AFTER), SIDE("post-treatment", AFTER),

    SUMMARY("mean"), SUMMARY("average"), SUMMARY("avg"), SUMMARY("sd"),
    SUMMARY("stdev"), SUMMARY("stddev"), SUMMARY("std"), SUMMARY("std dev"),
    SUMMARY("st dev"), SUMMARY("stdev s"), SUMMARY("standard deviation"),
    SUMMARY("max"), SUMMARY("maximum"), SUMMARY("min"), SUMMARY("minimum"),
    SUMMARY("n"), SUMMARY("count"), SUMMARY("median"), SUMMARY("range"),
    SUMMARY("cv"), SUMMARY("rsd"), SUMMARY("variance"), SUMMARY("var"),
    SUMMARY("sum"), SUMMARY("total"), SUMMARY("se"), SUMMARY("sem"),
    SUMMARY("standard error"),

    OTHER("no"), OTHER("nr"), OTHER("#"), OTHER("number"), OTHER("index"),
    OTHER("id"), OTHER("line"), OTHER("item"), OTHER("time"),
    OTHER("temperature"), OTHER("temp"), OTHER("humidity"), OTHER("rh"),
    OTHER("meter"), OTHER("instrument"),
    OTHER("remark"), OTHER("remarks"), OTHER("comment"), OTHER("comments"),
    OTHER("note"), OTHER("notes"), OTHER("difference"), OTHER("diff"),
    OTHER("change"), OTHER("delta"), OTHER("points"), OTHER("score"),
    OTHER("rank"),

    FILLER("the"), FILLER("of"), FILLER("at"), FILLER("on"), FILLER("in"),
    FILLER("waxing"), FILLER("treating"), FILLER("polishing"),
    FILLER("application"), FILLER("applying"), FILLER("washing"),
    FILLER("wash"), FILLER("cure"), FILLER("curing"), FILLER("name"),
    FILLER("label"), FILLER("code"), FILLER("or"), FILLER("and"),
};

static const scwi_entry *find(const scwi_entry *entry, size_t n,
                              const char *key) {
  for (size_t i = 0; i < n; i++)
    if (entry[i].key[0] == key[0] && !strcmp(entry[i].key, key))
      return entry + i;
  return NULL;
}

const scwi_entry *scwi_entry_of(const char *key) {
  const scwi_entry *role = find(roles, sizeof roles / sizeof *roles, key);
  return role ? role : find(words, sizeof words / sizeof *words, key);
}
