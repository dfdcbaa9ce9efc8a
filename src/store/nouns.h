/* The nouns of a business: one struct and one shape per table.
 *
 * Every struct begins with its id. Masses kg, temperatures degC, moments ms UTC
 * (0: not yet), days are civil days counted from 1970-01-01 in the shop's own
 * calendar (mixing day is day 0 of a ball), money in the currency's minor unit.
 * Texts are borrowed from the arena the row was read into.
 */
#ifndef DW_STORE_NOUNS_H
#define DW_STORE_NOUNS_H

#include "doughwright/forecast.h"
#include "doughwright/formula.h"
#include "doughwright/mixer.h"
#include "doughwright/procedure.h"

/* ---- the shop ---------------------------------------------------------- */

extern const char *const dw_unit_words[]; /* us metric */
extern const char *const dw_lang_words[]; /* en es */
enum { DW_UNITS_US, DW_UNITS_METRIC };

/* One row, id 1: what is the same for every batch. */
typedef struct dw_shop {
    int64_t id;
    const char *name, *zone; /* zone: IANA name */
    int64_t
        cutover_minutes; /* the business day ends this long after midnight */
    int units, lang;
    const char *currency;
    double dough_goal_c;
    /* bench */
    int64_t hands;
    double balls_per_minute, bench_minutes;
    double ball_loss_percent, bowl_residue_kg;
    double release_oil_kg; /* down the bowl side, outside the percentages */
    /* the trade's clock, a rule of thumb */
    double close_core_low_c, close_core_high_c, open_h_w_per_m2_k;
    int64_t ready_day, best_day, use_first_day, last_day;
    double bench_life_h;
    /* fresh yeast that one part of the other kinds replaces, as fractions */
    double yeast_active_dry_ratio, yeast_instant_ratio;
} dw_shop;

extern const char *const dw_role_words[]; /* dough_maker shift_lead manager
                                             technologist reader */
typedef struct dw_person {
    int64_t id;
    const char *name;
    int role, lang, units;
    bool here; /* false: left; the name stays until it is erased */
} dw_person;

typedef struct dw_mixer_row {
    int64_t id;
    const char *name;
    int kind, duty; /* engine/mixer.h */
    double bowl_litres, bowl_kg;
    bool second_speed;
    bool has_min_dough_kg;
    double min_dough_kg;
    const char *plate_note; /* where the limits below were read */
    double minutes_run;
    bool here;
} dw_mixer_row;

/* A limit read from the plate or manual; any row replaces the built-in table.
 */
typedef struct dw_mixer_limit_row {
    int64_t id, mixer_id;
    dw_mixer_rating rating;
} dw_mixer_limit_row;

typedef struct dw_scale_row {
    int64_t id;
    const char *name;
    double capacity_kg, division_kg;
    bool here;
} dw_scale_row;

typedef struct dw_box_type {
    int64_t id;
    const char *name;
    double length_m, width_m;
    int64_t owned;
} dw_box_type;

typedef struct dw_cold_room {
    int64_t id;
    const char *name;
    double air_c;
    int64_t box_slots;
    double capacity_w;
} dw_cold_room;

typedef struct dw_opening {
    int64_t id;
    int64_t weekday;                     /* 0 Monday .. 6 Sunday */
    int64_t opens_minute, leaves_minute; /* first in, last person out, minutes
                                            after midnight; out may be > 1440 */
} dw_opening;

typedef struct dw_standard_batch {
    int64_t id, position;
    const char *name; /* "whole bag" */
    double flour_kg;
} dw_standard_batch;

/* A place that the business sells from or sends dough to. */
typedef struct dw_outlet {
    int64_t id;
    const char *name;
    bool has_promised_days; /* else the business's own */
    int64_t promised_days;
} dw_outlet;

/* ---- what goes in ------------------------------------------------------- */

typedef struct dw_material {
    int64_t id;
    const char *name;
    int kind; /* dw_line_kind */
    bool has_water_percent, has_protein_percent, has_pack_kg;
    double water_percent, protein_percent, pack_kg;
    int64_t pack_price; /* minor units */
    const char *allergens;
    bool has_lead_days, has_keep_days;
    int64_t lead_days; /* from the order to the shelf */
    int64_t keep_days; /* it is used within */
    bool here;
} dw_material;

