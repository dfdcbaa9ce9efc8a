/* Notes: what an engine wants said beside its numbers.
 *
 * A note is a message code with its values, never a sentence: a door looks the
 * code up in the catalogue and fills in subject, value and limit in the
 * reader's own units. The codes of each module are listed in its header.
 */
#ifndef DOUGHWRIGHT_NOTE_H
#define DOUGHWRIGHT_NOTE_H

#include "doughwright/field.h"

typedef enum dw_note_level { DW_NOTE_INFO, DW_NOTE_WARN } dw_note_level;

extern const char *const dw_note_level_words[]; /* info warn */

typedef struct dw_note {
    int level;           /* dw_note_level */
    const char *code;    /* "mixer_unknown"; static */
    const char *subject; /* what it is about, NULL when plain; borrowed */
    bool has_value;
    double value; /* SI; the code says of what */
    bool has_limit;
    double limit; /* SI, what the value is held against */
    const char *message; /* the app's, in the reader's language; NULL here */
} dw_note;

extern const dw_shape dw_note_shape;

/* A list that grows in a caller's array; what does not fit is asserted, so the
 * caller sizes it by what its module can say. */
typedef struct dw_notes {
    dw_note *at; /* borrowed */
    size_t room, count;
} dw_notes;

/* Append; the note handed back may be given values. */
dw_note *dw_note_add(dw_notes *notes, dw_note_level level, const char *code,
                     const char *subject);
/* Append with a value, and with a value and a limit. */
void dw_note_value(dw_notes *notes, dw_note_level level, const char *code,
                   const char *subject, double value);
void dw_note_limit(dw_notes *notes, dw_note_level level, const char *code,
                   const char *subject, double value, double limit);

#endif
