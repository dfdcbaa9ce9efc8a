#include "doughwright/mixer.h"

#include <math.h>

#define LB 0.45359237

const char *const dw_mixer_kind_words[] = {"planetary", "spiral", "horizontal",
                                           "fork", NULL};
const char *const dw_mixer_duty_words[] = {"light", "heavy", NULL};
const char *const dw_mixer_origin_words[] = {"plate", "table", "unknown", NULL};

static const dw_field rating_fields[] = {
    DW_F_REAL(dw_mixer_rating, absorption_percent, "percent", 1, 150,
              "water on flour"),
    DW_F_REAL(dw_mixer_rating, dough_kg, "kg", 0.1, 5000, "most dough"),
};
const dw_shape dw_mixer_rating_shape =
    DW_SHAPE("mixer_rating", dw_mixer_rating, rating_fields,
             "the most dough at one absorption");

static const dw_field limits_fields[] = {
    DW_F_CHOICE_PRESET(dw_mixer_limits, kind, dw_mixer_kind_words, 0,
                       "how it mixes"),
    DW_F_CHOICE_PRESET(dw_mixer_limits, duty, dw_mixer_duty_words, 0,
                       "its class"),
    DW_F_REAL_OPT(dw_mixer_limits, bowl_litres, "L", 1, 2000, "bowl"),
    DW_F_MANY_OPT(dw_mixer_limits, ratings, &dw_mixer_rating_shape, 8,
                  "from its plate or manual, by rising absorption"),
    DW_F_TEXT_OPT(dw_mixer_limits, note, 200, "where the ratings were read"),
    DW_F_REAL_OPT(dw_mixer_limits, min_dough_kg, "kg", 0, 5000,
                  "least dough it picks up"),
};
const dw_shape dw_mixer_limits_shape = DW_SHAPE(
    "mixer_limits", dw_mixer_limits, limits_fields, "what a mixer takes");

static const dw_field dough_fields[] = {
    DW_F_REAL(dw_mixer_dough, absorption_percent, "percent", 1, 150,
              "water on flour"),
    DW_F_YES(dw_mixer_dough, high_gluten, false, "is the flour high-gluten"),
    DW_F_REAL_OPT(dw_mixer_dough, flour_c, "degC", -30, 60, "flour"),
    DW_F_REAL_OPT(dw_mixer_dough, water_c, "degC", 0, 60, "liquid water"),
    DW_F_REAL_PRESET(dw_mixer_dough, ice_kg, "kg", 0, 1000, 0, "ice"),
    DW_F_REAL_PRESET(dw_mixer_dough, cold_below_c, "degC", 0, 30, 165.0 / 9,
                     "flour or water below it counts as cold"),
    DW_F_REAL_OPT(dw_mixer_dough, dough_kg, "kg", 0, 5000,
                  "held against the limits"),
};
const dw_shape dw_mixer_dough_shape = DW_SHAPE(
    "mixer_dough", dw_mixer_dough, dough_fields, "the dough to be mixed");

static const dw_field answer_fields[] = {
    DW_F_CHOICE(dw_mixer_answer, origin, dw_mixer_origin_words,
                "where the rating is from"),
    DW_F_REAL_OPT(dw_mixer_answer, rated_kg, "kg", 0, 5000,
                  "rating at this absorption"),
    DW_F_REAL_OPT(dw_mixer_answer, max_dough_kg, "kg", 0, 5000, "most dough"),
    DW_F_REAL_OPT(dw_mixer_answer, min_dough_kg, "kg", 0, 5000, "least dough"),
    DW_F_REAL(dw_mixer_answer, derating, "", 0, 1, "factor on the rating"),
    DW_F_YES(dw_mixer_answer, second_speed, true, "may second speed be used"),
    DW_F_REAL_OPT(dw_mixer_answer, max_minutes, "min", 0, 60,
                  "longest mix this stiff"),
    DW_F_MANY_OPT(dw_mixer_answer, notes, &dw_note_shape, DW_MIXER_NOTES,
                  "what to say"),
};
const dw_shape dw_mixer_answer_shape =
    DW_SHAPE("mixer_answer", dw_mixer_answer, answer_fields,
             "the most and least dough, and how it may be mixed");