typedef struct dw_material_lot {
    int64_t id, material_id;
    const char *code, *supplier;
    int64_t received_ms, best_before_day;
    double water_correction_percent; /* carried forward to the next batches */
    bool has_kg;
    double kg; /* received; none: its stock is not followed */
    bool has_packs, has_received_c;
    int64_t packs;
    double received_c;       /* at the door */
    double wasted_kg;        /* thrown away, sent back */
    int64_t source_batch_id; /* scrap or preferment of that batch, kept */
    const char *carrier, *note;
    bool open;
} dw_material_lot;

/* ---- formulas ----------------------------------------------------------- */

typedef struct dw_formula_row {
    int64_t id;
    const char *name;
    int style, process;
    bool here;
} dw_formula_row;

typedef struct dw_formula_version {
    int64_t id, formula_id, number;
    const char *note;
    int64_t made_ms, person_id;
    double dough_goal_c;
    bool used;           /* true after the first batch: never changes again */
    bool slips_accepted; /* somebody looked at the slips and said "all the same"
                          */
} dw_formula_version;

/* A line of the total formula (stage_position 0) or of stage 1, 2... */
typedef struct dw_formula_line_row {
    int64_t id, version_id, stage_position, position;
    dw_line line;
} dw_formula_line_row;

typedef struct dw_formula_stage_row {
    int64_t id, version_id, position;
    const char *name;
    int kind;
    double flour_percent;
} dw_formula_stage_row;

/* A step of the version's procedure. */
typedef struct dw_procedure_step_row {
    int64_t id, version_id, position;
    dw_step step;
} dw_procedure_step_row;

/* ---- what is made ------------------------------------------------------- */

extern const char *const dw_form_words[]; /* ball panned sheet opened_skin
                                             par_baked frozen */
enum { DW_FORM_BALL };            /* the first; only its life has a model */
enum { DW_HOLDING_OFFSET_BOXES }; /* the first */
extern const char *const dw_holding_words[]; /* offset_boxes bagged_pan
                                                single_bags covered_rack */
typedef struct dw_product {
    int64_t id, position;
    const char *name;
    int64_t formula_id, box_type_id;
    double ball_kg;
    int64_t balls_per_box;
    int form, holding;
    /* own days, else the shop's */
    bool has_ready_day, has_best_day, has_use_first_day, has_last_day;
    int64_t ready_day, best_day, use_first_day, last_day;
    bool here;
} dw_product;

typedef struct dw_build_to {
    int64_t id, product_id, weekday, balls;
} dw_build_to;

typedef struct dw_sale {
    int64_t id, outlet_id, product_id, day, balls;
    bool sold_out; /* then balls is "at least" */
} dw_sale;

typedef struct dw_count_row {
    int64_t id, day, at_ms, person_id;
} dw_count_row;

typedef struct dw_count_line {
    int64_t id, count_id, product_id, mixing_day, balls;
} dw_count_line;

#define DW_NOUNS_SHOP(X)                                                       \
    X(dw_shop, shop)                                                           \
    X(dw_person, person)                                                       \
    X(dw_mixer_row, mixer)                                                     \
    X(dw_mixer_limit_row, mixer_limit)                                         \
    X(dw_scale_row, scale)                                                     \
    X(dw_box_type, box_type)                                                   \
    X(dw_cold_room, cold_room)                                                 \
    X(dw_opening, opening)                                                     \
    X(dw_standard_batch, standard_batch)                                       \
    X(dw_outlet, outlet)                                                       \
    X(dw_material, material)                                                   \
    X(dw_material_lot, material_lot)                                           \
    X(dw_formula_row, formula)                                                 \
    X(dw_formula_version, formula_version)                                     \
    X(dw_formula_line_row, formula_line)                                       \
    X(dw_formula_stage_row, formula_stage)                                     \
    X(dw_procedure_step_row, procedure_step)                                   \
    X(dw_product, product)                                                     \
    X(dw_build_to, build_to)                                                   \
    X(dw_sale, sale)                                                           \
    X(dw_count_row, count_taken)                                               \
    X(dw_count_line, count_line)

