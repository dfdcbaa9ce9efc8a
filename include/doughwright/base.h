/* Doughwright, the foundation: statuses, errors, arenas.
 *
 * Every function that can fail returns a dw_status and leaves its outputs
 * untouched on failure; details go into the caller's dw_err. Nothing here
 * allocates, prints, reads a clock or keeps state.
 *
 * Ownership words used in all headers: borrowed (yours stays yours, must
 * outlive the call or the object named), copied, taken (ours from now on),
 * yours (free it or let your arena go).
 */
#ifndef DOUGHWRIGHT_BASE_H
#define DOUGHWRIGHT_BASE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* symbol, code in JSON, HTTP status, sentence (a message for the catalogue) */
#define DW_STATUS_LIST(X)                                                      \
    X(OK, "ok", 200, "done")                                                   \
    X(E_RANGE, "out_of_range", 422, "is outside the allowed range")            \
    X(E_MISSING, "missing", 422, "is required")                                \
    X(E_UNKNOWN_FIELD, "unknown_field", 400, "is not a field here")            \
    X(E_TYPE, "wrong_type", 400, "has the wrong type")                         \
    X(E_CHOICE, "not_a_choice", 422, "is not one of the allowed words")        \
    X(E_SYNTAX, "not_understood", 400, "could not be read")                    \
    X(E_UNIT, "wrong_unit", 422, "has a unit that does not fit")               \
    X(E_NO_FLOUR, "no_flour", 422, "has no flour, so percents mean nothing")   \
    X(E_SUM, "does_not_add_up", 422, "does not add up")                        \
    X(E_UNREACHABLE, "unreachable", 422, "cannot be reached")                  \
    X(E_NO_MODEL, "no_model", 422, "has no model; use the shop's date rule")   \
    X(E_USED, "already_used", 409, "is in use and cannot change")              \
    X(E_CONFLICT, "conflict", 409, "clashes with what is already there")       \
    X(E_NOT_FOUND, "not_found", 404, "was not found")                          \
    X(E_FORBIDDEN, "forbidden", 403, "is not allowed")                         \
    X(E_LOGIN, "login_needed", 401, "is needed; sign in first")                \
    X(E_METHOD, "wrong_method", 405, "does not work here")                     \
    X(E_MEDIA, "wrong_media_type", 415, "must be application/json")            \
    X(E_WAIT, "wait", 429, "was wrong too often; wait and try again")          \
    X(E_TOO_LARGE, "too_large", 413, "is too large")                           \
    X(E_ROOM, "out_of_room", 507,                                              \
      "needs more working memory than it was given")                           \
    X(E_STORE, "store_failed", 500,                                            \
      "could not be stored; nothing was changed")                              \
    X(E_IO, "io_failed", 500, "could not be read or written")                  \
    X(E_BUSY, "busy", 503, "is busy; try again")

typedef enum dw_status {
#define DW_STATUS_ENUM(symbol, code, http, sentence) DW_##symbol,
    DW_STATUS_LIST(DW_STATUS_ENUM)
#undef DW_STATUS_ENUM
        DW_STATUS_COUNT
} dw_status;

/* The code, HTTP status and sentence of a status. Static, borrowed. */
const char *dw_status_code(dw_status status);
int dw_status_http(dw_status status);
const char *dw_status_sentence(dw_status status);

/* One failure said once: which field, what was given, what is allowed.
 * low and high mean something only when `ranged`; `unit` (of value, low and
 * high) and `words` (what a choice allows) are NULL when there are none.
 * `sentence`, when not NULL, is a catalogue message that says more than the
 * status does; it goes on from the field's name ("is not valid UTF-8 text") and
 * may hold {value}, {low}, {high} and {unit}. All three are static, borrowed.
 */
typedef struct dw_err {
    dw_status status;
    char field[96];
    char value[96];
    bool ranged;
    double low, high;
    const char *unit;
    const char *const *words;
    const char *sentence;
} dw_err;

/* Programmer errors trap; there is no stdio here. */
#define DW_ASSERT(condition)                                                   \
    do {                                                                       \
        if (!(condition))                                                      \
            __builtin_trap();                                                  \
    } while (0)

/* What the functions below write with; err may be NULL. dw_err_prefix returns
 * err->status, DW_E_RANGE when err is NULL. */
