/* What the tests of the application run: notes in a table of their own, and a
 * codec of lines "name=value" that is enough for them. */
#ifndef DW_TEST_NOTES_H
#define DW_TEST_NOTES_H

#include "app/app.h"
#include "dw_temp.h"
#include "store/store.h"

extern const dw_codec notes_codec;

extern const dw_op notes_add; /* text=...; the reply is id=... and text=... */
extern const dw_op notes_refuse; /* writes a row, then refuses */
extern const dw_op notes_fill;   /* bytes=...; a row of that size */
extern const dw_op notes_limit;  /* bytes=...; the disk holds that much more */
extern const dw_op notes_hold;   /* waits for notes_let_go */
extern const dw_op notes_count;  /* reads: count=... */
extern const dw_op notes_echo;   /* pure: text=... comes back */

/* Wait until notes_hold runs; let it go on. */
void notes_await_hold(void);
void notes_let_go(void);

/* A database with the table; an app over it. */
typedef struct notes {
    dw_temp temp;
    char path[128];
    dw_app *app;
} notes;
void notes_make(notes *n); /* the folder and the table, no app */
dw_app *notes_open(const char *path);
void notes_start(notes *n); /* notes_make and an app with two readers */
void notes_stop(notes *n);

/* One job, waited for. */
dw_job notes_perform(dw_app *app, const dw_op *op, const char *body);
dw_job notes_perform_keyed(dw_app *app, const dw_op *op, const char *body,
                           const char *device, const char *key);

/* A number from the file itself, read beside the app; -1 on failure. */
int64_t notes_number(const char *path, const char *sql);
bool notes_journal_holds(const char *path);

#endif
