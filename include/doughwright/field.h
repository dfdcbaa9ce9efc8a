/* Shapes: one table per request, reply and stored noun.
 *
 * A shape names every member of a C struct once: JSON name, kind, unit, range,
 * preset, offset. From it come decoding, encoding, range checks, the OpenAPI
 * page, command-line flags and the mapping to columns. No door and no store
 * file names a field by hand, so a quantity has one spelling from the engine to
 * the column to the page.
 *
 * How members are laid out
 *   DW_REAL    double       a number; NaN and infinities never pass
 *   DW_WHOLE   int64_t      a whole number, ids and times (ms UTC) included
 *   DW_YES     bool
 *   DW_TEXT    const char * UTF-8, length in bytes within [low, high]
 *   DW_CHOICE  int          index into `words`
 *   DW_REALS   double *     with its count (size_t) at `count`
 *   DW_WHOLES  int64_t *    with its count (size_t) at `count`
 *   DW_ONE     a struct     inline, described by `shape`
 *   DW_MANY    a struct *   with its count (size_t) at `count`; length within
 *                           [low, high]
 * A member that may be absent has a bool `has_<name>` at `has`; encoding writes
 * null for it. A member that is neither required nor has `has` takes `preset`
 * (REAL, WHOLE, YES, CHOICE), or stays empty (TEXT NULL, lists of 0).
 */
#ifndef DOUGHWRIGHT_FIELD_H
#define DOUGHWRIGHT_FIELD_H

#include "doughwright/base.h"

typedef enum dw_kind {
    DW_REAL,
    DW_WHOLE,
    DW_YES,
    DW_TEXT,
    DW_CHOICE,
    DW_REALS,
    DW_WHOLES,
    DW_ONE,
    DW_MANY
} dw_kind;

typedef struct dw_shape dw_shape;

#define DW_NOWHERE ((size_t)-1)

typedef struct dw_field {
    const char *name;         /* as in C, JSON, column and page */
    dw_kind kind;
    bool required;
    const char *unit;         /* "kg", "degC", "percent", "h", "ms", ""... */
    double low, high;         /* inclusive */
    double preset;
    size_t offset;
    size_t has;               /* offset of a bool, or DW_NOWHERE */
    size_t count;             /* offset of a size_t, or DW_NOWHERE */
    const char *const *words; /* DW_CHOICE: NULL-terminated */
    const dw_shape *shape;    /* DW_ONE, DW_MANY */
    const char *about;        /* one sentence for people */
} dw_field;

struct dw_shape {
    const char *name;  /* "formula", "batch", ... */
    const char *about;
    size_t bytes;      /* sizeof the struct */
    const dw_field *fields;
    size_t count;
};

/* Rows of a table. `type` is the struct, `m` the member and JSON name.
 * Required: must be given. Optional: has a bool has_<m>. Preset: has a value
 * when not given. */
#define DW_F_REAL(type, m, unit, lo, hi, about)                                \
    {#m, DW_REAL, true, unit, lo, hi, 0, offsetof(type, m), DW_NOWHERE,        \
     DW_NOWHERE, NULL, NULL, about}