/* The charts, lb of dough at 40, 50 and 60 %; 0 is not rated. The heavy 60 qt
 * at 60 % is the 82 lb of a 50 lb bag. */
typedef struct chart {
    double litres;
    double light_lb[3], heavy_lb[3];
} chart;

static const chart charts[] = {
    {20 * DW_LITRES_PER_QUART, {8, 9, 18}, {9, 10, 20}},
    {30 * DW_LITRES_PER_QUART, {14, 23, 36}, {14, 23, 36}},
    {40 * DW_LITRES_PER_QUART, {21, 31, 32}, {21, 31, 32}},
    {60 * DW_LITRES_PER_QUART, {36, 63, 63}, {40, 70, 82}},
    {80, {0, 110, 132}, {0, 110, 132}},
};

/* Bowls are told in rounded litres or quarts. */
static const double BOWL_TOLERANCE = 0.03;

static size_t chart_ratings(const dw_mixer_limits *mixer,
                            dw_mixer_rating ratings[3])
{
    if (!mixer->has_bowl_litres || mixer->kind != DW_MIXER_PLANETARY)
        return 0;
    for (size_t i = 0; i < DW_COUNT(charts); i++) {
        if (fabs(mixer->bowl_litres / charts[i].litres - 1) > BOWL_TOLERANCE)
            continue;
        const double *lb = mixer->duty == DW_MIXER_HEAVY ? charts[i].heavy_lb
                                                         : charts[i].light_lb;
        size_t n = 0;
        for (int k = 0; k < 3; k++)
            if (lb[k] > 0)
                ratings[n++] = (dw_mixer_rating){40 + 10 * k, lb[k] * LB};
        return n;
    }
    return 0;
}

static double rated(const dw_mixer_rating *ratings, size_t n,
                    double absorption_percent)
{
    if (absorption_percent <= ratings[0].absorption_percent)
        return ratings[0].dough_kg * absorption_percent /
               ratings[0].absorption_percent;
    for (size_t i = 1; i < n; i++) {
        const dw_mixer_rating *a = &ratings[i - 1], *b = &ratings[i];
        if (absorption_percent <= b->absorption_percent)
            return a->dough_kg +
                   (b->dough_kg - a->dough_kg) *
                       (absorption_percent - a->absorption_percent) /
                       (b->absorption_percent - a->absorption_percent);
    }
    return ratings[n - 1].dough_kg;
}

static dw_status check_ratings(const dw_mixer_limits *mixer, dw_err *err)
{
    if (mixer->ratings_count > 0 && (!mixer->note || !mixer->note[0]))
        return dw_fail_says(err, DW_E_MISSING, "note", NULL,
                            "must say where the ratings were read");
    for (size_t i = 1; i < mixer->ratings_count; i++) {
        double before = mixer->ratings[i - 1].absorption_percent;
        double now = mixer->ratings[i].absorption_percent;
        char field[64];
        dw_text_item(field, sizeof field, "ratings", i, ".absorption_percent");
        if (now <= before)
            return dw_fail_range(err, field, now, before, 150);
    }
    return DW_OK;
}

static bool is_cold(const dw_mixer_dough *dough)
{
    return dough->ice_kg > 0 ||
           (dough->has_flour_c && dough->flour_c < dough->cold_below_c) ||
           (dough->has_water_c && dough->water_c < dough->cold_below_c);
}

