#include "doughwright/procedure.h"

/* Templates are put together from runs of steps that they share. */

#define ADD(group)                                                             \
    {                                                                          \
        .kind = DW_STEP_ADD, .what = DW_ADD_##group, .share_percent = 100      \
    }
#define MIX(mix_speed, min, when)                                              \
    {                                                                          \
        .kind = DW_STEP_MIX, .share_percent = 100,                             \
        .speed = DW_SPEED_##mix_speed, .minutes = min,                         \
        .until = DW_UNTIL_##when                                               \
    }
#define MIX_TO(mix_speed, min, max, when)                                      \
    {                                                                          \
        .kind = DW_STEP_MIX, .share_percent = 100,                             \
        .speed = DW_SPEED_##mix_speed, .minutes = min, .has_minutes_to = true, \
        .minutes_to = max, .until = DW_UNTIL_##when                            \
    }
#define REST_TO(min, max)                                                      \
    {                                                                          \
        .kind = DW_STEP_REST, .share_percent = 100, .minutes = min,            \
        .has_minutes_to = true, .minutes_to = max, .until = DW_UNTIL_RISEN     \
    }
#define DO(step)                                                               \
    {                                                                          \
        .kind = DW_STEP_##step, .share_percent = 100                           \
    }
#define FAT_RUNNING                                                            \
    {                                                                          \
        .kind = DW_STEP_ADD, .what = DW_ADD_FAT, .share_percent = 100,         \
        .running = true                                                        \
    }
#define OIL_QUESTION                                                           \
    {                                                                          \
        .kind = DW_STEP_ASK, .share_percent = 100, .question = "oil_taken_up"  \
    }
/* Core 50-55 F closes the stack; 50-60 F opens the ball. */
#define TO_CORE(step, core_c)                                                  \
    {                                                                          \
        .kind = DW_STEP_##step, .share_percent = 100, .until = DW_UNTIL_CORE,  \
        .has_goal_c = true, .goal_c = core_c                                   \
    }
#define STAGE_ADD(group)                                                       \
    {                                                                          \
        .kind = DW_STEP_ADD, .what = DW_ADD_##group, .share_percent = 100,     \
        .for_stage = true                                                      \
    }
#define STAGE_MIX(min)                                                         \
    {                                                                          \
        .kind = DW_STEP_MIX, .share_percent = 100, .speed = DW_SPEED_LOW,      \
        .minutes = min, .until = DW_UNTIL_NO_DRY_FLOUR, .for_stage = true      \
    }
#define STAGE_REST(hours, hours_to)                                            \
    {                                                                          \
        .kind = DW_STEP_REST, .share_percent = 100, .minutes = 60 * (hours),   \
        .has_minutes_to = true, .minutes_to = 60 * (hours_to),                 \
        .until = DW_UNTIL_RISEN, .for_stage = true                             \
    }

static const dw_step water_first[] = {
    ADD(WATER), ADD(STAGES), ADD(SALT_SUGAR),
    ADD(FLOUR), ADD(OTHERS), ADD(YEAST),
};
static const dw_step no_dry_flour[] = {MIX(LOW, 2, NO_DRY_FLOUR)};
static const dw_step oil_late[] = {FAT_RUNNING, MIX(LOW, 2, ABSORBED),
                                   OIL_QUESTION};
static const dw_step oil_early[] = {ADD(FAT)};
static const dw_step develop[] = {MIX_TO(SECOND, 8, 10, SMOOTH)};
static const dw_step develop_rested[] = {MIX_TO(SECOND, 4, 6, SMOOTH)};
static const dw_step off_mixer[] = {DO(OIL_BOWL), DO(STOP), DO(PROBE)};
static const dw_step ball[] = {DO(DIVIDE), DO(ROUND), DO(BOX), DO(OIL_TOPS)};
static const dw_step cold[] = {TO_CORE(CHILL_OPEN, 115.0 / 9), DO(CLOSE),
                               DO(HOLD), TO_CORE(TEMPER, 115.0 / 9)};
static const dw_step flour_and_water[] = {
    ADD(WATER),
    ADD(FLOUR),
    ADD(OTHERS),
    MIX(LOW, 3, NO_DRY_FLOUR),
    {.kind = DW_STEP_REST, .share_percent = 100, .minutes = 20}};
static const dw_step after_rest[] = {ADD(STAGES), ADD(YEAST), ADD(SALT_SUGAR),
                                     MIX(LOW, 2, ABSORBED)};
static const dw_step poolish[] = {STAGE_ADD(WATER), STAGE_ADD(FLOUR),
                                  STAGE_ADD(YEAST), STAGE_ADD(REST),
                                  STAGE_MIX(2),     STAGE_REST(8, 16)};
