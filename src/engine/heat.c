#include "doughwright/heat.h"

#include "doughwright/constants.h"
#include "doughwright/say.h"

#include <math.h>

/* A usual day, on which a friction number is taken down: everything at this
 * temperature (docs/models/heat.md, reference batch). */
static const double usual_day_c = 22;
/* What a shop's thermometers are worth, degC (practice). */
static const double dough_sd_c = 0.5, water_sd_c = 0.5, part_sd_c = 1,
                    bowl_sd_c = 2;

static const double ice_may_not_melt = 0.5, ice_will_not_melt = 0.6;
static const double yeast_dies_c = 50;          /* about 120 degF */
static const double instant_needs_c = 140 / 9.; /* 60 degF */
static const double agree_c = 0.5;

static double water_capacity(const dw_heat_batch *b)
{
    return b->water_kg * DW_WATER_CP;
}

static double bowl_capacity(const dw_heat_batch *b)
{
    return b->bowl_kg * b->bowl_cp_j_per_kg_k;
}

static double parts_capacity(const dw_heat_batch *b)
{
    double sum = 0;
    for (size_t i = 0; i < b->parts_count; i++)
        sum += b->parts[i].kg * b->parts[i].cp_j_per_kg_k;
    return sum;
}

static double dough_kg(const dw_heat_batch *b)
{
    double sum = b->water_kg;
    for (size_t i = 0; i < b->parts_count; i++)
        sum += b->parts[i].kg;
    return sum;
}

/* To warm parts and bowl to dough_c. */
static double solids_j(const dw_heat_batch *b, double dough_c)
{
    double sum = bowl_capacity(b) * (dough_c - b->bowl_c);
    for (size_t i = 0; i < b->parts_count; i++) {
        const dw_heat_part *part = &b->parts[i];
        sum += part->kg * part->cp_j_per_kg_k * (dough_c - part->temp_c);
    }
    return sum;
}

/* Wetting less what the room takes; the work is added apart. */
static double wetting_j(const dw_heat_batch *b)
{
    return b->flour_kg * b->hydration_j_per_kg_flour - b->loss_j;
}

/* From ice at ice_c to water at 0 degC. */
static double melting_j_per_kg(double ice_c)
{
    return DW_ICE_LATENT + DW_ICE_CP * (0 - ice_c);
}

/* Liquid and ice to dough_c. */
static double water_j(const dw_heat_batch *b, double dough_c)
{
    double liquid = (b->water_kg - b->ice_kg) * DW_WATER_CP;
    double ice = melting_j_per_kg(b->ice_c) + DW_WATER_CP * dough_c;
    return liquid * (dough_c - b->water_c) + b->ice_kg * ice;
}

void dw_heat_sides(const dw_heat_batch *batch, double dough_c, double *taken_j,
                   double *given_j)
{
    *taken_j = solids_j(batch, dough_c) + water_j(batch, dough_c);
    *given_j = wetting_j(batch) + dough_kg(batch) * batch->work_j_per_kg_dough;
}

double dw_heat_dough_c(const dw_heat_batch *batch)
{
    double taken_at_0, given;
    dw_heat_sides(batch, 0, &taken_at_0, &given);
    double capacity =
        parts_capacity(batch) + bowl_capacity(batch) + water_capacity(batch);
    return (given - taken_at_0) / capacity;
}

static double balance_water_c(const dw_heat_batch *b)
{
    double work = dough_kg(b) * b->work_j_per_kg_dough;
    double for_water = wetting_j(b) + work - solids_j(b, b->goal_c);
    return b->goal_c - for_water / water_capacity(b);
}

double dw_ice_replacing(double water_kg, double tap_c, double wanted_c,
                        double ice_c)
{
    if (tap_c <= wanted_c)
        return 0;
    double c = melting_j_per_kg(ice_c) / DW_WATER_CP;
    return water_kg * (tap_c - wanted_c) / (tap_c + c);
}

