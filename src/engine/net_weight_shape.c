#include "doughwright/net_weight.h"

static const char *const rule_words[] = {"us_handbook_133", "eu_76_211", NULL};

static const dw_field request_fields[] = {
    DW_F_CHOICE(dw_net_weight_request, rule, rule_words, "which law's test"),
    DW_F_REAL(dw_net_weight_request, label_kg, "kg", 0.001, 1000,
              "what the label says"),
    DW_F_WHOLE(dw_net_weight_request, lot_count, "", 2, 1e9,
               "packages in the lot"),
    DW_F_REALS(dw_net_weight_request, contents_kg, "kg", 0, 2000,
               "net, drawn at random, in order, at most 500"),
};
const dw_shape dw_net_weight_request_shape =
    DW_SHAPE("net_weight_request", dw_net_weight_request, request_fields,
             "packages of a lot that were weighed");

static const dw_field reply_fields[] = {
    DW_F_WHOLE(dw_net_weight_reply, packages_needed, "", 2, 1e9,
               "the first so many count"),
    DW_F_YES(dw_net_weight_reply, enough, false, "were so many weighed"),
    DW_F_REAL(dw_net_weight_reply, tolerance_kg, "kg", 0, 100,
              "one package may be short by"),
    DW_F_REAL(dw_net_weight_reply, mean_error_kg, "kg", -1000, 2000,
              "of those that count for the mean"),
    DW_F_REAL(dw_net_weight_reply, deviation_kg, "kg", 0, 2000, "of the same"),
    DW_F_REAL(dw_net_weight_reply, mean_limit_kg, "kg", 0, 2e4,
              "the mean may be short by"),
    DW_F_WHOLE(dw_net_weight_reply, short_count, "", 0, 500,
               "short by more than the tolerance"),
    DW_F_WHOLE(dw_net_weight_reply, short_allowed, "", 0, 500, "of them"),
    DW_F_WHOLE(dw_net_weight_reply, very_short_count, "", 0, 500,
               "short by more than twice that"),
    DW_F_YES(dw_net_weight_reply, mean_passes, false, "the mean's rule"),
    DW_F_YES(dw_net_weight_reply, singles_pass, false, "the packages' rule"),
    DW_F_YES(dw_net_weight_reply, passes, false, "both, of enough packages"),
    DW_F_YES(dw_net_weight_reply, own_mean_passes, false,
             "packer's own: mean at least the label"),
    DW_F_YES(dw_net_weight_reply, own_short_passes, false,
             "packer's own: at most 2.5 % short by more than the tolerable"),
    DW_F_YES(dw_net_weight_reply, own_very_short_passes, false,
             "packer's own: none by twice that"),
};
const dw_shape dw_net_weight_reply_shape = DW_SHAPE(
    "net_weight_reply", dw_net_weight_reply, reply_fields, "does the lot pass");
