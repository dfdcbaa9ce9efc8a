/* Net weight of dough sold by weight: may this lot go out?
 *
 * US Handbook 133. A lot is sampled by its size. It passes when
 *     mean error >= -SEL,  SEL = SCF s                                   (1)
 *     no more packages than allowed are short by more than the MAV       (2)
 * EU 76/211/EEC and the UK's reference test. With TNE the tolerable negative
 * error of the label's content Q:
 *     mean >= Q - k s of the sample for the mean                         (3)
 *     no more packages than accepted lie below Q - TNE                   (4)
 *     none lies below Q - 2 TNE                                          (5)
 * Lots below 100 are weighed whole: mean >= Q, no more than 5 % by (4).
 *
 * Beside the verdict stand the packer's own three rules on what was weighed:
 * mean at least Q, at most 2.5 % below Q - TNE, none below Q - 2 TNE.
 *
 * Tables: SCF and sample sizes of Handbook 133 category A (read in part; 48
 * packages from memory); MAV from memory; TNE of 76/211 annex I and the
 * reference test of SI 2006/659 read. 5 g to 25 kg in the EU; catch-weight
 * goods are outside. The inspection is the authority's, the arithmetic ours:
 * check the rule in force.
 */
#ifndef DOUGHWRIGHT_NET_WEIGHT_H
#define DOUGHWRIGHT_NET_WEIGHT_H

#include "doughwright/field.h"

enum { DW_NET_WEIGHT_PACKAGES = 500 };

typedef enum dw_net_weight_rule {
    DW_NET_WEIGHT_US_HANDBOOK_133,
    DW_NET_WEIGHT_EU_76_211
} dw_net_weight_rule;

typedef struct dw_net_weight_request {
    int rule;            /* dw_net_weight_rule */
    double label_kg;     /* what the label says, 0.001 to 1000 */
    int64_t lot_count;   /* packages in the lot */
    double *contents_kg; /* net, as drawn: at random, in this order */
    size_t contents_kg_count;
} dw_net_weight_request;

typedef struct dw_net_weight_reply {
    int64_t
        packages_needed;  /* the sample of the rule; the first so many count */
    bool enough;          /* were so many weighed? else no verdict */
    double tolerance_kg;  /* MAV or TNE */
    double mean_error_kg; /* of those that count for the mean */
    double deviation_kg;  /* sample standard deviation of the same */
    double mean_limit_kg; /* SEL or k s: the mean may be short by so much */
    int64_t short_count;  /* short by more than tolerance_kg */
    int64_t short_allowed;
    int64_t very_short_count; /* EU: short by more than twice that */
    bool mean_passes, singles_pass, passes;
    /* the packer's own three rules, of all that were weighed */
    bool own_mean_passes, own_short_passes, own_very_short_passes;
} dw_net_weight_reply;

extern const dw_shape dw_net_weight_request_shape, dw_net_weight_reply_shape;

/* kg that one package may be short. */
double dw_net_weight_us_allowed_kg(double label_kg);
double dw_net_weight_eu_tolerable_kg(double label_kg);

/* Fails with DW_E_RANGE: fewer than two or more than DW_NET_WEIGHT_PACKAGES
 * packages, or more than the lot has (contents_kg); a content out of 0 to
 * 2000 kg is the door's; a label outside the law's range (label_kg). */
dw_status dw_net_weight_check(const dw_net_weight_request *request, dw_err *err,
                              dw_net_weight_reply *reply);

#endif
