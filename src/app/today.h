/* The day as it stands: what to do next, what runs, what is in the cold room.
 */
#ifndef DW_APP_TODAY_H
#define DW_APP_TODAY_H

#include "app/stock.h"
#include "doughwright/life.h"

extern const char *const dw_todo_words[]; /* mix box close use_first count
                                             discard_minors look_at_cup
                                             pull check */
enum {
    DW_TODO_MIX,
    DW_TODO_BOX,
    DW_TODO_CLOSE,
    DW_TODO_USE_FIRST,
    DW_TODO_COUNT,
    DW_TODO_DISCARD_MINORS,
    DW_TODO_LOOK_AT_CUP,
    DW_TODO_PULL,
    DW_TODO_CHECK
};

extern const char *const dw_todo_by_words[]; /* life clock days */
enum {
    DW_BY_LIFE,  /* of the balls, from their readings and times */
    DW_BY_CLOCK, /* the trade's clock, a rule of thumb */
    DW_BY_DAYS   /* the shop's days */
};

/* One thing to do. */
typedef struct dw_todo {
    int kind;
    int64_t due_ms;
    int64_t batch_id, number, product_id; /* 0 when it is about none */
    const char *name;                     /* formula or product */
    int64_t balls, boxes;
    int64_t minors_lot_id;
    bool has_by;
    int by; /* what says so, where it is not the plan */
    int64_t check_id;
    bool wants_value; /* the check is a number to read */
} dw_todo;

/* A step that runs. */
typedef struct dw_timer {
    int64_t batch_id, number, step_id, started_ms;
    double minutes;
    bool has_minutes_to;
    double minutes_to;
    const char *says; /* the step in words */
} dw_timer;

typedef struct dw_agenda {
    int64_t now_ms, day, leaves_ms, counted_ms;
    dw_todo *next;  /* soonest first */
    dw_todo *dying; /* stacks past before the business day is over */
    dw_life_limits limits;
    dw_timer *timers;
    dw_reading_row *readings; /* newest flour, room, tap, cold room */
    dw_stock_line *stock;
    dw_batch_row *open; /* batches that still want something */
    size_t next_count, dying_count, timers_count, readings_count, stock_count,
        open_count;
} dw_agenda;

/* What today.get answers. */
dw_status dw_agenda_read(dw_call *call, dw_agenda *agenda);

#endif