void dw_err_write(dw_err *err, dw_status status, const char *field,
                  const char *value, const char *sentence);
void dw_err_write_range(dw_err *err, const char *field, double value,
                        double low, double high);
dw_status dw_err_prefix(dw_err *err, const char *prefix);
dw_status dw_err_prefix_item(dw_err *err, const char *name, size_t index);

/* Failing is one line, and is seen to fail by whoever reads or analyses the
 * caller (hence inline):
 *     return dw_fail(err, DW_E_MISSING, "formula.lines", NULL);
 * field and value are copied and cut to fit on a UTF-8 boundary. */
static inline dw_status dw_fail(dw_err *err, dw_status status,
                                const char *field, const char *value)
{
    DW_ASSERT(status != DW_OK);
    dw_err_write(err, status, field, value, NULL);
    return status;
}

/* As dw_fail, with a static sentence that says more. */
static inline dw_status dw_fail_says(dw_err *err, dw_status status,
                                     const char *field, const char *value,
                                     const char *sentence)
{
    DW_ASSERT(status != DW_OK);
    dw_err_write(err, status, field, value, sentence);
    return status;
}

/* A number outside [low, high], NaN included. */
static inline dw_status dw_fail_range(dw_err *err, const char *field,
                                      double value, double low, double high)
{
    dw_err_write_range(err, field, value, low, high);
    return DW_E_RANGE;
}

/* DW_OK when low <= value <= high, else as dw_fail_range. */
static inline dw_status dw_check_range(dw_err *err, const char *field,
                                       double value, double low, double high)
{
    return value >= low && value <= high
               ? DW_OK
               : dw_fail_range(err, field, value, low, high);
}

/* Put a prefix before err->field of a failure: "lines[2]" + "percent" ->
 * "lines[2].percent"; or that of a list's item. Returns err->status. */
static inline dw_status dw_err_within(dw_err *err, const char *prefix)
{
    dw_status status = dw_err_prefix(err, prefix);
    DW_ASSERT(status != DW_OK);
    return status;
}
static inline dw_status dw_err_within_item(dw_err *err, const char *name,
                                           size_t index)
{
    dw_status status = dw_err_prefix_item(err, name, index);
    DW_ASSERT(status != DW_OK);
    return status;
}

#define DW_TRY(call)                                                           \
    do {                                                                       \
        dw_status dw_try_status_ = (call);                                     \
        if (dw_try_status_ != DW_OK)                                           \
            return dw_try_status_;                                             \
    } while (0)

#define DW_COUNT(array) (sizeof(array) / sizeof((array)[0]))

/* A fixed block from the caller, handed out from the front. */
typedef struct dw_arena {
    unsigned char *base; /* borrowed */
    size_t size, used;
} dw_arena;

void dw_arena_init(dw_arena *arena, void *block, size_t bytes);
/* Zeroed memory aligned for any object, or NULL when the block is full. */
void *dw_arena_take(dw_arena *arena, size_t bytes);
/* The free end, for writing a text whose length is not known beforehand: write
 * at most *room bytes there, then keep what was written. Nothing else may be
 * taken in between. */
void *dw_arena_rest(const dw_arena *arena, size_t *room);
void dw_arena_keep(dw_arena *arena, size_t bytes);
/* A copy of `text` (NULL stays NULL); NULL when the block is full. */
char *dw_arena_text(dw_arena *arena, const char *text);
/* printf into the arena, for short texts (under 512 bytes, asserted). NULL when
 * the block is full. */
char *dw_arena_print(dw_arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#define DW_NEW(arena, type) ((type *)dw_arena_take((arena), sizeof(type)))
#define DW_NEW_ARRAY(arena, type, count)                                       \
    ((type *)dw_arena_take((arena), sizeof(type) * (count)))

/* Text: UTF-8, NUL-terminated. */
bool dw_text_is(const char *a, const char *b); /* equal, NULL only to NULL */
bool dw_text_valid(const char *text, size_t bytes); /* is it UTF-8 */
/* Decimal text of a double, shortest that reads back within `digits`
 * significant digits, no exponent between 1e-6 and 1e15, always '.'. */
size_t dw_text_number(char *out, size_t room, double value, int digits);
/* "before[index]after", the path of a list's item; cut to fit. */
void dw_text_item(char *out, size_t room, const char *before, size_t index,
                  const char *after);

#endif
