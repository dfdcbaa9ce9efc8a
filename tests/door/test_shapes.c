/* Every request and reply of the table, filled at random within its ranges. */
#include "door/json.h"
#include "dw_test.h"

typedef struct filler {
    dw_arena *arena;
    unsigned long long seed;
} filler;

static void fill(filler *with, const dw_shape *shape, void *object);

static void *member(void *object, size_t offset)
{
    return (unsigned char *)object + offset;
}

static size_t below(filler *with, size_t n)
{
    return (size_t)(dw_test_bits(&with->seed) % n);
}

/* Now and then a limit itself. */
static double real_of(filler *with, const dw_field *field)
{
    double low = fmax(field->low, -1e12), high = fmin(field->high, 1e12);
    switch (below(with, 6)) {
    case 0: return low;
    case 1: return high;
    default: return dw_test_between(&with->seed, low, high);
    }
}

static int64_t whole_of(filler *with, const dw_field *field)
{
    double value = floor(real_of(with, field));
    return (int64_t)fmax(value, ceil(fmax(field->low, -1e12)));
}

static const char *text_of(filler *with, const dw_field *field)
{
    static const char *const parts[] = {
        "a", " ", "\"", "\\", "\n", "\x01", "\xc3\xa9", "\xf0\x9f\x8d\x95"};
    size_t least = (size_t)field->low, most = (size_t)field->high;
    if (!field->required && below(with, 3) == 0)
        return NULL;
    size_t wanted = least + below(with, 8);
    char *text = dw_arena_take(with->arena, wanted + 5);
    size_t used = 0;
    while (text && used < wanted) {
        const char *part = parts[below(with, DW_COUNT(parts))];
        if (used + strlen(part) > most)
            part = "b";
        if (used + 1 > most)
            break;
        strcpy(text + used, part);
        used += strlen(part);
    }
    return text;
}

static void fill_list(filler *with, const dw_field *field, void *object)
{
    bool many = field->kind == DW_MANY;
    size_t least = many ? (size_t)field->low : field->required;
    size_t most = many ? (size_t)fmin(field->high, (double)least + 2) : 3;
    size_t n = least + (most > least ? below(with, most - least + 1) : 0);
    size_t bytes = many ? field->shape->bytes : sizeof(double);
    unsigned char *items = dw_arena_take(with->arena, n * bytes);
    DW_ASSERT(items != NULL);
    for (size_t i = 0; i < n; i++) {
        void *item = items + i * bytes;
        if (many)
            fill(with, field->shape, item);
        else if (field->kind == DW_REALS)
            *(double *)item = real_of(with, field);
        else
            *(int64_t *)item = whole_of(with, field);
    }
    *(void **)member(object, field->offset) = items;
    *(size_t *)member(object, field->count) = n;
}

static size_t words_of(const dw_field *field)
{
    size_t n = 0;
    while (field->words[n])
        n++;
    return n;
}

static void fill_member(filler *with, const dw_field *field, void *object)
{
    void *at = member(object, field->offset);
    switch (field->kind) {
    case DW_REAL: *(double *)at = real_of(with, field); break;
    case DW_WHOLE: *(int64_t *)at = whole_of(with, field); break;
    case DW_YES: *(bool *)at = below(with, 2); break;
    case DW_TEXT: *(const char **)at = text_of(with, field); break;
    case DW_CHOICE: *(int *)at = (int)below(with, words_of(field)); break;
    case DW_ONE: fill(with, field->shape, at); break;
    case DW_REALS:
    case DW_WHOLES:
    case DW_MANY: fill_list(with, field, object); break;
    }
}

static void fill(filler *with, const dw_shape *shape, void *object)
{
    dw_shape_preset(shape, object);
    for (size_t i = 0; i < shape->count; i++) /* two members may share one */
        if (shape->fields[i].has != DW_NOWHERE)
            *(bool *)member(object, shape->fields[i].has) = below(with, 2);
    for (size_t i = 0; i < shape->count; i++)
        if (dw_field_has(&shape->fields[i], object))
            fill_member(with, &shape->fields[i], object);
}

static void there_and_back(const char *op, const dw_shape *shape, int times)
{
    static unsigned char block[8 << 20];
    filler with = {.seed = 7};
    for (int i = 0; i < times; i++) {
        dw_arena arena;
        dw_arena_init(&arena, block, sizeof block);
        with.arena = &arena;
        void *object = dw_arena_take(&arena, shape->bytes);
        void *back = dw_arena_take(&arena, shape->bytes);
        NEED(object && back);
        fill(&with, shape, object);
        const char *first = "", *second = "";
        size_t bytes = 0, again = 0;
        dw_err err = {.field = ""};
        bool same =
            dw_json_encode(shape, object, &arena, &first, &bytes) == DW_OK &&
            dw_json_decode(shape, first, bytes, &arena, back, &err) == DW_OK &&
            dw_json_encode(shape, back, &arena, &second, &again) == DW_OK &&
            strcmp(first, second) == 0;
        if (!same) {
            dw_test_fail(__FILE__, __LINE__, "%s, %s.%s: %s", op, shape->name,
                         err.field, dw_status_code(err.status));
            return;
        }
    }
}

TEST(every_shape_of_the_door_goes_there_and_back, LIMIT,
     "round trip, 20 random objects each")
{
    size_t count;
    const dw_op *ops = dw_ops(&count);
    for (size_t i = 0; i < count; i++) {
        there_and_back(ops[i].name, ops[i].request, 20);
        there_and_back(ops[i].name, ops[i].reply, 20);
    }
}
