#include "app/pulls.h"

#include <stdlib.h>
#include <string.h>

typedef struct account {
    dw_stock_row *stock;
    dw_stack *stacks;
    dw_stack_moved *moved;
    size_t stock_count, stacks_count, moved_count;
} account;

static int64_t oldest_day(const account *a)
{
    int64_t day = a->stock_count > 0 ? a->stock[0].mixing_day : 0;
    for (size_t i = 1; i < a->stock_count; i++)
        if (a->stock[i].mixing_day < day)
            day = a->stock[i].mixing_day;
    return day;
}

static dw_status read_account(dw_call *call, account *a)
{
    DW_TRY(dw_store_stock(call->store, call->arena, &a->stock, &a->stock_count,
                          call->err));
    if (a->stock_count == 0)
        return DW_OK;
    int64_t day = oldest_day(a);
    DW_TRY(dw_store_stacks_since(call->store, day, call->arena, &a->stacks,
                                 &a->stacks_count, call->err));
    return dw_store_stacks_moved(call->store, day, call->arena, &a->moved,
                                 &a->moved_count, call->err);
}

static int by_stack(const void *a, const void *b)
{
    int64_t left = *(const int64_t *)a;
    int64_t right = ((const dw_stack_moved *)b)->stack_id;
    return (left > right) - (left < right);
}

static dw_stack_left left_of(const account *a, const dw_stack *stack)
{
    const dw_stack_moved *row = NULL;
    if (a->moved_count > 0)
        row = bsearch(&stack->id, a->moved, a->moved_count, sizeof *row,
                      by_stack);
    int64_t moved = row ? row->balls : 0, counted = row ? row->assumed : 0;
    int64_t left = stack->balls - moved;
    return (dw_stack_left){.stack = *stack,
                           .left = left > 0 ? left : 0,
                           .assumed = counted != 0,
                           .moved = moved - counted};
}

/* Give back what earlier counts took, then what is over to the last. */
static void give_back(dw_stack_left *group, size_t count, int64_t over)
{
    for (size_t i = count; i > 0 && over > 0; i--) {
        dw_stack_left *one = &group[i - 1];
        int64_t taken = one->stack.balls - one->moved - one->left;
        int64_t back = taken < over ? taken : over;
        if (back <= 0)
            continue;
        one->left += back;
        one->assumed = true;
        over -= back;
    }
    group[count - 1].left += over;
    group[count - 1].assumed |= over > 0;
}

/* Take `missing` from the first stacks; below 0, some are over. */
static void reconcile(dw_stack_left *group, size_t count, int64_t missing)
{
    for (size_t i = 0; i < count && missing > 0; i++) {
        int64_t gone = missing < group[i].left ? missing : group[i].left;
        group[i].left -= gone;
        group[i].assumed |= gone > 0;
        missing -= gone;
    }
    if (missing < 0)
        give_back(group, count, -missing);
}

/* Stacks of one product and mixing day; `stacks` are sorted by both. */
static size_t add_group(const account *a, const dw_stock_row *row, size_t *next,
                        dw_stack_left *group)
{
    size_t n = 0;
    int64_t held = 0;
    for (; *next < a->stacks_count; ++*next) {
        const dw_stack *stack = &a->stacks[*next];
        if (stack->product_id > row->product_id ||
            (stack->product_id == row->product_id &&
             stack->mixing_day > row->mixing_day))
            break;
        if (stack->product_id != row->product_id ||
            stack->mixing_day != row->mixing_day)
            continue;
        group[n] = left_of(a, stack);
        held += group[n++].left;
    }
    if (n == 0)
        group[n++] = (dw_stack_left){.stack = {.product_id = row->product_id,
                                               .mixing_day = row->mixing_day}};
    reconcile(group, n, held - row->balls);
    return n;
}

