/* What the program says about itself. */
#include "app/op.h"

typedef struct operation {
    const char *name;
    int kind;
    const char *about;
} operation;

typedef struct about {
    const char *version;
    operation *operations;
    size_t operations_count;
} about;

/* In the order of dw_op_kind. */
static const char *const kind_words[] = {"pure", "read", "write", NULL};

static const dw_field operation_fields[] = {
    DW_F_TEXT(operation, name, 60, "its name, NOUN.VERB"),
    DW_F_CHOICE(operation, kind, kind_words,
                "pure needs no database; write changes it"),
    DW_F_TEXT(operation, about, 400, "what it does"),
};
static const dw_shape operation_shape =
    DW_SHAPE("operation", operation, operation_fields, "one operation");

static const dw_field about_fields[] = {
    DW_F_TEXT(about, version, 40, "the program's version"),
    DW_F_MANY(about, operations, &operation_shape, 1, 256,
              "all operations, by name"),
};
static const dw_shape about_shape =
    DW_SHAPE("program_about", about, about_fields, "the program");

static dw_status run_about(dw_call *call, const void *request, void *reply)
{
    about *out = reply;
    size_t count;
    const dw_op *ops = dw_ops(&count);
    operation *list = DW_NEW_ARRAY(call->arena, operation, count);
    if (!list)
        return dw_fail(call->err, DW_E_ROOM, "operations", NULL);
    for (size_t i = 0; i < count; i++)
        list[i] = (operation){
            ops[i].name, dw_op_is_pure(&ops[i]) ? DW_OP_PURE : (int)ops[i].kind,
            ops[i].about};
    out->version = DW_VERSION;
    out->operations = list;
    out->operations_count = count;
    return DW_OK;
}

const dw_op dw_ops_program[] = {
    {"program.about", DW_OP_PURE, &dw_nothing_shape, &about_shape, run_about,
     "The program's version and the list of its operations."},
};
const size_t dw_ops_program_count = DW_COUNT(dw_ops_program);