double dw_ice_on_top(double water_kg, double tap_c, double wanted_c,
                     double ice_c)
{
    if (tap_c <= wanted_c)
        return 0;
    double c = melting_j_per_kg(ice_c) / DW_WATER_CP;
    return water_kg * (tap_c - wanted_c) / (c + wanted_c);
}

/* The water of a usual day, everything at one temperature. */
static double usual_water_c(const dw_heat_batch *b)
{
    double solids =
        (parts_capacity(b) + bowl_capacity(b)) * (b->goal_c - usual_day_c);
    double work = dough_kg(b) * b->work_j_per_kg_dough;
    return b->goal_c - (wetting_j(b) + work - solids) / water_capacity(b);
}

static int largest_cause(const dw_heat_why *why)
{
    if (fabs(why->gap_c) < agree_c)
        return DW_HEAT_AGREE;
    double flour = fabs(why->flour_gap_c), room = fabs(why->room_gap_c);
    double friction = fabs(why->friction_gap_c);
    if (friction >= flour && friction >= room)
        return DW_HEAT_FRICTION;
    return flour >= room ? DW_HEAT_FLOUR : DW_HEAT_ROOM;
}

static void compare_rules(const dw_heat_batch *b, dw_heat_answer *answer)
{
    double temps[] = {b->flour_c, b->room_c, answer->water_c};
    answer->rule.water_c = answer->water_c;
    answer->rule.friction_c = dw_rule_friction_c(b->goal_c, temps, 3);

    double usual[] = {usual_day_c, usual_day_c, usual_water_c(b)};
    double usual_friction = dw_rule_friction_c(b->goal_c, usual, 3);
    double kept = b->has_kept_friction_c ? b->kept_friction_c : usual_friction;
    answer->kept_rule.friction_c = kept;
    answer->kept_rule.water_c = dw_rule_water_c(b->goal_c, temps, 2, kept);

    double water = water_capacity(b), parts = 0;
    for (size_t i = 0; i < b->parts_count; i++)
        parts += b->parts[i].kg * b->parts[i].cp_j_per_kg_k *
                 (b->parts[i].temp_c - usual_day_c);
    dw_heat_why *why = &answer->why;
    why->gap_c = answer->kept_rule.water_c - answer->water_c;
    why->flour_gap_c = parts / water - (b->flour_c - usual_day_c);
    why->room_gap_c = bowl_capacity(b) / water * (b->bowl_c - usual_day_c) -
                      (b->room_c - usual_day_c);
    why->friction_gap_c = usual_friction - kept;
    why->dough_gap_c =
        why->gap_c * water / (water + parts_capacity(b) + bowl_capacity(b));
    why->code = largest_cause(why);
    answer->has_rule = answer->has_kept_rule = answer->has_why = true;
}

static void warn(const dw_heat_batch *b, dw_heat_answer *answer)
{
    dw_notes notes = {answer->notes_, DW_HEAT_NOTES, 0};
    double share = answer->ice_kg / b->water_kg;
    if (share > ice_will_not_melt)
        dw_note_limit(&notes, DW_NOTE_WARN, "ice_will_not_melt", NULL, share,
                      ice_will_not_melt);
    else if (share > ice_may_not_melt)
        dw_note_limit(&notes, DW_NOTE_WARN, "ice_may_not_melt", NULL, share,
                      ice_may_not_melt);
    if (answer->liquid_c > yeast_dies_c)
        dw_note_limit(&notes, DW_NOTE_WARN, "water_kills_yeast", NULL,
                      answer->liquid_c, yeast_dies_c);
    bool instant =
        b->yeast == DW_HEAT_YEAST_INSTANT || b->yeast == DW_HEAT_YEAST_NOT_TOLD;
    bool cold = answer->ice_kg > 0 || answer->liquid_c < instant_needs_c;
    if (instant && cold)
        dw_note_limit(&notes, DW_NOTE_WARN, "no_instant_yeast_in_cold_water",
                      NULL, answer->liquid_c, instant_needs_c);
    if (answer->liquid_c > b->tap_c)
        dw_note_limit(&notes, DW_NOTE_INFO, "tap_too_cold", NULL,
                      answer->liquid_c, b->tap_c);
    answer->warnings = answer->notes_;
    answer->warnings_count = notes.count;
}

