#include "app/drift_effects.h"

#include "app/rows.h"
#include "os/zone.h"

#include "doughwright/effects.h"

#include <math.h>
#include <stdlib.h>

/* Fewer values than this tell no factors apart. */
enum { FEWEST = 12, HOURS = 6, SHIFTS = 24 / HOURS };
/* Of each factor, the newest: the rest is not told apart from the mean. */
enum { LEVELS_EACH = DW_EFFECTS_LEVELS / DW_EFFECTS_FACTORS };
static const int64_t HOUR_MS = 3600000;

enum { BY_PERSON, BY_LOT, BY_MIXER, BY_HOURS };
static const char *const factor_words[] = {"person", "lot", "mixer", "hours",
                                           NULL};

static const dw_field effect_fields[] = {
    DW_F_CHOICE(dw_drift_effect, factor, factor_words, "whose"),
    DW_F_WHOLE(dw_drift_effect, level, "", 0, 9007199254740991.0,
               "which: its id; hours: the first of six"),
    DW_F_TEXT_OPT(dw_drift_effect, name, 60, "its name"),
    DW_F_WHOLE(dw_drift_effect, values_count, "", 1, DW_EFFECTS_VALUES,
               "with it"),
    DW_F_REAL(dw_drift_effect, part, "", -1e9, 1e9,
              "against the average of its kind; of both, where two cannot be "
              "told apart"),
    DW_F_REAL(dw_drift_effect, sd, "", 0, 1e9, "how well that is known"),
    DW_F_REAL(dw_drift_effect, strength, "", 0, 1e9, "part over sd"),
    DW_F_YES(dw_drift_effect, has_together, false,
             "cannot be told apart from another"),
    DW_F_CHOICE_PRESET(dw_drift_effect, together_factor, factor_words,
                       BY_PERSON, "from what"),
    DW_F_WHOLE(dw_drift_effect, together_level, "", 0, 9007199254740991.0,
               "which one"),
    DW_F_TEXT_OPT(dw_drift_effect, together_name, 60, "its name"),
};
const dw_shape dw_drift_effect_shape = DW_SHAPE(
    "drift_effect", dw_drift_effect, effect_fields, "whose part it is");

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "drift", NULL);
}

/* ---- factors ------------------------------------------------------------- */

/* An id, or for hours 1 and on: 0 says that it is not known. */
static int64_t level_of(int factor, const dw_quality_row *batch,
                        const dw_zone *zone)
{
    int64_t local;
    switch (factor) {
    case BY_PERSON: return batch->person_id;
    case BY_LOT: return batch->flour_lot_id;
    case BY_MIXER: return batch->mixer_id;
    default:
        local = batch->stopped_ms + dw_zone_offset_ms(zone, batch->stopped_ms);
        return 1 + local / (HOURS * HOUR_MS) % SHIFTS;
    }
}

/* The newest levels keep their number, older ones become 0. */
static void keep_newest(int64_t *levels, size_t count)
{
    int64_t kept[LEVELS_EACH];
    size_t kept_count = 0;
    for (size_t i = count; i-- > 0;) {
        size_t at = 0;
        while (at < kept_count && kept[at] != levels[i])
            at++;
        if (at < kept_count || levels[i] == 0)
            continue;
        if (kept_count < LEVELS_EACH)
            kept[kept_count++] = levels[i];
        else
            levels[i] = 0;
    }
}

static dw_status set_factors(dw_call *call, const dw_quality_row **batches,
                             size_t count, dw_factor *factors)
{
    dw_shop shop;
    const dw_zone *zone;
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(dw_zone_load(shop.zone, call->arena, &zone, call->err));
    for (int f = 0; f < DW_EFFECTS_FACTORS; f++) {
        int64_t *levels = DW_NEW_ARRAY(call->arena, int64_t, count);
        if (!levels)
            return no_room(call);
        for (size_t i = 0; i < count; i++)
            levels[i] = level_of(f, batches[i], zone);
        keep_newest(levels, count);
        factors[f] = (dw_factor){factor_words[f], levels, count};
    }
    return DW_OK;
}

/* ---- what is clear ------------------------------------------------------- */

