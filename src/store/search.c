/* Finding batches in the book. */
#include "store/batches.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* One word, as a pattern, is in a name, a note or a lot's code of the batch. */
#define SAYS(word)                                                             \
    " AND (" word " = ''"                                                      \
    " OR f.name LIKE " word " ESCAPE '!'"                                      \
    " OR p.name LIKE " word " ESCAPE '!'"                                      \
    " OR m.name LIKE " word " ESCAPE '!'"                                      \
    " OR b.note LIKE " word " ESCAPE '!'"                                      \
    " OR EXISTS (SELECT 1 FROM batch_piece c JOIN product r"                   \
    " ON r.id = c.product_id WHERE c.batch_id = b.id"                          \
    " AND r.name LIKE " word " ESCAPE '!')"                                    \
    " OR EXISTS (SELECT 1 FROM batch_weighing w JOIN material_lot l"           \
    " ON l.id = w.lot_id WHERE w.batch_id = b.id"                              \
    " AND l.code LIKE " word " ESCAPE '!'))"

static const char find_sql[] =
    "SELECT b.* FROM batch b"
    " JOIN formula_version v ON v.id = b.version_id"
    " JOIN formula f ON f.id = v.formula_id"
    " LEFT JOIN person p ON p.id = b.person_id"
    " LEFT JOIN mixer m ON m.id = b.mixer_id"
    " WHERE b.day BETWEEN $from AND $to"
    " AND ($off = 0 OR b.state = 'abandoned'"
    " OR EXISTS (SELECT 1 FROM batch_change c WHERE c.batch_id = b.id))"
    " AND ($verdict = '' OR EXISTS (SELECT 1 FROM verdict s"
    " WHERE s.batch_id = b.id AND s.verdict = $verdict AND s.id ="
    " (SELECT max(t.id) FROM verdict t WHERE t.batch_id = s.batch_id"
    " AND t.product_id = s.product_id)))"
    " AND ($number = 0 OR b.number = $number"
    " OR EXISTS (SELECT 1 FROM batch_weighing w JOIN material_lot l"
    " ON l.id = w.lot_id WHERE w.batch_id = b.id AND l.code = $text))" SAYS(
        "$w1") SAYS("$w2") SAYS("$w3")
        SAYS("$w4") " ORDER BY b.day DESC, b.planned_ms DESC, b.id DESC"
                    " LIMIT $limit OFFSET $offset";

enum { WORDS = 4, PATTERN = 2 * DW_FIND_TEXT + 3 };

/* The next word of *text between percent signs, what LIKE reads otherwise
 * escaped; the last one is all that is left. */
static void next_word(const char **text, bool last, char pattern[PATTERN])
{
    size_t n = 0;
    while (isspace((unsigned char)**text))
        ++*text;
    if (**text) {
        pattern[n++] = '%';
        for (; **text && (last || !isspace((unsigned char)**text)) &&
               n + 3 < PATTERN;
             ++*text) {
            if (strchr("%_!", **text))
                pattern[n++] = '!';
            pattern[n++] = **text;
        }
        pattern[n++] = '%';
    }
    pattern[n] = '\0';
}

static dw_arg whole(const char *name, int64_t value)
{
    return (dw_arg){.name = name, .kind = DW_WHOLE, .whole = value};
}

static dw_arg text(const char *name, const char *value)
{
    return (dw_arg){.name = name, .kind = DW_TEXT, .text = value};
}

/* The number that the whole text is, or 0. */
static int64_t bare_number(const char *from)
{
    size_t digits = strspn(from, "0123456789");
    return digits > 0 && digits < 10 && !from[digits] ? atoll(from) : 0;
}

dw_status dw_store_batches_find(dw_store *store, const dw_batch_search *search,
                                dw_arena *arena, dw_batch_row **rows,
                                size_t *count, dw_err *err)
{
    const char *left = search->text ? search->text : "";
    int64_t number = bare_number(left);
    char words[WORDS][PATTERN] = {"", "", "", ""};
    for (int i = 0; i < WORDS && number == 0; i++)
        next_word(&left, i == WORDS - 1, words[i]);
    const dw_arg args[] = {
        whole("$from", search->from_day),
        whole("$to", search->to_day),
        whole("$off", search->off),
        text("$verdict",
             search->has_verdict ? dw_verdict_words[search->verdict] : ""),
        whole("$number", number),
        text("$text", left),
        text("$w1", words[0]),
        text("$w2", words[1]),
        text("$w3", words[2]),
        text("$w4", words[3]),
        whole("$limit", search->limit),
        whole("$offset", search->offset),
    };
    return dw_store_query(store, find_sql, args, DW_COUNT(args), &dw_batch_noun,
                          arena, rows, count, err);
}
