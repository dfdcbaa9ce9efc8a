/* Water, ice and mixing work by the heat balance, and the trade's rules beside.
 *
 *   sum m c (Td - T) + mb cb (Td - Tb) + (W - X) cw (Td - Tw)
 *     + X [L + c_ice (0 - Tice) + cw Td] = F q_hyd + D e_mech - Q_loss     (1)
 *
 * Td dough, W all the water, X the ice in it, F flour, D dough = parts + W.
 * Linear in Tw, X, Td and e_mech: one division each. Temperatures in degC,
 * masses kg, energies J. Learn e_mech per mixer, formula and minutes
 * (learn.h), not the friction number: it survives season and batch size.
 * Docs: docs/models/heat.md. Constants: constants.h.
 *
 * Caution: the guard is closed and hands are out while the mixer runs; ice goes
 * in before it starts.
 */
#ifndef DOUGHWRIGHT_HEAT_H
#define DOUGHWRIGHT_HEAT_H

#include "doughwright/formula.h"
#include "doughwright/note.h"

/* Flour, salt, oil, preferment, wetted yeast...: all but water and bowl. */
typedef struct dw_heat_part {
    double kg, cp_j_per_kg_k, temp_c;
} dw_heat_part;

typedef enum dw_heat_yeast {
    DW_HEAT_YEAST_NOT_TOLD,
    DW_HEAT_YEAST_FRESH,
    DW_HEAT_YEAST_ACTIVE_DRY,
    DW_HEAT_YEAST_INSTANT
} dw_heat_yeast;

extern const char *const dw_heat_yeast_words[];

/* One batch. heat.water and heat.learn describe it by two shapes: what a
 * question does not need is not in its shape or is optional there. */
typedef struct dw_heat_batch {
    double goal_c;
    double water_kg; /* all of it, ice included */
    double flour_kg;
    dw_heat_part *parts;
    size_t parts_count;
    double bowl_kg, bowl_cp_j_per_kg_k, bowl_c;
    double hydration_j_per_kg_flour;
    double work_j_per_kg_dough;
    double loss_j; /* to the room while mixing; preset 0 */
    double tap_c, ice_c;
    bool has_room_c, has_flour_c, has_kept_friction_c;
    double room_c, flour_c;
    double kept_friction_c; /* the number on the shop's wall, three factors */
    int yeast;              /* dw_heat_yeast */
    /* for learning */
    double observed_dough_c;
    double water_c; /* of the liquid */
    double ice_kg;
} dw_heat_batch;

extern const dw_shape dw_heat_part_shape, dw_heat_water_shape,
    dw_heat_learn_shape;

/* The trade's three-factor rule with one friction number. */
typedef struct dw_heat_rule {
    double water_c, friction_c;
} dw_heat_rule;

/* Why the kept friction number and the balance do not agree today: the gap in
 * water temperature, rule less balance, falls into three parts that add up,
 * because (1) is linear:
 *   flour     the rule moves the water 1 degree per degree of flour; the
 *             balance by m c of the parts over W cw;
 *   room      the rule by 1 per degree of room; the balance only by the bowl;
 *   friction  the kept number against what the balance gives on a usual day. */
typedef enum dw_heat_cause {
    DW_HEAT_AGREE, /* within 0.5 degC of water */
    DW_HEAT_FLOUR,
    DW_HEAT_ROOM,
    DW_HEAT_FRICTION
} dw_heat_cause;

extern const char *const dw_heat_cause_words[];

typedef struct dw_heat_why {
    int code; /* dw_heat_cause: the largest part */
    double gap_c;
    double flour_gap_c, room_gap_c, friction_gap_c;
    double dough_gap_c;  /* how far off the dough would be by the kept rule */
    const char *message; /* the app's, in the reader's language; NULL here */
} dw_heat_why;

/* What dw_heat_water may say: note codes, value, limit.
 *   ice_may_not_melt      ice above half of the water
 *   ice_will_not_melt     ice above 0.6 of the water
 *   water_kills_yeast     water above 50 degC
 *   no_instant_yeast_in_cold_water  liquid below 15.6 degC (60 degF), or ice:
 *                         instant dry yeast goes dry on the flour
 *   tap_too_cold          the water must be warmed: value wanted, limit tap */
enum { DW_HEAT_NOTES = 4 };

