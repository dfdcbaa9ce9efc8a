/* Procedures: how a formula becomes dough, as typed steps; and the card, the
 * concrete list of what to do for one batch.
 *
 * A step of a procedure speaks of groups (water, flour, yeast...), so one
 * procedure serves many formulas; a card speaks of materials and kilograms.
 * Making the card from formula and procedure:
 *   - every line of the formula is added exactly once (in parts, when steps
 *     take a share); a line that is not, or twice, is an error that names it;
 *   - yeast goes in by its type: instant dry on the flour; fresh crumbled on
 *     the flour, away from salt and sugar; active dry wetted 10 minutes
 *     before in 5 times its weight of water at 100-105 F, which is taken off
 *     the formula's water;
 *   - a bag of minors takes the place of what it holds;
 *   - second speed is dropped at 50 % absorption and less, and on a mixer that
 *     has none; at 40 % and less mixing ends at 5 minutes (mixer.h);
 *   - flour in the bowl before water mixes 3-4 minutes longer;
 *   - release oil is outside the percentages: a weight of its own.
 * A template's steps marked `for_stage` are done for each preferment of the
 * formula (old dough needs no making). Practice of the trade, no source.
 *
 * Card codes: add_water add_salt add_sugar add_flour add_fat add_fat_running
 * add_yeast_dry add_yeast_fresh add_yeast_wetted add_minors_bag add_stage
 * add_other wet_yeast mix_low mix_second rest ask oil_bowl stop probe divide
 * round box oil_tops chill_open close hold temper sheet punch.
 * Cautions: guard_closed_hands_out (mixing), pour_hands_out (adding while it
 * runs), power_off_before_scraping (stop). Questions (of `ask`): oil_taken_up,
 * answered "driving" (the hook still drives through the dough) or "sliding"
 * (stay low until absorbed).
 *
 * Note codes: second_speed_dropped (value minutes, limit AR %), mix_cut (value
 * minutes left, limit 5), flour_first (value extra minutes),
 * yeast_into_cold_water (subject yeast, value water C, limit 60 F),
 * yeast_before_flour (subject yeast).
 */
#ifndef DOUGHWRIGHT_PROCEDURE_H
#define DOUGHWRIGHT_PROCEDURE_H

#include "doughwright/formula.h"
#include "doughwright/note.h"

typedef enum dw_step_kind {
    DW_STEP_ADD,
    DW_STEP_MIX,
    DW_STEP_REST,
    DW_STEP_WET_YEAST, /* on cards only: it follows from the yeast */
    DW_STEP_ASK,
    DW_STEP_OIL_BOWL,
    DW_STEP_STOP,
    DW_STEP_PROBE,
    DW_STEP_DIVIDE,
    DW_STEP_ROUND,
    DW_STEP_BOX,
    DW_STEP_OIL_TOPS,
    DW_STEP_CHILL_OPEN,
    DW_STEP_CLOSE,
    DW_STEP_HOLD,
    DW_STEP_TEMPER,
    DW_STEP_SHEET,
    DW_STEP_PUNCH
} dw_step_kind;
extern const char *const dw_step_kind_words[];

/* What an `add` adds. */
typedef enum dw_step_what {
    DW_ADD_NOTHING,
    DW_ADD_MATERIAL, /* the one named */
    DW_ADD_WATER,
    DW_ADD_SALT_SUGAR,
    DW_ADD_FLOUR,
    DW_ADD_YEAST,
    DW_ADD_FAT,
    DW_ADD_STAGES, /* preferments, and lines that are dough */
    DW_ADD_OTHERS, /* malt, gluten, dairy, other */
    DW_ADD_REST    /* whatever is not in yet */
} dw_step_what;
extern const char *const dw_step_what_words[];

typedef enum dw_speed { DW_SPEED_NONE, DW_SPEED_LOW, DW_SPEED_SECOND } dw_speed;
extern const char *const dw_speed_words[]; /* none low second */

/* When a step is over, beside its minutes. */
typedef enum dw_until {
    DW_UNTIL_TIME,
    DW_UNTIL_NO_DRY_FLOUR,
    DW_UNTIL_ABSORBED,
    DW_UNTIL_SMOOTH,
    DW_UNTIL_RISEN,
    DW_UNTIL_CORE /* the core is at goal_c */
} dw_until;
extern const char *const dw_until_words[];