/* ---- what happens ------------------------------------------------------- */

extern const char *const dw_batch_state_words[]; /* planned mixing mixed boxed
                                                    closed abandoned */
enum {
    DW_BATCH_PLANNED,
    DW_BATCH_MIXING, /* from the first step */
    DW_BATCH_MIXED,  /* the mixer stopped for the last time */
    DW_BATCH_BOXED,  /* the last box is in the cold room, stack open */
    DW_BATCH_CLOSED,
    DW_BATCH_ABANDONED
};

/* One batch: planned beside what came. Readings, weighings, steps, changes and
 * boxes have rows of their own; the members here are what the day sorts by. */
typedef struct dw_batch_row {
    int64_t id, number; /* number: 1, 2... for people */
    int64_t version_id, mixer_id, person_id;
    int64_t day; /* business day it is mixed: day 0 of its balls */
    int state;
    int64_t planned_ms;        /* planned start of the mixer */
    double flour_kg, dough_kg; /* planned */
    double absorption_percent; /* with the changes so far */
    double dough_goal_c;
    bool has_water_c, has_ice_kg;
    double water_c, ice_kg;   /* of the liquid and the ice, as the card asked
                                 when the batch began */
    int64_t flour_lot_id;     /* whose water correction was planned in */
    double lot_water_percent; /* that correction, of flour */
    bool bag_of_minors;       /* the minors come as one bag */
    int64_t minors_lot_id;    /* of these; 0: before they were kept */
    int64_t started_ms, stopped_ms, first_box_ms, last_box_ms, closed_ms;
    int64_t close_due_ms; /* by the trade's clock */
    double mixer_minutes; /* of the card, what learning goes by */
    bool has_scrap_kg, has_residue_kg, has_work_j_per_kg_dough, has_sd_j_per_kg;
    double scrap_kg, residue_kg;
    double work_j_per_kg_dough,
        sd_j_per_kg; /* what it taught: engine/learn.h */
    bool on_paper;   /* entered afterwards from a sheet */
    int64_t entered_ms;
    const char *note;
} dw_batch_row;

/* What a batch is cut into. */
typedef struct dw_batch_piece {
    int64_t id, batch_id, product_id, position;
    double ball_kg;
    int64_t balls_planned, to_stock; /* to_stock: planned beyond the order */
    bool has_balls_made;
    int64_t balls_made;
} dw_batch_piece;

/* One weighing of the batch sheet. */
typedef struct dw_batch_weighing {
    int64_t id, batch_id, position, stage_position;
    const char *material;
    int kind;
    int64_t scale_id, whole_bags;        /* bags are named, not weighed */
    double bag_kg, exact_kg, planned_kg; /* exact: before the scale's steps;
                                            planned: what the scale can show,
                                            bags included */
    bool has_weighed_kg;
    double weighed_kg;
    int64_t lot_id, at_ms, person_id;
} dw_batch_weighing;

/* One step of the mix card (engine/procedure.h), and what became of it. */
typedef struct dw_batch_step {
    int64_t id, batch_id, position;
    dw_card_step step;
    int64_t started_ms, done_ms, person_id;
    bool skipped;
    const char *answer; /* of a question, e.g. "driving" or "sliding" */
} dw_batch_step;

extern const char *const dw_reading_kind_words[]; /* flour_c room_c tap_c
    water_c bowl_c dough_c cold_c core_c yeast_water_c */
enum {
    DW_READ_FLOUR,
    DW_READ_ROOM,
    DW_READ_TAP,
    DW_READ_WATER,
    DW_READ_BOWL,
    DW_READ_DOUGH,
    DW_READ_COLD,
    DW_READ_CORE,
    DW_READ_YEAST_WATER
};

/* Append-only: the newest of a kind counts, a correction is a new row. */
typedef struct dw_reading_row {
    int64_t id, batch_id; /* 0: the shop's own reading of the day */
    int kind;
    double celsius;
    int64_t occurred_ms, received_ms, person_id;
    const char *device;
    int64_t product_id; /* of core_c: whose stack was probed */
} dw_reading_row;

