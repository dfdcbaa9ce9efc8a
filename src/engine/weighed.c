#include "doughwright/slip.h"

#include <math.h>

const char *const dw_weighed_words[] = {
#define WORD(symbol, word, ratio) word,
    DW_WEIGHED_LIST(WORD)
#undef WORD
        NULL};

static const double ratios[] = {
#define RATIO(symbol, word, ratio) ratio,
    DW_WEIGHED_LIST(RATIO)
#undef RATIO
};

/* A known ratio is met within this part of it. */
static const double NEAR_RATIO = 0.045;
/* Off by more than the first is asked about, than the second wrong. */
static const double ASK_PART = 0.05, WRONG_PART = 0.25;

/* The known ratio that is nearest, or MORE or LESS. */
static int known_ratio(double ratio)
{
    int best = ratio > 1 ? DW_WEIGHED_MORE : DW_WEIGHED_LESS;
    double nearest = NEAR_RATIO;
    for (int code = DW_WEIGHED_FITS + 1; code < DW_WEIGHED_MORE; code++) {
        double apart = fabs(ratio / ratios[code] - 1);
        if (apart < nearest) {
            nearest = apart;
            best = code;
        }
    }
    return best;
}

dw_status dw_slip_weighed(double planned_kg, double weighed_kg,
                          double tolerance_kg, dw_weighing *weighing,
                          dw_err *err)
{
    DW_TRY(dw_check_range(err, "planned_kg", planned_kg, 1e-6, 1e5));
    DW_TRY(dw_check_range(err, "weighed_kg", weighed_kg, 0, 1e5));
    DW_TRY(dw_check_range(err, "tolerance_kg", tolerance_kg, 0, 1e5));
    double off = fabs(weighed_kg - planned_kg);
    weighing->ratio = weighed_kg / planned_kg;
    if (off <= fmax(ASK_PART * planned_kg, tolerance_kg) * (1 + 1e-9)) {
        weighing->code = DW_WEIGHED_FITS;
        weighing->level = DW_ASK;
        return DW_OK;
    }
    weighing->code = known_ratio(weighing->ratio);
    weighing->level = off > WRONG_PART * planned_kg ? DW_WRONG : DW_ASK;
    return DW_OK;
}