#define DW_F_REAL_OPT(type, m, unit, lo, hi, about)                            \
    {#m, DW_REAL, false, unit, lo, hi, 0, offsetof(type, m),                   \
     offsetof(type, has_##m), DW_NOWHERE, NULL, NULL, about}
#define DW_F_REAL_PRESET(type, m, unit, lo, hi, value, about)                  \
    {#m, DW_REAL, false, unit, lo, hi, value, offsetof(type, m), DW_NOWHERE,   \
     DW_NOWHERE, NULL, NULL, about}
#define DW_F_WHOLE(type, m, unit, lo, hi, about)                               \
    {#m, DW_WHOLE, true, unit, lo, hi, 0, offsetof(type, m), DW_NOWHERE,       \
     DW_NOWHERE, NULL, NULL, about}
#define DW_F_WHOLE_OPT(type, m, unit, lo, hi, about)                           \
    {#m, DW_WHOLE, false, unit, lo, hi, 0, offsetof(type, m),                  \
     offsetof(type, has_##m), DW_NOWHERE, NULL, NULL, about}
#define DW_F_WHOLE_PRESET(type, m, unit, lo, hi, value, about)                 \
    {#m, DW_WHOLE, false, unit, lo, hi, value, offsetof(type, m), DW_NOWHERE,  \
     DW_NOWHERE, NULL, NULL, about}
/* An id: 0 means none. */
#define DW_F_ID(type, m, about)                                                \
    DW_F_WHOLE_PRESET(type, m, "", 0, 9007199254740991.0, 0, about)
/* A moment, ms since 1970 UTC; 0 means not yet. */
#define DW_F_MOMENT(type, m, about)                                            \
    DW_F_WHOLE_PRESET(type, m, "ms", 0, 9007199254740991.0, 0, about)
#define DW_F_YES(type, m, value, about)                                        \
    {#m, DW_YES, false, "", 0, 1, value, offsetof(type, m), DW_NOWHERE,        \
     DW_NOWHERE, NULL, NULL, about}
#define DW_F_TEXT(type, m, longest, about)                                     \
    {#m, DW_TEXT, true, "", 1, longest, 0, offsetof(type, m), DW_NOWHERE,      \
     DW_NOWHERE, NULL, NULL, about}
#define DW_F_TEXT_OPT(type, m, longest, about)                                 \
    {#m, DW_TEXT, false, "", 0, longest, 0, offsetof(type, m), DW_NOWHERE,     \
     DW_NOWHERE, NULL, NULL, about}
#define DW_F_CHOICE(type, m, list, about)                                      \
    {#m, DW_CHOICE, true, "", 0, 0, 0, offsetof(type, m), DW_NOWHERE,          \
     DW_NOWHERE, list, NULL, about}
#define DW_F_CHOICE_PRESET(type, m, list, value, about)                        \
    {#m, DW_CHOICE, false, "", 0, 0, value, offsetof(type, m), DW_NOWHERE,     \
     DW_NOWHERE, list, NULL, about}
#define DW_F_CHOICE_OPT(type, m, list, about)                                  \
    {#m, DW_CHOICE, false, "", 0, 0, 0, offsetof(type, m),                     \
     offsetof(type, has_##m), DW_NOWHERE, list, NULL, about}
#define DW_F_REALS(type, m, unit, lo, hi, about)                               \
    {#m, DW_REALS, true, unit, lo, hi, 0, offsetof(type, m), DW_NOWHERE,       \
     offsetof(type, m##_count), NULL, NULL, about}
#define DW_F_REALS_OPT(type, m, unit, lo, hi, about)                           \
    {#m, DW_REALS, false, unit, lo, hi, 0, offsetof(type, m), DW_NOWHERE,      \
     offsetof(type, m##_count), NULL, NULL, about}
#define DW_F_REALS_OPT(type, m, unit, lo, hi, about)                           \
    {#m, DW_REALS, false, unit, lo, hi, 0, offsetof(type, m), DW_NOWHERE,      \
     offsetof(type, m##_count), NULL, NULL, about}
#define DW_F_WHOLES_OPT(type, m, unit, lo, hi, about)                          \
    {#m, DW_WHOLES, false, unit, lo, hi, 0, offsetof(type, m), DW_NOWHERE,     \
     offsetof(type, m##_count), NULL, NULL, about}
#define DW_F_ONE(type, m, of, about)                                           \
    {#m, DW_ONE, true, "", 0, 0, 0, offsetof(type, m), DW_NOWHERE, DW_NOWHERE, \
     NULL, of, about}
#define DW_F_ONE_OPT(type, m, of, about)                                       \
    {#m, DW_ONE, false, "", 0, 0, 0, offsetof(type, m),                        \
     offsetof(type, has_##m), DW_NOWHERE, NULL, of, about}
#define DW_F_MANY(type, m, of, least, most, about)                             \
    {#m, DW_MANY, true, "", least, most, 0, offsetof(type, m), DW_NOWHERE,     \
     offsetof(type, m##_count), NULL, of, about}
#define DW_F_MANY_OPT(type, m, of, most, about)                                \
    {#m, DW_MANY, false, "", 0, most, 0, offsetof(type, m), DW_NOWHERE,        \
     offsetof(type, m##_count), NULL, of, about}

#define DW_SHAPE(shape_name, type, table, about)                               \
    {shape_name, about, sizeof(type), table, DW_COUNT(table)}

/* The field of that name, or NULL. */
const dw_field *dw_shape_find(const dw_shape *shape, const char *name);
/* Zero the struct and write its presets, nested DW_ONE included. */
void dw_shape_preset(const dw_shape *shape, void *object);
/* Check every member of a filled struct against its row (ranges, text length
 * and UTF-8, words, lists, nested). The door calls it after decoding; anything
 * else that fills a struct (files, tests) calls it too. */
dw_status dw_shape_check(const dw_shape *shape, const void *object,
                         dw_err *err);
/* Do two filled structs hold the same, lists and nested structs included?
 * Members named "id" are passed over. */
bool dw_shape_same(const dw_shape *shape, const void *a, const void *b);
/* Is an optional member present? True for members that cannot be absent. */
bool dw_field_has(const dw_field *field, const void *object);
/* Index of `word` in a NULL-terminated list, or -1. */
int dw_words_find(const char *const *words, const char *word);

#endif