extern const char *const dw_change_kind_words[]; /* water yeast_type lot
    forgotten doubled sliding abandoned other */
enum {
    DW_CHANGE_WATER,
    DW_CHANGE_YEAST_TYPE,
    DW_CHANGE_LOT,
    DW_CHANGE_FORGOTTEN,
    DW_CHANGE_DOUBLED,
    DW_CHANGE_SLIDING,
    DW_CHANGE_ABANDONED,
    DW_CHANGE_OTHER
};
typedef struct dw_batch_change {
    int64_t id, batch_id;
    int kind;
    const char *material; /* which line */
    double kg;            /* added (or, below 0, left out) */
    bool has_to_kind;
    int to_kind;    /* dw_line_kind, when another yeast went in */
    int64_t lot_id; /* when another lot did */
    const char *note;
    int64_t occurred_ms, person_id;
} dw_batch_change;

extern const char *const dw_move_kind_words[]; /* put_by pull put_back use
    throw_away send count_difference */
enum {
    DW_MOVE_PUT_BY,
    DW_MOVE_PULL,
    DW_MOVE_PUT_BACK,
    DW_MOVE_USE,
    DW_MOVE_THROW_AWAY,
    DW_MOVE_SEND,
    DW_MOVE_COUNT_DIFFERENCE
};
/* Boxes of one product of one batch, and what left it. */
typedef struct dw_stack {
    int64_t id, batch_id, product_id, cold_room_id;
    int64_t mixing_day, boxes, balls;
    int64_t opened_ms, close_due_ms, closed_ms;
    bool close_by_life; /* close_due_ms; false: by the trade's clock */
    int64_t ready_day, best_day, use_first_day, last_day; /* civil days */
} dw_stack;

typedef struct dw_stack_move {
    int64_t id, stack_id;
    int kind;
    int64_t balls; /* taken from the stack; below 0 when put back */
    bool assumed;  /* worked out, not tapped */
    int64_t occurred_ms, person_id;
} dw_stack_move;

extern const char *const dw_verdict_words[]; /* good tight bubbles sticky blown
                                                not_looked */
typedef struct dw_verdict {
    int64_t id, batch_id, product_id;
    int verdict;
    int64_t occurred_ms, person_id;
    const char *note;
} dw_verdict;

/* Bags of minors weighed ahead. */
typedef struct dw_minors_lot {
    int64_t id, version_id, made_day, discard_day, made, left_count;
    double flour_kg; /* flour of the batch one bag serves */
    double diluent_kg, target_kg, tolerance_kg;
    const char *lots; /* the lots that went in, as read */
    int64_t person_id;
} dw_minors_lot;

/* Which lots went into the bags. */
typedef struct dw_minors_part {
    int64_t id, minors_lot_id, lot_id;
    double kg; /* in all bags of that weighing */
} dw_minors_part;

/* How fast can a lot be found? Traced against the clock. */
typedef struct dw_recall_drill {
    int64_t id, lot_id, batch_id, started_ms, stopped_ms, person_id;
    const char *note;
} dw_recall_drill;

#define DW_NOUNS_BATCH(X)                                                      \
    X(dw_batch_row, batch)                                                     \
    X(dw_batch_piece, batch_piece)                                             \
    X(dw_batch_weighing, batch_weighing)                                       \
    X(dw_batch_step, batch_step)                                               \
    X(dw_reading_row, reading)                                                 \
    X(dw_batch_change, batch_change)                                           \
    X(dw_stack, stack)                                                         \
    X(dw_stack_move, stack_move)                                               \
    X(dw_verdict, verdict)                                                     \
    X(dw_minors_lot, minors_lot)                                               \
    X(dw_minors_part, minors_part)                                             \
    X(dw_recall_drill, recall_drill)

/* ---- what readings teach ------------------------------------------------- */

/* A witness cup: dough off the mixer up to a mark, looked at again and again.
 */
typedef struct dw_cup {
    int64_t id, batch_id;
    double start_ml, place_c;
    int64_t occurred_ms, received_ms, person_id;
    const char *device;
} dw_cup;

