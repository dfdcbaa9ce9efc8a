#define _POSIX_C_SOURCE 200809L
#include "life_histories.h"

#include <string.h>
#include <time.h>

static void start(life_history *history, const char *what)
{
    const dw_line lines[] = {
        {"flour", DW_FLOUR, 100, false, 0, false, 0},
        {"water", DW_WATER, 58, false, 0, false, 0},
        {"salt", DW_SALT, 1.75, false, 0, false, 0},
        {"instant yeast", DW_YEAST_INSTANT, 0.4, false, 0, false, 0},
    };
    dw_life_request *r = &history->request;
    history->what = what;
    memcpy(history->lines, lines, sizeof lines);
    dw_shape_preset(&dw_life_request_shape, r);
    r->formula =
        (dw_formula){history->lines, DW_COUNT(history->lines), NULL, 0};
    r->piece_g = 450;
    r->has_dough_c = true;
    r->dough_c = 26;
    r->legs = history->legs;
    r->report_every_h = 72;
    r->members = 0;
    r->shells = 12;
    r->model.age_end = 0.1;
}

static void add(life_history *history, double hours, double air_c, double h)
{
    history->legs[history->request.legs_count++] = (dw_leg){hours, air_c, h};
}

void life_four_legs(life_history *history)
{
    start(history, "four legs");
    add(history, 0.5, 22, 8);
    add(history, 2.5, 3, 8);
    add(history, 66, 3, 3);
    add(history, 3, 22, 8);
}

void life_swinging(life_history *history)
{
    start(history, "cold room swinging every 20 min");
    add(history, 0.5, 22, 8);
    add(history, 2.5, 3, 8);
    for (int i = 0; i < 3 * 66; i++) {
        add(history, 1.0 / 6, 4, 3);
        add(history, 1.0 / 6, 2, 3);
    }
    add(history, 3, 22, 8);
}

double life_seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}
