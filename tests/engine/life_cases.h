/* Doughs and lives for the tests of fermentation and of a ball's life. */
#ifndef TEST_LIFE_CASES_H
#define TEST_LIFE_CASES_H

#include "doughwright/life.h"

#include <string.h>

typedef struct life_case {
    dw_line lines[6];
    dw_leg legs[8];
    dw_life_event events[4];
    dw_life_request request;
    dw_life_reply reply;
} life_case;

/* Flour 100 and the rest in percent of it; lines of 0 are left in. */
static inline void case_formula(life_case *c, double water, double salt,
                                double sugar, int yeast_kind, double yeast)
{
    const dw_line lines[] = {
        {"flour", DW_FLOUR, 100, false, 0, false, 0},
        {"water", DW_WATER, water, false, 0, false, 0},
        {"salt", DW_SALT, salt, false, 0, false, 0},
        {"sugar", DW_SUGAR, sugar, false, 0, false, 0},
        {"yeast", yeast_kind, yeast, false, 0, false, 0},
    };
    memcpy(c->lines, lines, sizeof lines);
    c->request.formula = (dw_formula){c->lines, DW_COUNT(lines), NULL, 0};
}

/* A 450-g ball of 60 % water, 2 % salt and instant yeast, without a band. */
static inline void case_start(life_case *c, double instant)
{
    memset(c, 0, sizeof *c);
    case_formula(c, 60, 2, 0, DW_YEAST_INSTANT, instant);
    dw_life_request *r = &c->request;
    r->piece_g = 450;
    r->has_dough_c = true;
    r->dough_c = 26;
    r->legs = c->legs;
    r->events = c->events;
    r->earliest_cold_use_h = 10;
    r->report_every_h = 1;
    r->shells = 24;
    r->step_scale = 1;
    dw_ferment_model_preset(&r->model);
}

static inline void case_leg(life_case *c, double hours, double air_c, double h)
{
    c->legs[c->request.legs_count++] = (dw_leg){hours, air_c, h};
}

static inline void case_event(life_case *c, double at_h, int kind)
{
    c->events[c->request.events_count++] = (dw_life_event){at_h, kind};
}

dw_status case_run(life_case *c);

#endif