/* One look. place_c: where it stands from then on. Append-only. */
typedef struct dw_cup_reading {
    int64_t id, cup_id;
    double volume_ml, place_c;
    int64_t occurred_ms, received_ms, person_id;
    const char *device;
} dw_cup_reading;

extern const char *const dw_leave_words[]; /* reading verdict cup cup_reading
                                              stack yeast room */
enum {
    DW_LEAVE_READING,
    DW_LEAVE_VERDICT,
    DW_LEAVE_CUP,
    DW_LEAVE_CUP_READING,
    DW_LEAVE_STACK, /* a whole lesson, as the next two */
    DW_LEAVE_YEAST,
    DW_LEAVE_ROOM
};
/* Append-only: of one thing the newest row counts. */
typedef struct dw_left_out {
    int64_t id;
    int what;
    int64_t of_id;
    bool out;
    const char *reason;
    int64_t occurred_ms, person_id;
} dw_left_out;

extern const char *const dw_taught_words[];
enum {
    DW_TAUGHT_OFFSET_H,
    DW_TAUGHT_CLOSED_H,
    DW_TAUGHT_ACTIVITY,
    DW_TAUGHT_F_TMIN,
    DW_TAUGHT_COLD_RATIO,
    DW_TAUGHT_AIR,
    DW_TAUGHT_TIME_CONSTANT
};
/* Worked out from readings, verdicts and cups, and kept. low to high is the
 * middle 90 percent. */
typedef struct dw_taught_row {
    int64_t id;
    int what;
    bool has_yeast;
    int yeast; /* dw_line_kind */
    int64_t formula_id, lot_id;
    double prior_mean, prior_low, prior_high;
    double mean, low, high;
    int64_t used, doubted, refused, left_out;
    int64_t learned_ms;
} dw_taught_row;

#define DW_NOUNS_TAUGHT(X)                                                     \
    X(dw_cup, cup)                                                             \
    X(dw_cup_reading, cup_reading)                                             \
    X(dw_left_out, left_out)                                                   \
    X(dw_taught_row, taught)
/* ---- service, drops, purchases ------------------------------------------ */

extern const char *const dw_run_down_words[]; /* pull_sheet taps */
enum { DW_RUN_DOWN_PULL_SHEET, DW_RUN_DOWN_TAPS };

/* One row, id 1; without it the presets hold. */
typedef struct dw_service {
    int64_t id;
    int run_down;
    double pull_step_minutes, day_sd_percent, short_cost_balls;
    int short_rule; /* dw_allot_rule */
    int64_t promised_days;
    double door_most_c;
    int64_t buy_days;
} dw_service;

typedef struct dw_shift {
    int64_t id, person_id, weekday, from_minute, to_minute;
} dw_shift;

/* One day that is unlike its weekday: a holiday (person_id 0), somebody away,
 * somebody here who else is not. */
typedef struct dw_shift_change {
    int64_t id, day, person_id;
    bool here;
    int64_t from_minute, to_minute;
    const char *note;
} dw_shift_change;

typedef struct dw_drop_day {
    int64_t id, outlet_id, weekday, at_minute, cutoff_minutes;
} dw_drop_day;

/* Append-only: the newest of an outlet and day counts. */
typedef struct dw_outlet_order {
    int64_t id, outlet_id, day, placed_ms;
    bool late;
    int64_t person_id;
    const char *note;
} dw_outlet_order;

typedef struct dw_outlet_order_line {
    int64_t id, order_id, product_id, balls;
} dw_outlet_order_line;

typedef struct dw_drop_made {
    int64_t id, day, outlet_id, loaded_ms, arrived_ms;
    bool has_door_c;
    double door_c;
    int64_t person_id;
    const char *note;
} dw_drop_made;

typedef struct dw_drop_line {
    int64_t id, drop_id, product_id, stack_id, mixing_day, balls, boxes;
    int64_t refused;
    bool credited;
    const char *reason;
} dw_drop_line;

/* Boxes owed by an outlet: those out less those back. */
typedef struct dw_box_move {
    int64_t id, outlet_id, drop_id, boxes_out, boxes_back;
    int64_t occurred_ms, person_id;
} dw_box_move;