static const dw_step biga[] = {STAGE_ADD(WATER), STAGE_ADD(FLOUR),
                               STAGE_ADD(YEAST), STAGE_ADD(REST),
                               STAGE_MIX(3),     STAGE_REST(12, 24)};
static const dw_step sponge[] = {STAGE_ADD(WATER), STAGE_ADD(FLOUR),
                                 STAGE_ADD(YEAST), STAGE_ADD(REST),
                                 STAGE_MIX(3),     STAGE_REST(3, 5)};
static const dw_step bulk[] = {REST_TO(45, 90), DO(PUNCH)};
static const dw_step at_room[] = {REST_TO(120, 240)};
static const dw_step soon[] = {REST_TO(60, 120)};
static const dw_step stiff[] = {MIX_TO(LOW, 4, 5, NO_DRY_FLOUR), DO(STOP),
                                DO(PROBE)};
static const dw_step sheeted[] = {
    DO(DIVIDE), DO(BOX),  TO_CORE(CHILL_OPEN, 115.0 / 9),
    DO(CLOSE),  DO(HOLD), TO_CORE(TEMPER, 115.0 / 9),
    DO(SHEET)};

typedef struct run {
    const dw_step *steps;
    size_t count;
} run;

#define RUN(steps)                                                             \
    {                                                                          \
        steps, DW_COUNT(steps)                                                 \
    }
enum { RUNS = 8 };

static const run templates[DW_TEMPLATE_COUNT][RUNS] = {
    [DW_TEMPLATE_DELAYED_OIL] = {RUN(water_first), RUN(no_dry_flour),
                                 RUN(oil_late), RUN(develop), RUN(off_mixer),
                                 RUN(ball), RUN(cold)},
    [DW_TEMPLATE_STRAIGHT] = {RUN(water_first), RUN(oil_early),
                              RUN(no_dry_flour), RUN(develop), RUN(off_mixer),
                              RUN(ball), RUN(cold)},
    [DW_TEMPLATE_AUTOLYSE] = {RUN(flour_and_water), RUN(after_rest),
                              RUN(oil_late), RUN(develop_rested),
                              RUN(off_mixer), RUN(ball), RUN(cold)},
    [DW_TEMPLATE_POOLISH] = {RUN(poolish), RUN(water_first), RUN(no_dry_flour),
                             RUN(oil_late), RUN(develop), RUN(off_mixer),
                             RUN(ball), RUN(cold)},
    [DW_TEMPLATE_BIGA] = {RUN(biga), RUN(water_first), RUN(no_dry_flour),
                          RUN(oil_late), RUN(develop), RUN(off_mixer),
                          RUN(ball), RUN(cold)},
    [DW_TEMPLATE_SPONGE] = {RUN(sponge), RUN(water_first), RUN(no_dry_flour),
                            RUN(oil_late), RUN(develop), RUN(off_mixer),
                            RUN(ball), RUN(cold)},
    [DW_TEMPLATE_BULK_THEN_BALL] = {RUN(water_first), RUN(no_dry_flour),
                                    RUN(oil_late), RUN(develop), RUN(off_mixer),
                                    RUN(bulk), RUN(ball), RUN(cold)},
    [DW_TEMPLATE_SAME_DAY] = {RUN(water_first), RUN(no_dry_flour),
                              RUN(oil_late), RUN(develop), RUN(off_mixer),
                              RUN(ball), RUN(at_room)},
    [DW_TEMPLATE_EMERGENCY] = {RUN(water_first), RUN(no_dry_flour),
                               RUN(oil_late), RUN(develop), RUN(off_mixer),
                               RUN(ball), RUN(soon)},
    [DW_TEMPLATE_CRACKER] = {RUN(water_first), RUN(oil_early), RUN(stiff),
                             RUN(sheeted)},
};

dw_status dw_procedure_template(dw_template which, dw_arena *arena, dw_err *err,
                                dw_procedure *procedure)
{
    DW_ASSERT(which < DW_TEMPLATE_COUNT);
    const run *runs = templates[which];
    size_t count = 0;
    for (size_t i = 0; i < RUNS; i++)
        count += runs[i].count;
    dw_step *steps = DW_NEW_ARRAY(arena, dw_step, count);
    if (!steps)
        return dw_fail(err, DW_E_ROOM, "arena", NULL);
    size_t at = 0;
    for (size_t i = 0; i < RUNS; i++)
        for (size_t k = 0; k < runs[i].count; k++)
            steps[at++] = runs[i].steps[k];
    *procedure = (dw_procedure){dw_template_words[which], steps, count};
    return DW_OK;
}
