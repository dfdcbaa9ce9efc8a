/* The one door: every operation the program has, as one table.
 *
 * An operation is one function with a typed request and reply, each described
 * by a shape (doughwright/field.h). `doughwright call OP`, `POST /api/v1/OP`,
 * the pages and the human commands are thin skins over this table. */
#ifndef DW_APP_OP_H
#define DW_APP_OP_H

#include "doughwright/field.h"
#include "doughwright/hands.h"

typedef struct dw_solver dw_solver;           /* doughwright/solver.h */
typedef struct dw_store dw_store;             /* store/store.h */
typedef struct dw_life_kept dw_life_kept;     /* app/life_kept.h */
typedef struct dw_stacks_kept dw_stacks_kept; /* app/stacks.h */

/* What one call may use. Everything is borrowed for the length of the call. */
typedef struct dw_call {
    dw_arena *arena; /* reply lists and texts live here */
    dw_err *err;
    dw_store *store;     /* NULL when pure; inside a transaction for
                            DW_OP_WRITE, a snapshot for DW_OP_READ */
    int64_t now_ms;      /* the server's clock when the call arrived, UTC */
    int64_t occurred_ms; /* the device's own time for it; now_ms if not told */
    int64_t person_id;   /* who tapped, 0 when nobody said */
    const char *device;  /* which tablet, "" when unknown */
    const char *lang;    /* "en" or "es" */
    const dw_solver *solver; /* of mixed-integer programs; NULL: none */
    const dw_hands *hands;   /* for long work; NULL: this thread alone */
    dw_life_kept *kept;      /* lives to go on with; NULL: none */
    dw_stacks_kept *stacks;  /* what is there, once it was worked out in this
                                call; NULL: a call that may change it */
} dw_call;

typedef dw_status dw_op_run(dw_call *call, const void *request, void *reply);

typedef enum dw_op_kind {
    DW_OP_PURE, /* engine only: needs and creates no database */
    DW_OP_READ,
    DW_OP_WRITE, /* one transaction, journalled, idempotent by device and key */
    DW_OP_LIGHT  /* as DW_OP_PURE, and done in fewer microseconds than handing
                    it to another thread takes */
} dw_op_kind;

typedef struct dw_op {
    const char *name; /* "formula.scale" */
    dw_op_kind kind;
    const dw_shape *request, *reply;
    dw_op_run *run;
    const char *about; /* one sentence */
} dw_op;

static inline bool dw_op_is_pure(const dw_op *op)
{
    return op->kind == DW_OP_PURE || op->kind == DW_OP_LIGHT;
}

/* All operations, sorted by name, built once at start from the tables of the
 * src/app/ops_*.c files listed in src/app/ops.c. */
const dw_op *dw_ops(size_t *count);
const dw_op *dw_op_find(const char *name);

/* Run one: presets and checks are the door's, the transaction and the journal
 * are app.h's. A request that was not decoded by a door must be checked with
 * dw_shape_check first. */

/* An empty request or reply. */
extern const dw_shape dw_nothing_shape;
typedef struct dw_nothing {
    char unused;
} dw_nothing;

#endif
