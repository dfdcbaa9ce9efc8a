/* YAML in and out, by shape (doughwright/field.h), for the files that people
 * keep: a formula, a shop.
 *
 * How a shape looks in a file
 *   - a quantity is a text with its unit, "50 lb", "25 kg", "75 F", "60 %",
 *     and its key has no unit in it: dough_goal_c is `dough_goal: 75 F`;
 *     percents and times keep theirs, and may be bare numbers: `minutes: 2`
 *   - minutes after midnight are a time of day: `opens: 05:30`
 *   - members of a nested object that must be there are keys of the object
 *     itself, as the store has them in one row
 *   - ids, positions and moments are not in files
 *   - yes/no are `yes` and `no`
 * Not understood on purpose: anchors and aliases, tags, several documents,
 * keys given twice, tabs as indentation, anything that is not UTF-8, files
 * beyond DW_YAML_MOST bytes.
 */
#ifndef DW_FILES_YAML_FILE_H
#define DW_FILES_YAML_FILE_H

#include "doughwright/field.h"

enum { DW_YAML_MOST = 1 << 20 };

/* The object is preset, filled (texts and lists copied into the arena) and
 * checked; after a failure it is not to be used. The error's field is
 * "name:line: products[2].ball", so that it is found in the file `name`. */
dw_status dw_yaml_read(const dw_shape *shape, const char *name,
                       const char *text, size_t bytes, dw_arena *arena,
                       void *object, dw_err *err);
/* What is at its preset is left out. Reading it again gives an equal object:
 * a number is written in the first of its units in which it is short and
 * exact. In the arena; DW_E_ROOM. */
dw_status dw_yaml_write(const dw_shape *shape, const void *object,
                        dw_arena *arena, const char **text, size_t *bytes,
                        dw_err *err);

#endif
