#include "doughwright/net_weight.h"

#include <math.h>

#define GRAM 1e-3

/* Handbook 133, from memory: a label of more than the row before and up to
 * this may be short by so much. */
static const struct {
    double label_g, allowed_g;
} us_allowed[] = {
    {54, 3.6},    {81, 5.4},    {117, 7.2},   {154, 9.0},   {208, 10.8},
    {263, 12.7},  {317, 14.5},  {381, 16.3},  {426, 18.1},  {489, 19.9},
    {571, 21.7},  {635, 23.5},  {698, 25.4},  {771, 27.2},  {852, 29.0},
    {970, 31.7},  {1120, 35.3}, {1250, 39.0}, {1450, 42.6}, {1760, 49},
    {2130, 54},   {2630, 63},   {3080, 68},   {3580, 77},   {4260, 86},
    {5300, 99},   {6480, 113},  {8020, 127},  {10520, 140}, {14330, 167},
    {19230, 199}, {24670, 226},
};
#define US_SMALL_G 36.0
#define US_SMALL_SHARE 0.10
#define US_LARGE_SHARE 0.02

double dw_net_weight_us_allowed_kg(double label_kg)
{
    double label_g = label_kg / GRAM;
    if (label_g <= US_SMALL_G)
        return label_kg * US_SMALL_SHARE;
    for (size_t i = 0; i < DW_COUNT(us_allowed); i++)
        if (label_g <= us_allowed[i].label_g)
            return us_allowed[i].allowed_g * GRAM;
    return label_kg * US_LARGE_SHARE;
}

/* 76/211/EEC annex I: up to so much, by share or fixed. */
static const struct {
    double label_g, share, tolerable_g;
} eu_tolerable[] = {
    {50, 0.09, 0},     {100, 0, 4.5},   {200, 0.045, 0},
    {300, 0, 9},       {500, 0.03, 0},  {1000, 0, 15},
    {10000, 0.015, 0}, {15000, 0, 150}, {INFINITY, 0.01, 0},
};

double dw_net_weight_eu_tolerable_kg(double label_kg)
{
    double label_g = label_kg / GRAM;
    size_t i = 0;
    while (label_g > eu_tolerable[i].label_g)
        i++;
    if (eu_tolerable[i].tolerable_g > 0)
        return eu_tolerable[i].tolerable_g * GRAM;
    /* shares are rounded up to a tenth of a gram */
    return ceil(label_g * eu_tolerable[i].share * 10 - 1e-6) / 10 * GRAM;
}

/* The sample that a rule asks of a lot, and what it accepts. */
typedef struct sample {
    size_t packages;    /* for single packages */
    size_t for_mean;    /* of them, the first so many */
    double mean_factor; /* SCF or k; 0: no allowance */
    int64_t allowed;
} sample;

static sample us_sample(int64_t lot_count)
{
    /* Handbook 133, category A: by the number of packages weighed. */
    static const double factor[] = {0,     0,     8.985, 2.484, 1.591,
                                    1.242, 1.05,  0.925, 0.836, 0.769,
                                    0.715, 0.672, 0.635};
    if (lot_count > 3200)
        return (sample){48, 48, 0.291, 1};
    if (lot_count > 250)
        return (sample){24, 24, 0.422, 0};
    size_t n = lot_count < 12 ? (size_t)lot_count : 12;
    return (sample){n, n, factor[n], 0};
}

static sample eu_sample(int64_t lot_count)
{
    if (lot_count < 100)
        return (sample){(size_t)lot_count, (size_t)lot_count, 0,
                        lot_count * 5 / 100};
    if (lot_count <= 500)
        return (sample){50, 30, 0.503, 3};
    if (lot_count <= 3200)
        return (sample){80, 50, 0.379, 5};
    return (sample){125, 50, 0.379, 7};
}

static void set_mean(const dw_net_weight_request *request, size_t count,
                     dw_net_weight_reply *out)
{
    double sum = 0, squares = 0;
    for (size_t i = 0; i < count; i++)
        sum += request->contents_kg[i] - request->label_kg;
    out->mean_error_kg = sum / (double)count;
    for (size_t i = 0; i < count; i++) {
        double off =
            request->contents_kg[i] - request->label_kg - out->mean_error_kg;
        squares += off * off;
    }
    out->deviation_kg = sqrt(squares / (double)(count - 1));
}

/* Of the first `count`, how many are short by more than `allowed_kg`. A
 * millionth of a gram is how numbers are kept. */
static int64_t count_short(const dw_net_weight_request *request, size_t count,
                           double allowed_kg)
{
    int64_t found = 0;
    for (size_t i = 0; i < count; i++)
        found +=
            request->label_kg - request->contents_kg[i] > allowed_kg + 1e-9;
    return found;
}

static void set_own_rules(const dw_net_weight_request *request,
                          dw_net_weight_reply *out)
{
    size_t count = request->contents_kg_count;
    double tolerable_kg = dw_net_weight_eu_tolerable_kg(request->label_kg);
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += request->contents_kg[i];
    out->own_mean_passes = sum / (double)count >= request->label_kg - 1e-9;
    out->own_short_passes = (double)count_short(request, count, tolerable_kg) <=
                            0.025 * (double)count;
    out->own_very_short_passes =
        count_short(request, count, 2 * tolerable_kg) == 0;
}

dw_status dw_net_weight_check(const dw_net_weight_request *request, dw_err *err,
                              dw_net_weight_reply *reply)
{
    bool eu = request->rule == DW_NET_WEIGHT_EU_76_211;
    size_t count = request->contents_kg_count;
    int64_t most = request->lot_count < DW_NET_WEIGHT_PACKAGES
                       ? request->lot_count
                       : DW_NET_WEIGHT_PACKAGES;
    if (count < 2 || (int64_t)count > most)
        return dw_fail_range(err, "contents_kg", (double)count, 2,
                             (double)most);
    if (eu)
        DW_TRY(dw_check_range(err, "label_kg", request->label_kg, 0.005, 25));
    sample s =
        eu ? eu_sample(request->lot_count) : us_sample(request->lot_count);
    dw_net_weight_reply out = {.packages_needed = (int64_t)s.packages,
                               .short_allowed = s.allowed};
    out.enough = count >= s.packages;
    size_t weighed = out.enough ? s.packages : count;
    set_mean(request, weighed < s.for_mean ? weighed : s.for_mean, &out);
    out.mean_limit_kg = s.mean_factor * out.deviation_kg;
    out.tolerance_kg = eu ? dw_net_weight_eu_tolerable_kg(request->label_kg)
                          : dw_net_weight_us_allowed_kg(request->label_kg);
    out.short_count = count_short(request, weighed, out.tolerance_kg);
    if (eu)
        out.very_short_count =
            count_short(request, weighed, 2 * out.tolerance_kg);
    out.mean_passes = out.mean_error_kg >= -out.mean_limit_kg - 1e-9;
    out.singles_pass =
        out.short_count <= out.short_allowed && out.very_short_count == 0;
    out.passes = out.enough && out.mean_passes && out.singles_pass;
    set_own_rules(request, &out);
    *reply = out;
    return DW_OK;
}
