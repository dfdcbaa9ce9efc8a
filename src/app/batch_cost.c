/* What a batch costs in materials, and what its label must declare. */
#include "app/batches.h"

#include <math.h>
#include <string.h>

static const dw_material *named(const dw_material *list, size_t count,
                                const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (list[i].here && dw_text_is(list[i].name, name))
            return &list[i];
    return NULL;
}

/* Minor units of so much; NAN when no price or pack is known. Water of the
 * tap costs nothing here. */
static double cost_of(const dw_material *material, int kind, double kg)
{
    if (kind == DW_WATER)
        return 0;
    if (!material || !material->has_pack_kg || material->pack_price == 0)
        return (double)NAN;
    return kg / material->pack_kg * (double)material->pack_price;
}

/* Is `word` one of the comma-separated words of `list`? */
static bool declared(const char *list, const char *word, size_t bytes)
{
    for (const char *at = list; (at = strstr(at, word)) != NULL; at += bytes)
        if ((at == list || at[-1] == ' ' || at[-1] == ',') &&
            (at[bytes] == '\0' || at[bytes] == ','))
            return true;
    return false;
}

/* Add each word that is not there yet: "wheat" + "wheat, milk". */
static void declare(char *list, size_t room, const char *words)
{
    while (*words) {
        size_t n = strcspn(words, ","), used = strlen(list);
        char word[64];
        while (*words == ' ') {
            words++;
            n--;
        }
        if (n > 0 && n < sizeof word && used + n + 3 < room) {
            memcpy(word, words, n);
            word[n] = '\0';
            if (!declared(list, word, n)) {
                if (used > 0) {
                    memcpy(list + used, ", ", 3);
                    used += 2;
                }
                memcpy(list + used, word, n + 1);
            }
        }
        words += n;
        words += *words == ',';
    }
}

/* Release oil is the formula's first fat. */
static const char *release_oil(const dw_formula *formula)
{
    for (size_t i = 0; i < formula->lines_count; i++)
        if (formula->lines[i].kind == DW_FAT)
            return formula->lines[i].material;
    return NULL;
}

/* A preferment may hold what the dough's own lines do not name. */
static void declare_lines(const dw_material *materials, size_t n,
                          const dw_line *lines, size_t lines_count, char *list,
                          size_t room)
{
    for (size_t i = 0; i < lines_count; i++) {
        const dw_material *one = named(materials, n, lines[i].material);
        if (one && one->allergens && lines[i].percent > 0)
            declare(list, room, one->allergens);
    }
}

dw_status dw_card_declare(dw_call *call, const dw_formula *formula,
                          dw_card *card)
{
    dw_material *materials;
    size_t n;
    double cost = 0;
    enum { ROOM = 500 };
    char *allergens = dw_arena_take(call->arena, ROOM);
    if (!allergens)
        return dw_fail(call->err, DW_E_ROOM, "batch", NULL);
    DW_TRY(dw_rows_get(call, "material", &dw_material_noun, NULL, 0, "id",
                       &materials, &n));
    for (size_t i = 0; i < formula->lines_count; i++) {
        const dw_line *line = &formula->lines[i];
        const dw_material *one = named(materials, n, line->material);
        cost += cost_of(one, line->kind,
                        card->batch.flour_kg * line->percent / 100);
    }
    declare_lines(materials, n, formula->lines, formula->lines_count, allergens,
                  ROOM);
    for (size_t i = 0; i < formula->stages_count; i++)
        declare_lines(materials, n, formula->stages[i].lines,
                      formula->stages[i].lines_count, allergens, ROOM);
    for (size_t i = 0; i < card->steps_count; i++)
        if (card->steps[i].step.kind == DW_STEP_OIL_BOWL)
            card->totals.release_oil_kg += card->steps[i].step.kg;
    if (card->totals.release_oil_kg > 0)
        cost += cost_of(named(materials, n, release_oil(formula)), DW_FAT,
                        card->totals.release_oil_kg);
    card->totals.cost_complete = !isnan(cost);
    if (!isnan(cost))
        card->totals.cost_minor = (int64_t)(cost + 0.5);
    card->totals.allergens = *allergens ? allergens : NULL;
    return DW_OK;
}
