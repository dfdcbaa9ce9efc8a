/* The calendar, and who may subscribe to it. */
#include "app/calendar.h"

#include "os/random.h"
#include "store/drops.h"

#include <stdio.h>

const char *const dw_event_kind_words[] = {"mix",  "close",  "pull",
                                           "drop", "cutoff", NULL};

static const dw_field event_fields[] = {
    DW_F_TEXT(dw_calendar_event, uid, 200, "the same for the same thing"),
    DW_F_CHOICE(dw_calendar_event, kind, dw_event_kind_words, "of what kind"),
    DW_F_MOMENT(dw_calendar_event, start_ms, "begins"),
    DW_F_MOMENT(dw_calendar_event, end_ms, "ends"),
    DW_F_TEXT(dw_calendar_event, summary, 600, "in words"),
    DW_F_TEXT_OPT(dw_calendar_event, details, 600, "more of it"),
};
static const dw_shape event_shape = DW_SHAPE(
    "calendar_event", dw_calendar_event, event_fields, "something to come");

static const dw_field calendar_fields[] = {
    DW_F_TEXT(dw_calendar, name, 200, "whose it is"),
    DW_F_MOMENT(dw_calendar, now_ms, "the server's clock"),
    DW_F_MANY_OPT(dw_calendar, events, &event_shape, 10000, "by start"),
};
const dw_shape dw_calendar_shape =
    DW_SHAPE("calendar", dw_calendar, calendar_fields, "the days to come");

enum { FEED_DAYS = 14, KEY_BYTES = 16 };

typedef struct asked {
    int64_t days, outlet_id;
} asked;
static const dw_field asked_fields[] = {
    DW_F_WHOLE_PRESET(asked, days, "", 1, 28, FEED_DAYS, "from today on"),
    DW_F_ID(asked, outlet_id, "one outlet's drops; 0: all of the shop"),
};
static const dw_shape asked_shape =
    DW_SHAPE("calendar_asked", asked, asked_fields, "how much of it");

static dw_status calendar_list(dw_call *call, const void *request, void *reply)
{
    const asked *given = request;
    return dw_calendar_read(call, given->days, given->outlet_id, reply);
}

/* ---- subscriptions ------------------------------------------------------- */

typedef struct share_given {
    int64_t outlet_id;
} share_given;
static const dw_field share_given_fields[] = {
    DW_F_ID(share_given, outlet_id, "for its drops; 0: for the shop"),
};
static const dw_shape share_given_shape = DW_SHAPE(
    "calendar_share", share_given, share_given_fields, "a new subscription");

static dw_status calendar_share(dw_call *call, const void *request, void *reply)
{
    int64_t outlet_id = ((const share_given *)request)->outlet_id;
    unsigned char bytes[KEY_BYTES];
    char key[2 * KEY_BYTES + 1];
    dw_outlet outlet;
    if (outlet_id)
        DW_TRY(dw_row_get(call, "outlet", &dw_outlet_noun, outlet_id,
                          "outlet_id", &outlet));
    DW_TRY(dw_random_bytes(bytes, sizeof bytes, call->err));
    for (size_t i = 0; i < sizeof bytes; i++)
        snprintf(key + 2 * i, 3, "%02x", bytes[i]);
    dw_calendar_key row = {.key = dw_arena_text(call->arena, key),
                           .outlet_id = outlet_id,
                           .made_ms = call->now_ms,
                           .person_id = call->person_id};
    if (!row.key)
        return dw_fail(call->err, DW_E_ROOM, "key", NULL);
    DW_TRY(dw_row_save(call, "calendar_key", &dw_calendar_key_noun, &row,
                       &row.id));
    *(dw_calendar_key *)reply = row;
    return DW_OK;
}

static dw_status calendar_unshare(dw_call *call, const void *request,
                                  void *reply)
{
    int64_t id = ((const dw_made *)request)->id;
    dw_calendar_key row;
    ((dw_made *)reply)->id = id;
    DW_TRY(dw_row_get(call, "calendar_key", &dw_calendar_key_noun, id, "id",
                      &row));
    return dw_store_delete(call->store, "calendar_key", "id", id, call->err);
}

typedef struct keys {
    dw_calendar_key *keys;
    size_t keys_count;
} keys;
static const dw_field keys_fields[] = {
    DW_F_MANY_OPT(keys, keys, &dw_calendar_key_noun, 1000, "oldest first"),
};
static const dw_shape keys_shape =
    DW_SHAPE("calendar_keys", keys, keys_fields, "who may subscribe");

static dw_status calendar_shares(dw_call *call, const void *request,
                                 void *reply)
{
    keys *out = reply;
    (void)request;
    return dw_rows_get(call, "calendar_key", &dw_calendar_key_noun, NULL, 0,
                       "id", &out->keys, &out->keys_count);
}

typedef struct feed_asked {
    const char *secret;
} feed_asked;
static const dw_field feed_asked_fields[] = {
    DW_F_TEXT(feed_asked, secret, 64, "the key in the subscription's address"),
};
static const dw_shape feed_asked_shape = DW_SHAPE(
    "feed_asked", feed_asked, feed_asked_fields, "a subscription asks");

static dw_status calendar_feed(dw_call *call, const void *request, void *reply)
{
    const char *key = ((const feed_asked *)request)->secret;
    dw_calendar_key row;
    bool found;
    DW_TRY(dw_store_calendar_key_find(call->store, key, call->arena, &row,
                                      &found, call->err));
    if (!found)
        return dw_fail(call->err, DW_E_NOT_FOUND, "calendar", NULL);
    return dw_calendar_read(call, FEED_DAYS, row.outlet_id, reply);
}

const dw_op dw_ops_calendar[] = {
    {"calendar.feed", DW_OP_READ, &feed_asked_shape, &dw_calendar_shape,
     calendar_feed, "The calendar for who has the key of a subscription."},
    {"calendar.list", DW_OP_READ, &asked_shape, &dw_calendar_shape,
     calendar_list, "Batches, closings, pulls and drops to come."},
    {"calendar.share", DW_OP_WRITE, &share_given_shape, &dw_calendar_key_noun,
     calendar_share, "Make the key of a subscription to the calendar."},
    {"calendar.shares", DW_OP_READ, &dw_nothing_shape, &keys_shape,
     calendar_shares, "The subscriptions to the calendar."},
    {"calendar.unshare", DW_OP_WRITE, &dw_made_request_shape, &dw_made_shape,
     calendar_unshare, "Take a subscription back."},
};
const size_t dw_ops_calendar_count = DW_COUNT(dw_ops_calendar);