dw_status dw_stacks_counted(dw_call *call, dw_stack_left **stacks,
                            size_t *count)
{
    account a = {0};
    DW_TRY(read_account(call, &a));
    dw_stack_left *list = DW_NEW_ARRAY(call->arena, dw_stack_left,
                                       a.stacks_count + a.stock_count + 1);
    if (!list)
        return dw_fail(call->err, DW_E_ROOM, "stacks", NULL);
    size_t n = 0, next = 0;
    for (size_t i = 0; i < a.stock_count; i++) {
        size_t added = add_group(&a, &a.stock[i], &next, list + n), kept = 0;
        for (size_t j = 0; j < added; j++)
            if (list[n + j].left > 0)
                list[n + kept++] = list[n + j];
        n += kept;
    }
    *stacks = list;
    *count = n;
    return DW_OK;
}

static dw_status copy(dw_call *call, const dw_stack_left *from, size_t count,
                      dw_stack_left **to)
{
    *to = DW_NEW_ARRAY(call->arena, dw_stack_left, count + 1);
    if (!*to)
        return dw_fail(call->err, DW_E_ROOM, "stacks", NULL);
    memcpy(*to, from, count * sizeof **to);
    return DW_OK;
}

dw_status dw_stacks_keep(dw_call *call, const dw_stack_left *stacks,
                         size_t count)
{
    dw_stacks_kept *kept = call->stacks;
    if (!kept)
        return DW_OK;
    DW_TRY(copy(call, stacks, count, &kept->stacks));
    kept->count = count;
    kept->known = true;
    return DW_OK;
}

dw_status dw_stacks_assumed(dw_call *call, dw_stack_left **stacks,
                            size_t *count)
{
    const dw_stacks_kept *kept = call->stacks;
    if (kept && kept->known) {
        *count = kept->count;
        return copy(call, kept->stacks, kept->count, stacks);
    }
    DW_TRY(dw_stacks_counted(call, stacks, count));
    DW_TRY(dw_pulls_run_down(call, *stacks, *count));
    return dw_stacks_keep(call, *stacks, *count);
}

dw_status dw_stacks_left(dw_call *call, dw_stack_left **stacks, size_t *count)
{
    size_t kept = 0;
    DW_TRY(dw_stacks_assumed(call, stacks, count));
    for (size_t i = 0; i < *count; i++)
        if ((*stacks)[i].left > 0)
            (*stacks)[kept++] = (*stacks)[i];
    *count = kept;
    return DW_OK;
}

/* ---- a count is booked --------------------------------------------------- */

static bool is_counted(const dw_count_line *lines, size_t n, int64_t product_id)
{
    for (size_t i = 0; i < n; i++)
        if (lines[i].product_id == product_id)
            return true;
    return false;
}

static int64_t left_in(const dw_stack_left *left, size_t n, int64_t stack_id)
{
    for (size_t i = 0; i < n; i++)
        if (left[i].stack.id == stack_id)
            return left[i].left;
    return 0;
}

dw_status dw_stacks_book_count(dw_call *call, const dw_count_line *lines,
                               size_t lines_count)
{
    account a = {0};
    dw_stack_left *left;
    size_t n;
    DW_TRY(dw_stacks_counted(call, &left, &n));
    DW_TRY(dw_store_stacks_since(call->store, 0, call->arena, &a.stacks,
                                 &a.stacks_count, call->err));
    DW_TRY(dw_store_stacks_moved(call->store, 0, call->arena, &a.moved,
                                 &a.moved_count, call->err));
    for (size_t i = 0; i < a.stacks_count; i++) {
        const dw_stack *stack = &a.stacks[i];
        if (!is_counted(lines, lines_count, stack->product_id))
            continue;
        int64_t told = left_of(&a, stack).left;
        int64_t there = left_in(left, n, stack->id);
        dw_stack_move move = {.stack_id = stack->id,
                              .kind = DW_MOVE_COUNT_DIFFERENCE,
                              .balls = told - there,
                              .assumed = true,
                              .occurred_ms = call->occurred_ms,
                              .person_id = call->person_id};
        if (move.balls != 0)
            DW_TRY(dw_row_save(call, "stack_move", &dw_stack_move_noun, &move,
                               NULL));
    }
    return DW_OK;
}