/* A subscription to the calendar; outlet_id 0: the whole shop. */
typedef struct dw_calendar_key {
    int64_t id;
    const char *key;
    int64_t outlet_id, made_ms, person_id;
} dw_calendar_key;

#define DW_NOUNS_SERVICE(X)                                                    \
    X(dw_service, service)                                                     \
    X(dw_shift, shift)                                                         \
    X(dw_shift_change, shift_change)                                           \
    X(dw_drop_day, drop_day)                                                   \
    X(dw_outlet_order, outlet_order)                                           \
    X(dw_outlet_order_line, outlet_order_line)                                 \
    X(dw_drop_made, drop_made)                                                 \
    X(dw_drop_line, drop_line)                                                 \
    X(dw_box_move, box_move)                                                   \
    X(dw_calendar_key, calendar_key)

/* ---- checks --------------------------------------------------------------
 */

extern const char *const dw_check_words[]; /* thermometer scale cold_room
                                              cleaning other */

/* A thermometer, scale, cold room or cleaning to be checked again and again.
 * Limits in degC of a thermometer or cold room, kg of a scale's check weight. */
typedef struct dw_check_due {
    int64_t id;
    int what;
    const char *name;
    int64_t every_days;
    bool has_lowest, has_highest;
    double lowest, highest;
    int64_t since_ms;
    bool stopped;
} dw_check_due;

typedef struct dw_check_done {
    int64_t id, check_id;
    bool has_value;
    double value;
    bool within;
    const char *action;
    int64_t occurred_ms, received_ms, person_id;
} dw_check_done;

#define DW_NOUNS_CHECK(X)                                                      \
    X(dw_check_due, check_due)                                                 \
    X(dw_check_done, check_done)

/* ---- demand ---------------------------------------------------------------
 */

/* Balls used in one hour of the shop's clock, where the register tells it. */
typedef struct dw_sale_hour {
    int64_t id, outlet_id, product_id, day, hour, balls;
} dw_sale_hour;

/* What somebody knows of a day beside its sales. */
typedef struct dw_demand_mark {
    int64_t id, outlet_id, product_id, day;
    bool sold_out;      /* more was wanted, nobody knows how much */
    int64_t lost_balls; /* more was wanted, counted */
    const char *note;
    int64_t person_id;
} dw_demand_mark;

typedef struct dw_demand_event {
    int64_t id;
    dw_event event;
} dw_demand_event;

typedef struct dw_demand_override {
    int64_t id, outlet_id, product_id; /* outlet_id 0: all together */
    dw_override change;
    int64_t person_id, made_ms;
} dw_demand_override;

/* While a product is new, it is taken to be like another. */
typedef struct dw_product_like {
    int64_t id, product_id, like_id;
} dw_product_like;

extern const char *const dw_sales_name_words[]; /* product outlet */
enum { DW_SALES_NAME_PRODUCT, DW_SALES_NAME_OUTLET };
/* What a register's file calls a product or an outlet. */
typedef struct dw_sales_name {
    int64_t id;
    int kind;
    const char *written;
    int64_t product_id, outlet_id;
    int64_t balls_each; /* balls in one of what the file counts */
    bool passed_over;   /* not made of our dough */
} dw_sales_name;

#define DW_NOUNS_DEMAND(X)                                                     \
    X(dw_sale_hour, sale_hour)                                                 \
    X(dw_demand_mark, demand_mark)                                             \
    X(dw_demand_event, demand_event)                                           \
    X(dw_demand_override, demand_override)                                     \
    X(dw_product_like, product_like)                                           \
    X(dw_sales_name, sales_name)

#define DW_NOUN_SHAPE(type, table) extern const dw_shape dw_##table##_noun;
DW_NOUNS_SHOP(DW_NOUN_SHAPE)
DW_NOUNS_BATCH(DW_NOUN_SHAPE)
DW_NOUNS_TAUGHT(DW_NOUN_SHAPE)
DW_NOUNS_SERVICE(DW_NOUN_SHAPE)
DW_NOUNS_CHECK(DW_NOUN_SHAPE)
DW_NOUNS_DEMAND(DW_NOUN_SHAPE)

#endif
