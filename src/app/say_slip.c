#include "app/say_slip.h"

#include "doughwright/say.h"

const char *dw_say_kind(const char *lang, int kind)
{
    static const char *const kinds[] = {
        [DW_FLOUR] = DW_MSG("flour"),
        [DW_WATER] = DW_MSG("water"),
        [DW_SALT] = DW_MSG("salt"),
        [DW_SUGAR] = DW_MSG("sugar"),
        [DW_FAT] = DW_MSG("fat"),
        [DW_YEAST_FRESH] = DW_MSG("fresh yeast"),
        [DW_YEAST_ACTIVE_DRY] = DW_MSG("active dry yeast"),
        [DW_YEAST_INSTANT] = DW_MSG("instant yeast"),
        [DW_MALT] = DW_MSG("malt"),
        [DW_GLUTEN] = DW_MSG("gluten"),
        [DW_DAIRY] = DW_MSG("dairy"),
        [DW_DOUGH] = DW_MSG("old dough"),
        [DW_OTHER] = DW_MSG("other"),
    };
    return dw_say_sentence(lang, kinds[kind]);
}

static const char *slip_sentence(const dw_slip *slip)
{
    static const char *const sentences[] = {
        [DW_SLIP_MISSING] = DW_MSG("no {kind}. Usual here: {low}–{high} %"),
        [DW_SLIP_TENTH] =
            DW_MSG("{material} {percent} %: a tenth of what is usual for "
                   "{dough}. Usual here: {low}–{high} %"),
        [DW_SLIP_TENFOLD] =
            DW_MSG("{material} {percent} %: ten times what is usual for "
                   "{dough}. Usual here: {low}–{high} %"),
        [DW_SLIP_YEAST_TYPE] =
            DW_MSG("{material} {percent} %: a usual amount of {other}, not of "
                   "{kind}. Usual here: {low}–{high} %"),
        [DW_SLIP_SWAPPED] =
            DW_MSG("{material} {percent} %: exchanged with {other}? Both are "
                   "usual the other way round"),
        [DW_SLIP_TWICE] =
            DW_MSG("{material} {percent} %: about twice what is usual for "
                   "{dough}. In twice, or pounds for kilograms? Usual here: "
                   "{low}–{high} %"),
        [DW_SLIP_HALF] =
            DW_MSG("{material} {percent} %: about half of what is usual for "
                   "{dough}. Pounds for kilograms? Usual here: {low}–{high} %"),
        [DW_SLIP_LOW] =
            DW_MSG("{material} {percent} %: less than is usual for {dough}. "
                   "Usual here: {low}–{high} %"),
        [DW_SLIP_HIGH] =
            DW_MSG("{material} {percent} %: more than is usual for {dough}. "
                   "Usual here: {low}–{high} %"),
        [DW_SLIP_REPEATED] =
            DW_MSG("{material} {percent} %: {kind} stands here twice, also as "
                   "{other}"),
        [DW_SLIP_TWO_YEASTS] =
            DW_MSG("{material} and {other}: two types of yeast in one formula"),
    };
    return sentences[slip->code];
}

static const char *dough_words(const dw_slip_basis *basis)
{
    static const char *const doughs[] = {
        [DW_COLD] = DW_MSG("cold dough"),
        [DW_SAME_DAY] = DW_MSG("same-day dough"),
        [DW_EMERGENCY] = DW_MSG("emergency dough"),
        [DW_FROZEN] = DW_MSG("frozen dough"),
    };
    return basis->norm ? DW_MSG("your own formula") : doughs[basis->process];
}

/* Three digits say enough of what is usual. */
static double shortened(double value)
{
    double scale = 1;
    while (value > 0 && value * scale < 10)
        scale *= 10;
    return (double)(long long)(value * scale + 0.5) / scale;
}

const char *dw_say_slip(dw_arena *arena, const char *lang, const dw_slip *slip,
                        const dw_slip_basis *basis)
{
    const char *kind = dw_say_kind(lang, slip->kind);
    const char *other = slip->code == DW_SLIP_YEAST_TYPE || !slip->other
                            ? dw_say_kind(lang, slip->other_kind)
                            : slip->other;
    const dw_value values[] = {
        DW_VALUE_TEXT("material", slip->material ? slip->material : kind),
        DW_VALUE_NUMBER("percent", slip->percent),
        DW_VALUE_TEXT("kind", kind),
        DW_VALUE_TEXT("other", other),
        DW_VALUE_TEXT("dough", dw_say_sentence(lang, dough_words(basis))),
        DW_VALUE_NUMBER("low", shortened(slip->usual_low)),
        DW_VALUE_NUMBER("high", shortened(slip->usual_high)),
    };
    return dw_say_in(arena, lang, slip_sentence(slip), values,
                     DW_COUNT(values));
}

static const char *weighing_sentence(const dw_weighing *weighing)
{
    static const char *const sentences[] = {
        [DW_WEIGHED_FITS] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: it fits"),
        [DW_WEIGHED_LB_FOR_OZ] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: pounds "
                   "for ounces?"),
        [DW_WEIGHED_OZ_FOR_LB] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: ounces "
                   "for pounds?"),
        [DW_WEIGHED_KG_FOR_LB] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: "
                   "kilograms for pounds?"),
        [DW_WEIGHED_LB_FOR_KG] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: pounds "
                   "for kilograms?"),
        [DW_WEIGHED_OZ_FOR_G] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: ounces "
                   "for grams?"),
        [DW_WEIGHED_G_FOR_OZ] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: grams "
                   "for ounces?"),
        [DW_WEIGHED_KG_FOR_G] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: "
                   "kilograms for grams?"),
        [DW_WEIGHED_G_FOR_KG] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: grams "
                   "for kilograms?"),
        [DW_WEIGHED_TENFOLD] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: ten "
                   "times too much?"),
        [DW_WEIGHED_TENTH] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: only a "
                   "tenth?"),
        [DW_WEIGHED_TWICE] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: in "
                   "twice?"),
        [DW_WEIGHED_HALF] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: only "
                   "half?"),
        [DW_WEIGHED_MORE] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: more "
                   "than planned"),
        [DW_WEIGHED_LESS] =
            DW_MSG("{material}: weighed {weighed}, planned {planned}: less "
                   "than planned"),
    };
    return sentences[weighing->code];
}

const char *dw_say_weighing(dw_arena *arena, const char *lang,
                            const char *material, double planned_kg,
                            double weighed_kg, const dw_weighing *weighing,
                            dw_units_choice units)
{
    char planned[40], weighed[40];
    dw_quantity_print(planned, sizeof planned, planned_kg, DW_MASS, units);
    dw_quantity_print(weighed, sizeof weighed, weighed_kg, DW_MASS, units);
    const dw_value values[] = {
        DW_VALUE_TEXT("material", material),
        DW_VALUE_TEXT("weighed", weighed),
        DW_VALUE_TEXT("planned", planned),
    };
    return dw_say_in(arena, lang, weighing_sentence(weighing), values,
                     DW_COUNT(values));
}
