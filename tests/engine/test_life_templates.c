#include "doughwright/procedure.h"
#include "doughwright/slip.h"
#include "dw_test.h"
#include "life_cases.h"

/* How dough of a template is usually led: its process, water, and whether it is
 * balled out of a bulk. */
typedef struct usage {
    int process;
    double water;
    bool bulk;
} usage;

static usage usage_of(dw_template which)
{
    switch (which) {
    case DW_TEMPLATE_SAME_DAY: return (usage){DW_SAME_DAY, 60, false};
    case DW_TEMPLATE_EMERGENCY: return (usage){DW_EMERGENCY, 60, false};
    case DW_TEMPLATE_CRACKER: return (usage){DW_COLD, 38, false};
    case DW_TEMPLATE_BULK_THEN_BALL: return (usage){DW_COLD, 60, true};
    default: return (usage){DW_COLD, 60, false};
    }
}

static void lead(life_case *c, const usage *how, double instant)
{
    case_start(c, instant);
    case_formula(c, how->water, 2, 0, DW_YEAST_INSTANT, instant);
    c->request.report_every_h = 400;
    if (how->process == DW_COLD) {
        case_leg(c, how->bulk ? 2 : 0.4, 22, 8);
        case_leg(c, 2.5, 3.3, 8);
        case_leg(c, 60, 3.3, 3);
    } else {
        c->request.dough_c = how->process == DW_EMERGENCY ? 32 : 27;
        case_leg(c, 8, 22, 8);
    }
    if (how->bulk)
        case_event(c, 1.9, DW_EVENT_BALL);
}

TEST(dough_of_every_template_has_a_window, LIMIT,
     "usual yeast of its process, least, middle and most: ready before the end")
{
    for (int t = 0; t < DW_TEMPLATE_COUNT; t++) {
        usage how = usage_of((dw_template)t);
        dw_limits yeast;
        NEED(dw_slip_limits(DW_THIN, how.process, DW_YEAST_INSTANT, &yeast));
        for (int i = 0; i <= 2; i++) {
            life_case c;
            double part = 0.5 * i;
            lead(&c, &how,
                 yeast.usual_low + part * (yeast.usual_high - yeast.usual_low));
            NEED(case_run(&c) == DW_OK);
            const dw_window *w = &c.reply.window;
            CHECK(w->has_ready_h && w->has_end_h && w->ready_h < w->end_h);
            if (!(w->has_ready_h && w->ready_h < w->end_h))
                printf("  %s, yeast %d of 2\n", dw_template_words[t], i);
        }
    }
}