/* One step of a procedure: stored, edited, sent. */
typedef struct dw_step {
    int kind;             /* dw_step_kind */
    int what;             /* dw_step_what, for add */
    const char *material; /* for `material` */
    double share_percent; /* of what is added, preset 100 */
    int speed;            /* dw_speed, for mix */
    double minutes;       /* 0: no timer */
    bool has_minutes_to;
    double minutes_to; /* "8 to 10": minutes 8, minutes_to 10 */
    int until;         /* dw_until */
    bool has_goal_c;
    double goal_c;
    bool running;         /* added while the mixer runs */
    bool for_stage;       /* done for each preferment */
    const char *question; /* code, for ask */
    const char *text;     /* the shop's own words */
} dw_step;

typedef struct dw_procedure {
    const char *name;
    dw_step *steps;
    size_t steps_count;
} dw_procedure;

extern const dw_shape dw_step_shape, dw_procedure_shape;

typedef enum dw_template {
    DW_TEMPLATE_DELAYED_OIL, /* the default */
    DW_TEMPLATE_STRAIGHT,
    DW_TEMPLATE_AUTOLYSE,
    DW_TEMPLATE_POOLISH,
    DW_TEMPLATE_BIGA,
    DW_TEMPLATE_SPONGE,
    DW_TEMPLATE_BULK_THEN_BALL,
    DW_TEMPLATE_SAME_DAY,
    DW_TEMPLATE_EMERGENCY,
    DW_TEMPLATE_CRACKER,
    DW_TEMPLATE_COUNT
} dw_template;
extern const char *const dw_template_words[];

/* A template as a procedure of your own, steps in the arena (DW_E_ROOM). */
dw_status dw_procedure_template(dw_template which, dw_arena *arena, dw_err *err,
                                dw_procedure *procedure);

typedef struct dw_card_piece {
    const char *product;
    double piece_g;
    int64_t count;
} dw_card_piece;

/* The bag of minors in place of what it holds. */
typedef struct dw_card_bag {
    double diluent_kg;
    const char *diluent; /* NULL: the first flour */
} dw_card_bag;

typedef struct dw_card_request {
    dw_formula formula;
    double flour_kg;
    dw_procedure procedure;
    bool mixer_second_speed; /* the mixer has one, preset true */
    bool has_water_c;
    double water_c;
    double ice_kg;
    bool has_dough_goal_c;
    double dough_goal_c;
    double release_oil_kg; /* 0: none */
    bool has_minors_bag;
    dw_card_bag minors_bag;
    dw_card_piece *pieces;
    size_t pieces_count;
    double flour_first_minutes; /* preset 3.5 */
} dw_card_request;

typedef struct dw_card_step {
    int kind;          /* dw_step_kind */
    const char *code;  /* message code */
    const char *stage; /* which preferment it makes, NULL: the dough */
    const char *material;
    bool has_line_kind;
    int line_kind; /* dw_line_kind */
    bool has_kg;
    double kg; /* of the material; of one ball for divide */
    bool has_count;
    int64_t count; /* balls, for divide */
    int speed;
    double minutes;
    bool has_minutes_to;
    double minutes_to;
    int until;
    bool has_goal_c;
    double goal_c;
    bool has_low_c, has_high_c;
    double low_c, high_c; /* of the yeast's water */
    bool running;
    const char *question, *caution, *text;
    double at_min; /* from the first step of the dough; before it negative */
} dw_card_step;

/* A step and its caution as sentences in the reader's language; the engine
 * makes none. */
typedef struct dw_card_saying {
    const char *step, *caution;
} dw_card_saying;

typedef struct dw_card_reply {
    dw_card_step *steps;
    size_t steps_count;
    dw_card_saying *sayings; /* one a step, or none */
    size_t sayings_count;
    double mixer_minutes; /* preferments included; ranges by their middle */
    double mixer_hours;   /* the same, for the hours-run count */
    double dough_out_min; /* from the first step of the dough to its stop */
    double absorption_percent;
    double release_oil_kg;
    dw_note *notes;
    size_t notes_count;
} dw_card_reply;

extern const dw_shape dw_card_request_shape, dw_card_reply_shape,
    dw_card_step_shape, dw_card_saying_shape;

/* Make the card. Fails as dw_formula_split and dw_minors_bag;
 * DW_E_NOT_FOUND (a step's material is not in the formula:
 * procedure.steps[i].material), DW_E_MISSING (a line or stage that no step
 * adds: formula.lines[i], formula.stages[i], formula.stages[i].lines[j]),
 * DW_E_CONFLICT (added more than once), DW_E_RANGE (not enough water to wet
 * the yeast: formula.lines[i].percent), DW_E_TOO_LARGE, DW_E_ROOM. The reply
 * lives in the arena (128 KiB are enough); names are borrowed. */
dw_status dw_procedure_card(const dw_card_request *request, dw_arena *arena,
                            dw_err *err, dw_card_reply *reply);

#endif
