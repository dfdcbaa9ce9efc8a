#include "doughwright/note.h"

const char *const dw_note_level_words[] = {"info", "warn", NULL};

static const dw_field note_fields[] = {
    DW_F_CHOICE(dw_note, level, dw_note_level_words, "how loud"),
    DW_F_TEXT(dw_note, code, 60, "message code, looked up in the catalogue"),
    DW_F_TEXT_OPT(dw_note, subject, 120, "what it is about"),
    DW_F_REAL_OPT(dw_note, value, "", -1e18, 1e18, "the value, SI"),
    DW_F_REAL_OPT(dw_note, limit, "", -1e18, 1e18, "held against, SI"),
    DW_F_TEXT_OPT(dw_note, message, 1000, "the same as a sentence"),
};
const dw_shape dw_note_shape =
    DW_SHAPE("note", dw_note, note_fields, "a message code with its values");

dw_note *dw_note_add(dw_notes *notes, dw_note_level level, const char *code,
                     const char *subject)
{
    DW_ASSERT(notes->count < notes->room);
    dw_note *note = &notes->at[notes->count++];
    *note = (dw_note){.level = (int)level, .code = code, .subject = subject};
    return note;
}

void dw_note_value(dw_notes *notes, dw_note_level level, const char *code,
                   const char *subject, double value)
{
    dw_note *note = dw_note_add(notes, level, code, subject);
    note->has_value = true;
    note->value = value;
}

void dw_note_limit(dw_notes *notes, dw_note_level level, const char *code,
                   const char *subject, double value, double limit)
{
    dw_note *note = dw_note_add(notes, level, code, subject);
    note->has_value = note->has_limit = true;
    note->value = value;
    note->limit = limit;
}