static void derate(const dw_mixer_dough *dough, dw_notes *notes,
                   dw_mixer_answer *answer)
{
    answer->derating = 1;
    if (dough->high_gluten) {
        answer->derating *= 0.9;
        dw_note_value(notes, DW_NOTE_INFO, "mixer_high_gluten", NULL, 0.9);
    }
    if (is_cold(dough)) {
        answer->derating *= 0.9;
        dw_note_value(notes, DW_NOTE_INFO, "mixer_cold", NULL, 0.9);
    }
}

static void set_speeds(const dw_mixer_dough *dough, dw_notes *notes,
                       dw_mixer_answer *answer)
{
    double ar = dough->absorption_percent;
    answer->second_speed = ar > 50;
    if (!answer->second_speed)
        dw_note_limit(notes, DW_NOTE_INFO, "mixer_no_second_speed", NULL, ar,
                      50);
    answer->has_max_minutes = ar <= 40;
    answer->max_minutes = answer->has_max_minutes ? 5 : 0;
    if (answer->has_max_minutes)
        dw_note_value(notes, DW_NOTE_WARN, "mixer_minutes", NULL, 5);
}

static void set_least(const dw_mixer_limits *mixer, dw_mixer_answer *answer)
{
    double share = mixer->kind == DW_MIXER_PLANETARY ? 0.25
                   : mixer->kind == DW_MIXER_SPIRAL  ? 0.1
                                                     : 0;
    if (mixer->has_min_dough_kg) {
        answer->has_min_dough_kg = true;
        answer->min_dough_kg = mixer->min_dough_kg;
    } else if (share > 0 && answer->has_rated_kg) {
        answer->has_min_dough_kg = true;
        answer->min_dough_kg = share * answer->rated_kg;
    }
}

static void hold_against(const dw_mixer_dough *dough, dw_notes *notes,
                         const dw_mixer_answer *answer)
{
    if (!dough->has_dough_kg)
        return;
    if (answer->has_max_dough_kg &&
        dough->dough_kg > answer->max_dough_kg * (1 + 1e-9))
        dw_note_limit(notes, DW_NOTE_WARN, "mixer_over", NULL, dough->dough_kg,
                      answer->max_dough_kg);
    if (answer->has_min_dough_kg &&
        dough->dough_kg < answer->min_dough_kg * (1 - 1e-9))
        dw_note_limit(notes, DW_NOTE_WARN, "mixer_under", NULL, dough->dough_kg,
                      answer->min_dough_kg);
}

dw_status dw_mixer_limit(const dw_mixer_limits *mixer,
                         const dw_mixer_dough *dough, dw_err *err,
                         dw_mixer_answer *answer)
{
    DW_TRY(check_ratings(mixer, err));
    *answer = (dw_mixer_answer){.origin = DW_MIXER_FROM_PLATE};
    dw_notes notes = {answer->notes_, DW_MIXER_NOTES, 0};
    dw_mixer_rating from_chart[3];
    const dw_mixer_rating *ratings = mixer->ratings;
    size_t n = mixer->ratings_count;
    if (n == 0) {
        n = chart_ratings(mixer, from_chart);
        ratings = from_chart;
        answer->origin = n > 0 ? DW_MIXER_FROM_TABLE : DW_MIXER_FROM_NOTHING;
    }
    derate(dough, &notes, answer);
    if (n > 0) {
        double ar = dough->absorption_percent;
        answer->has_rated_kg = answer->has_max_dough_kg = true;
        answer->rated_kg = rated(ratings, n, ar);
        answer->max_dough_kg = answer->rated_kg * answer->derating;
        if (ar < ratings[0].absorption_percent)
            dw_note_limit(&notes, DW_NOTE_INFO, "mixer_below_rated", NULL, ar,
                          ratings[0].absorption_percent);
    } else {
        dw_note_add(&notes, DW_NOTE_WARN, "mixer_unknown", NULL);
    }
    set_least(mixer, answer);
    set_speeds(dough, &notes, answer);
    hold_against(dough, &notes, answer);
    answer->notes = answer->notes_;
    answer->notes_count = notes.count;
    return DW_OK;
}