static int factor_of(const char *name)
{
    int f = 0;
    while (factor_words[f] != name)
        f++;
    return f;
}

static dw_status name_of(dw_call *call, int factor, int64_t level,
                         const char **name)
{
    dw_person person;
    dw_material_lot lot;
    dw_mixer_row mixer;
    switch (factor) {
    case BY_PERSON:
        DW_TRY(dw_row_get(call, "person", &dw_person_noun, level, "person_id",
                          &person));
        *name = person.name;
        return DW_OK;
    case BY_LOT:
        DW_TRY(dw_row_get(call, "material_lot", &dw_material_lot_noun, level,
                          "flour_lot_id", &lot));
        *name = lot.code;
        return DW_OK;
    case BY_MIXER:
        DW_TRY(dw_row_get(call, "mixer", &dw_mixer_noun, level, "mixer_id",
                          &mixer));
        *name = mixer.name;
        return DW_OK;
    default: *name = NULL; return DW_OK;
    }
}

static int64_t told_level(int factor, int64_t level)
{
    return factor == BY_HOURS ? (level - 1) * HOURS : level;
}

static bool told_already(const dw_drift_effect *effects, size_t count,
                         const dw_drift_effect *next)
{
    for (size_t i = 0; i < count; i++)
        if (effects[i].has_together &&
            effects[i].together_factor == next->factor &&
            effects[i].together_level == next->level)
            return true;
    return false;
}

static dw_status set_effect(dw_call *call, const dw_effect *from,
                            dw_drift_effect *out)
{
    *out = (dw_drift_effect){.factor = factor_of(from->factor),
                             .values_count = from->values_count,
                             .part = from->part,
                             .sd = from->sd,
                             .has_together = from->has_together_level};
    out->level = told_level(out->factor, from->level);
    DW_TRY(name_of(call, out->factor, from->level, &out->name));
    if (from->has_together_level) {
        out->together_factor = factor_of(from->together_factor);
        out->together_level =
            told_level(out->together_factor, from->together_level);
        out->part = from->together_part;
        out->sd = from->together_sd;
        DW_TRY(name_of(call, out->together_factor, from->together_level,
                       &out->together_name));
    }
    out->strength = out->sd > 0 ? fabs(out->part) / out->sd : 0;
    return DW_OK;
}

static int clearest_first(const void *a, const void *b)
{
    double x = ((const dw_drift_effect *)a)->strength;
    double y = ((const dw_drift_effect *)b)->strength;
    return (x < y) - (x > y);
}

dw_status dw_drift_effects(dw_call *call, const double *values,
                           const dw_quality_row **batches, size_t count,
                           dw_drift_effect **effects, size_t *effects_count)
{
    dw_factor factors[DW_EFFECTS_FACTORS];
    dw_effects_request request = {.values_count = count,
                                  .factors = factors,
                                  .factors_count = DW_EFFECTS_FACTORS};
    dw_effects_reply found;
    *effects_count = 0;
    *effects = DW_NEW_ARRAY(call->arena, dw_drift_effect, DW_DRIFT_EFFECTS);
    request.values = DW_NEW_ARRAY(call->arena, double, count + 1);
    if (!*effects || !request.values)
        return no_room(call);
    if (count < FEWEST)
        return DW_OK;
    for (size_t i = 0; i < count; i++)
        request.values[i] = values[i];
    DW_TRY(set_factors(call, batches, count, factors));
    dw_status status =
        dw_effects_find(&request, call->arena, call->err, &found);
    if (status == DW_E_UNREACHABLE) /* all alike */
        return DW_OK;
    DW_TRY(status);
    for (size_t i = 0; i < found.effects_count; i++) {
        dw_drift_effect *next = &(*effects)[*effects_count];
        if (*effects_count == DW_DRIFT_EFFECTS)
            break;
        DW_TRY(set_effect(call, &found.effects[i], next));
        if (next->strength >= DW_DRIFT_CLEAR &&
            !told_already(*effects, *effects_count, next))
            ++*effects_count;
    }
    qsort(*effects, *effects_count, sizeof **effects, clearest_first);
    return DW_OK;
}
