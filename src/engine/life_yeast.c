#include "doughwright/life.h"

#include "engine/answer.h"

#define LEAST_PERCENT 0.005
#define MOST_PERCENT 10.0
#define GUESS_PERCENT 0.3 /* when the formula has none yet */
#define WITHIN 2e-6       /* of the percent */

dw_status dw_life_yeast(const dw_life_yeast_ask *ask, dw_arena *arena,
                        dw_life_yeast_reply *reply, dw_err *err)
{
    dw_life_request life = ask->life;
    dw_line *yeast = NULL;
    DW_TRY(dw_answer__open_yeast(&life.formula, "life.formula.lines", arena,
                                 &yeast, err));
    if (yeast->percent <= 0)
        yeast->percent = GUESS_PERCENT;
    dw_answer__turn turn = {.life = &life,
                            .number = &yeast->percent,
                            .scale = DW_ANSWER__LOG,
                            .least = LEAST_PERCENT,
                            .most = MOST_PERCENT,
                            .within = WITHIN,
                            .mark = ask->mark,
                            .wanted_h = ask->wanted_h,
                            .arena = arena};
    DW_TRY(dw_answer__bring(&turn, err));
    dw_life_yeast_reply found = {.percent = yeast->percent};
    DW_TRY(dw_life_run(&life, arena, &found.life, err));
    *reply = found;
    return DW_OK;
}