typedef struct dw_heat_answer {
    double water_c;  /* of all the water; virtual, may be below 0 */
    double ice_kg;   /* replaces that much water; 0 when the tap will do */
    double liquid_c; /* of the rest: the tap's when there is ice */
    /* all three when room and flour temperatures were told */
    bool has_rule, has_kept_rule, has_why;
    dw_heat_rule rule;      /* friction as the balance implies it today */
    dw_heat_rule kept_rule; /* friction as kept by the shop, or as on a usual
                               day with everything at 22 degC */
    dw_heat_why why;
    dw_note *warnings;
    size_t warnings_count;
    dw_note notes_[DW_HEAT_NOTES]; /* what `warnings` points to */
} dw_heat_answer;
extern const dw_shape dw_heat_rule_shape, dw_heat_why_shape,
    dw_heat_answer_shape;

/* Water and ice for the goal. Members are within their shape's ranges
 * (dw_shape_check). DW_E_UNREACHABLE when even all the water as ice is too
 * warm, or the water would have to be above 100 degC. `answer` is yours and
 * must not be moved (warnings point into it). */
dw_status dw_heat_water(const dw_heat_batch *batch, dw_heat_answer *answer,
                        dw_err *err);

/* The dough that this batch gives with its water_c, ice_kg and work: (1). */
double dw_heat_dough_c(const dw_heat_batch *batch);

typedef struct dw_heat_learned {
    double work_j_per_kg_dough;
    double sd_j_per_kg; /* from how well a shop reads its thermometers */
} dw_heat_learned;
extern const dw_shape dw_heat_learned_shape;

/* The mixing work that explains the observed dough. The reading's standard
 * deviation follows from 0.5 degC on dough and water, 1 on the parts, 2 on the
 * bowl (practice). DW_E_RANGE when ice_kg exceeds water_kg. */
dw_status dw_heat_learn(const dw_heat_batch *batch, dw_heat_learned *learned,
                        dw_err *err);

/* Both sides of (1), J, for checks and for "why?": what warming the batch to
 * its dough temperature takes, and what wetting and mixing give. */
void dw_heat_sides(const dw_heat_batch *batch, double dough_c, double *taken_j,
                   double *given_j);

/* Active dry yeast is wetted in warm water taken from the formula's water: its
 * part, five times the yeast's mass at 40 degC. DW_E_RANGE on active_dry_kg
 * when the water is not enough. */
dw_status dw_heat_wetting(double active_dry_kg, double water_kg,
                          dw_heat_part *wetting, dw_err *err);

/* A formula to be mixed: what the shop reads before the mix. */
typedef struct dw_heat_mix {
    dw_formula formula;
    double flour_kg; /* of the whole formula, stages included */
    double goal_c, flour_c, room_c, tap_c, ice_c;
    double bowl_kg;               /* steel */
    bool has_bowl_c, has_stage_c; /* the room when not told */
    double bowl_c, stage_c;
    double hydration_j_per_kg_flour, work_j_per_kg_dough;
    bool has_kept_friction_c;
    double kept_friction_c;
} dw_heat_mix;
extern const dw_shape dw_heat_mix_shape;

/* The batch of a formula: water lines of the final mix are its water, flour
 * lines are at flour_c, the rest at room_c, each stage one part at stage_c
 * whose flour is wet already. Active dry yeast takes its wetting water out of
 * the water; *wetting_kg tells how much. Fails as dw_formula_split;
 * DW_E_MISSING when the final mix has no water; DW_E_RANGE; DW_E_ROOM.
 * Memory: 40 bytes a line and stage from the arena. */
dw_status dw_heat_batch_of(const dw_heat_mix *mix, dw_arena *arena,
                           dw_heat_batch *batch, double *wetting_kg,
                           dw_err *err);

/* Ice that replaces part of water_kg so that tap_c comes to wanted_c
 * (>= -40 degC): X = W (Ttap - Tw) / (Ttap + C), C = [L + c_ice (0 - Tice)] /
 * cw, about 80. 0 when the tap is cold enough. Printed tables of the trade use
 * this form. */
double dw_ice_replacing(double water_kg, double tap_c, double wanted_c,
                        double ice_c);
/* Ice put on top of water_kg: X = W (Ttap - Tw) / (C + Tw). Not the same
 * amount; a sheet says which is meant. */
double dw_ice_on_top(double water_kg, double tap_c, double wanted_c,
                     double ice_c);

/* The trade's rules. temps are flour, room, preferment...; with the water that
 * makes n = count + 1 factors, and friction_c is a difference summed over n. */
double dw_rule_water_c(double goal_c, const double *temps_c, size_t count,
                       double friction_c);
/* Friction from a batch: temps here include the water, so n = count. */
double dw_rule_friction_c(double dough_c, const double *temps_c, size_t count);
/* The friction number for one factor more: FF + (Td - T of the new factor). */
double dw_rule_friction_with(double friction_c, double goal_c, double added_c);
/* Base temperature: it already holds the friction. */
double dw_rule_base_water_c(double base_c, const double *temps_c, size_t count);

#endif