static dw_status unreachable(double water_c, const char *sentence, dw_err *err)
{
    char text[32];
    dw_text_number(text, sizeof text, round(water_c * 10) / 10, 6);
    return dw_fail_says(err, DW_E_UNREACHABLE, "goal_c", text, sentence);
}

dw_status dw_heat_water(const dw_heat_batch *batch, dw_heat_answer *answer,
                        dw_err *err)
{
    double water_c = balance_water_c(batch);
    double ice_kg =
        dw_ice_replacing(batch->water_kg, batch->tap_c, water_c, batch->ice_c);
    if (ice_kg > batch->water_kg)
        return unreachable(
            water_c,
            DW_MSG("cannot be reached even with all the water as ice: the "
                   "water would have to be at {value} degC"),
            err);
    if (water_c > 100)
        return unreachable(
            water_c,
            DW_MSG("cannot be reached: the water would have to be at "
                   "{value} degC"),
            err);
    *answer = (dw_heat_answer){.water_c = water_c, .ice_kg = ice_kg};
    answer->liquid_c = ice_kg > 0 ? batch->tap_c : water_c;
    if (batch->has_room_c && batch->has_flour_c)
        compare_rules(batch, answer);
    warn(batch, answer);
    return DW_OK;
}

static double learned_sd(const dw_heat_batch *b)
{
    double water = (b->water_kg - b->ice_kg) * DW_WATER_CP * water_sd_c;
    double bowl = bowl_capacity(b) * bowl_sd_c;
    double all = parts_capacity(b) + bowl_capacity(b) + water_capacity(b);
    double dough = all * dough_sd_c;
    double sum = water * water + bowl * bowl + dough * dough;
    for (size_t i = 0; i < b->parts_count; i++) {
        double part = b->parts[i].kg * b->parts[i].cp_j_per_kg_k * part_sd_c;
        sum += part * part;
    }
    return sqrt(sum) / dough_kg(b);
}

dw_status dw_heat_learn(const dw_heat_batch *batch, dw_heat_learned *learned,
                        dw_err *err)
{
    DW_TRY(dw_check_range(err, "ice_kg", batch->ice_kg, 0, batch->water_kg));
    double taken = solids_j(batch, batch->observed_dough_c) +
                   water_j(batch, batch->observed_dough_c);
    learned->work_j_per_kg_dough = (taken - wetting_j(batch)) / dough_kg(batch);
    learned->sd_j_per_kg = learned_sd(batch);
    return DW_OK;
}

dw_status dw_heat_wetting(double active_dry_kg, double water_kg,
                          dw_heat_part *wetting, dw_err *err)
{
    DW_TRY(dw_check_range(err, "active_dry_kg", active_dry_kg, 0,
                          water_kg / DW_WETTING_WATER));
    wetting->kg = DW_WETTING_WATER * active_dry_kg;
    wetting->cp_j_per_kg_k = DW_WATER_CP;
    wetting->temp_c = DW_WETTING_TEMPERATURE;
    return DW_OK;
}

double dw_rule_water_c(double goal_c, const double *temps_c, size_t count,
                       double friction_c)
{
    double water = (double)(count + 1) * goal_c - friction_c;
    for (size_t i = 0; i < count; i++)
        water -= temps_c[i];
    return water;
}

double dw_rule_friction_c(double dough_c, const double *temps_c, size_t count)
{
    double friction = (double)count * dough_c;
    for (size_t i = 0; i < count; i++)
        friction -= temps_c[i];
    return friction;
}

double dw_rule_friction_with(double friction_c, double goal_c, double added_c)
{
    return friction_c + (goal_c - added_c);
}

double dw_rule_base_water_c(double base_c, const double *temps_c, size_t count)
{
    for (size_t i = 0; i < count; i++)
        base_c -= temps_c[i];
    return base_c;
}
