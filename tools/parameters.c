/* Writes docs/models/parameters.md from the tables in ferment.h and
 * constants.h:
 *     build/tools/parameters > docs/models/parameters.md
 */
#include "doughwright/constants.h"
#include "doughwright/ferment.h"

#include <stdio.h>

static void number(double value)
{
    char text[32];
    dw_text_number(text, sizeof text, value, 9);
    fputs(text, stdout);
}

static void row(const dw_field *field, const dw_ferment_parameter *range)
{
    printf("| `%s` | ", field->name);
    number(field->preset);
    if (range->high > range->low) {
        fputs(" (", stdout);
        number(range->low);
        fputs(" to ", stdout);
        number(range->high);
        fputs(")", stdout);
    }
    fputs(" | ", stdout);
    number(field->low);
    fputs(" to ", stdout);
    number(field->high);
    printf(" | %s | %s | %s | %s |\n", field->unit, field->about, range->source,
           range->confidence);
}

/* How a value was come by is what one may think of it. */
static void constants(void)
{
    static const char *const marks[] = {"read in the source", "from memory",
                                        "computed from other values"};
    size_t count;
    const dw_constant *all = dw_constants(&count);
    puts("\n## Constants of nature and of the trade\n\n"
         "Written from the table in `include/doughwright/constants.h`. In "
         "brackets: where sources or practice put it. The keys are those of "
         "[sources.md](../sources.md).\n\n"
         "| name | value (range) | unit | meaning | source | known |\n"
         "|---|---|---|---|---|---|");
    for (size_t i = 0; i < count; i++) {
        printf("| `%s` | ", all[i].symbol);
        number(all[i].value);
        fputs(" (", stdout);
        number(all[i].low);
        fputs(" to ", stdout);
        number(all[i].high);
        printf(") | %s | %s | %s | %s |\n", all[i].unit, all[i].meaning,
               all[i].source, marks[all[i].mark]);
    }
}

int main(void)
{
    size_t count;
    const dw_ferment_source *sources = dw_ferment_sources(&count);
    puts("# Parameters\n\n## Of fermentation\n\n"
         "Written by `tools/parameters.c` from the table in "
         "`include/doughwright/ferment.h`; a test holds the two together.\n"
         "The names are those of the `model` member of `piece.life`. In "
         "brackets: the range the band is drawn from. A parameter without one "
         "has\nno published range: it is not varied, which makes the band "
         "too narrow by what nobody has measured. *Allowed* is what an "
         "override may be.\n\n"
         "| name | value (range) | allowed | unit | meaning | source | "
         "confidence |\n|---|---|---|---|---|---|---|");
    for (size_t i = 0; i < DW_FERMENT_PARAMETER_COUNT; i++)
        row(&dw_ferment_model_shape.fields[i], &dw_ferment_parameters[i]);
    puts("\n## Sources\n\n| key | source |\n|---|---|");
    for (size_t i = 0; i < count; i++)
        printf("| %s | %s |\n", sources[i].key, sources[i].citation);
    constants();
    return 0;
}
