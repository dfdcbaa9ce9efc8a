#include "businesses.h"

#include "app/demo.h"

/* Balls to have in a mean week of examples/commissary/shop.yaml; the demo sells
 * 0.62 of them. */
static const double weeks[] = {1120, 540, 355, 312, 324, 132, 164};
enum { PRODUCTS = 7, OUTLETS = 4 };

void business_of_demo(made_business *b, unsigned long long seed)
{
    *b = (made_business){.name = "demo",
                         .first_day = 20780 - BUSINESS_DAYS + 1,
                         .series = PRODUCTS,
                         .begins = BUSINESS_DAYS - DW_DEMO_DAYS,
                         .closed_weekday = -1,
                         .events = {{"new year", 1, 1, 1, false},
                                    {"valentine", 2, 14, 1, false},
                                    {"fourth", 7, 4, 1, false},
                                    {"lanterns", 10, 31, 1, false},
                                    {"the eve", 12, 24, 1, false},
                                    {"christmas", 12, 25, 0, true},
                                    {"last night", 12, 31, 1, false}},
                         .events_count = 7};
    for (size_t p = 0; p < PRODUCTS; p++) {
        dw_demo_place place = {.seed = seed,
                               .last_day = 20780,
                               .balls = 0.62 * weeks[p] / 7,
                               .product = p,
                               .outlets = OUTLETS};
        for (place.outlet = 0; place.outlet < OUTLETS; place.outlet++)
            for (int d = b->begins; d < BUSINESS_DAYS; d++) {
                bool out;
                b->sold[p][d] += dw_demo_sold(&place, b->first_day + d, &out);
                b->sold_out[p][d] |= out;
                b->wanted[p][d] = b->sold[p][d];
            }
    }
}
