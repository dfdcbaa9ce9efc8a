#include "doughwright/yeast.h"

static const dw_field table_fields[] = {
    DW_F_TEXT(dw_yeast_table, name, 80, "whose table it is"),
    DW_F_REAL(dw_yeast_table, fresh, "", 0.01, 10, "weight of fresh yeast"),
    DW_F_REAL(dw_yeast_table, active_dry, "", 0.01, 10,
              "weight of active dry yeast"),
    DW_F_REAL(dw_yeast_table, instant, "", 0.01, 10, "weight of instant yeast"),
};
const dw_shape dw_yeast_table_shape =
    DW_SHAPE("yeast_table", dw_yeast_table, table_fields,
             "weights of yeast that raise dough alike");

const dw_yeast_table dw_yeast_usual = {"usual practice", 1, 0.45, 0.35};

bool dw_line_kind_is_yeast(int kind)
{
    return kind == DW_YEAST_FRESH || kind == DW_YEAST_ACTIVE_DRY ||
           kind == DW_YEAST_INSTANT;
}

double dw_yeast_weight(const dw_yeast_table *table, int kind)
{
    DW_ASSERT(dw_line_kind_is_yeast(kind));
    return kind == DW_YEAST_FRESH        ? table->fresh
           : kind == DW_YEAST_ACTIVE_DRY ? table->active_dry
                                         : table->instant;
}

double dw_yeast_convert(const dw_yeast_table *table, double amount, int from,
                        int to)
{
    return amount * dw_yeast_weight(table, to) / dw_yeast_weight(table, from);
}
