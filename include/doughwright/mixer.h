/* What a mixer takes.
 *
 * The most dough in one batch falls with the stiffness of the dough: it is
 * rated by absorption (water as percent of flour). The plate on the mixer or
 * its manual, typed with a note, always replaces the built-in table; a mixer
 * that neither has nor finds a rating is unknown: it is warned about, never
 * blocked.
 *
 * Between rated absorptions the rating is interpolated; below the lowest one
 * it shrinks with the absorption; above the highest it stays:
 *     max = rated(AR) * gluten * cold                                 (1)
 *     rated(AR) = rated(AR_low) * AR / AR_low     for AR < AR_low     (2)
 * gluten = 0.9 for high-gluten flour, cold = 0.9 for chilled flour, ice, or
 * water below 65-70 F; both together multiply. At 40 % absorption and less no
 * more than 5 minutes; at 50 % and less no second speed.
 * Least: planetary a quarter of the rating (a quarter to a third), spiral a
 * tenth; from memory, no source read. Horizontal and fork: unknown.
 * Source: makers' capacity charts for planetary mixers of 20, 30, 40, 60 qt
 * and 80 L (read). Where the charts give a range, the light class takes its
 * low end and the heavy class its high end; a heavy 60 qt takes the 82 lb of
 * dough of a 50 lb bag at 60 %.
 *
 * Note codes: mixer_unknown (no rating),
 * mixer_below_rated (value AR %, limit lowest rated AR %),
 * mixer_high_gluten and mixer_cold (value factor), mixer_no_second_speed (value
 * AR %, limit 50), mixer_minutes (value 5), mixer_over (value dough kg, limit
 * most kg), mixer_under (value dough kg, limit least kg).
 */
#ifndef DOUGHWRIGHT_MIXER_H
#define DOUGHWRIGHT_MIXER_H

#include "doughwright/note.h"

typedef enum dw_mixer_kind {
    DW_MIXER_PLANETARY,
    DW_MIXER_SPIRAL,
    DW_MIXER_HORIZONTAL,
    DW_MIXER_FORK
} dw_mixer_kind;
typedef enum dw_mixer_duty { DW_MIXER_LIGHT, DW_MIXER_HEAVY } dw_mixer_duty;
typedef enum dw_mixer_origin {
    DW_MIXER_FROM_PLATE, /* typed by the shop, with a note */
    DW_MIXER_FROM_TABLE, /* the built-in charts */
    DW_MIXER_FROM_NOTHING
} dw_mixer_origin;

extern const char *const dw_mixer_kind_words[];   /* planetary spiral ... */
extern const char *const dw_mixer_duty_words[];   /* light heavy */
extern const char *const dw_mixer_origin_words[]; /* plate table unknown */

typedef struct dw_mixer_rating {
    double absorption_percent; /* 1..150 */
    double dough_kg;           /* most dough of one batch */
} dw_mixer_rating;

/* One mixer, as a shop tells it. */
typedef struct dw_mixer_limits {
    int kind; /* dw_mixer_kind */
    int duty; /* dw_mixer_duty */
    bool has_bowl_litres;
    double bowl_litres;
    dw_mixer_rating *ratings; /* own, by rising absorption; needs a note */
    size_t ratings_count;
    const char *note; /* where the own ratings were read */
    bool has_min_dough_kg;
    double min_dough_kg;
} dw_mixer_limits;

/* The dough that is to go in. */
typedef struct dw_mixer_dough {
    double absorption_percent; /* water on flour */
    bool high_gluten;
    bool has_flour_c, has_water_c;
    double flour_c, water_c; /* of the liquid */
    double ice_kg;
    double cold_below_c; /* flour or water below it is cold: preset 65 F */
    bool has_dough_kg;
    double dough_kg; /* held against the limits when told */
} dw_mixer_dough;

enum { DW_MIXER_NOTES = 8 };

typedef struct dw_mixer_answer {
    int origin; /* dw_mixer_origin */
    bool has_rated_kg, has_max_dough_kg, has_min_dough_kg;
    double rated_kg;     /* at this absorption, before derating */
    double max_dough_kg; /* (1) */
    double min_dough_kg;
    double derating; /* gluten * cold */
    bool second_speed;
    bool has_max_minutes;
    double max_minutes; /* of mixing, at 40 % and less */
    dw_note *notes;
    size_t notes_count;
    dw_note notes_[DW_MIXER_NOTES]; /* what `notes` points to */
} dw_mixer_answer;

extern const dw_shape dw_mixer_rating_shape, dw_mixer_limits_shape,
    dw_mixer_dough_shape, dw_mixer_answer_shape;

/* Bowl of so many US quarts, in litres. */
#define DW_LITRES_PER_QUART 0.946352946

/* The limits for this dough. Fails with DW_E_MISSING (note), DW_E_RANGE
 * (ratings not by rising absorption). `answer` is yours and must not be moved
 * (notes point into it). */
dw_status dw_mixer_limit(const dw_mixer_limits *mixer,
                         const dw_mixer_dough *dough, dw_err *err,
                         dw_mixer_answer *answer);

#endif
