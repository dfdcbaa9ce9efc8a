#include "dw_temp.h"
#include "dw_test.h"
#include "store/internal.h"

typedef struct desk {
    dw_temp temp;
    dw_store *store;
    unsigned char block[16384];
    dw_arena arena;
    dw_err err;
    dw_journal_head head;
} desk;

static const dw_journal_row entries[] = {
    {.received_ms = 1764000000000,
     .occurred_ms = 1763999990000,
     .person_id = 7,
     .device = "bench tablet",
     .op = "batch.mix",
     .body = "{\"kg\":12.5}"},
    {.received_ms = 1764000001000,
     .occurred_ms = 1764000001000,
     .op = "batch.mix",
     .body = "{\"note\":\"\xc3\xa9\"}"},
    {.received_ms = 1764000002000, .op = "batch.close", .body = "{}"},
    {.received_ms = 1764000003000, .op = "stack.move", .body = "{}"},
};

static void set_up(desk *d)
{
    dw_temp_make(&d->temp);
    dw_arena_init(&d->arena, d->block, sizeof d->block);
    d->store = NULL;
    NEED(dw_store_open(dw_temp_path(&d->temp, "a.db"), &d->store, &d->err) ==
         DW_OK);
    for (size_t i = 0; i < DW_COUNT(entries); i++)
        SAME(dw_journal_append(d->store, &entries[i], &d->err), DW_OK);
}

static void tear_down(desk *d)
{
    dw_store_free(d->store);
    dw_temp_remove(&d->temp);
}

static dw_status run(desk *d, const char *sql)
{
    return dw_store_run(d->store, sql, NULL, 0, &d->err);
}

static dw_status verify(desk *d)
{
    return dw_journal_verify(d->store, &d->arena, &d->err, &d->head);
}

/* What somebody with the file and another program could do. */
static void tamper(const char *sql, const char *first_wrong)
{
    desk d;
    set_up(&d);
    SAME(verify(&d), DW_OK);
    SAME(run(&d, "DROP TRIGGER journal_is_not_edited"), DW_OK);
    SAME(run(&d, "DROP TRIGGER journal_is_not_cut"), DW_OK);
    SAME(run(&d, sql), DW_OK);
    SAME(verify(&d), DW_E_CONFLICT);
    SAME_TEXT(d.err.field, "journal");
    SAME_TEXT(d.err.value, first_wrong);
    tear_down(&d);
}

TEST(the_chain_is_what_an_independent_program_makes_of_it, DERIVED,
     "computed with Python's hashlib after the rule in store.h")
{
    desk d;
    set_up(&d);
    dw_journal_row *rows;
    size_t count;
    NEED(dw_store_list(d.store, "journal", &dw_journal_row_shape, NULL, 0, "id",
                       &d.arena, &rows, &count, &d.err) == DW_OK);
    SAME(count, 4);
    SAME_TEXT(rows[0].hash, "adf0d32d8d90219267ce4c5c5203e244"
                            "c68a1734fee38ad46ac3f410c9e676f6");
    SAME_TEXT(rows[1].hash, "831b0f3c947dfc031ce19eb4a3732be7"
                            "c2677a08646280455cff1204faafb168");
    SAME(rows[0].person_id, 7);
    SAME_TEXT(rows[1].device, "");
    SAME(verify(&d), DW_OK);
    SAME(d.head.rows, 4);
    SAME(d.head.received_ms, 1764000003000);
    SAME_TEXT(d.head.hash, rows[3].hash);
    tear_down(&d);
}

TEST(an_empty_journal_holds, LIMIT, "store.h")
{
    desk d;
    dw_temp_make(&d.temp);
    dw_arena_init(&d.arena, d.block, sizeof d.block);
    NEED(dw_store_open(dw_temp_path(&d.temp, "a.db"), &d.store, &d.err) ==
         DW_OK);
    SAME(verify(&d), DW_OK);
    SAME(d.head.rows, 0);
    SAME_TEXT(d.head.hash, "");
    tear_down(&d);
}

TEST(an_edit_anywhere_in_the_journal_is_found, LIMIT, "store.h")
{
    tamper("UPDATE journal SET body = '{\"kg\":12.6}' WHERE id = 1", "1");
    tamper("UPDATE journal SET received_ms = received_ms + 1 WHERE id = 2",
           "2");
    tamper("UPDATE journal SET person_id = 3 WHERE id = 3", "3");
    tamper("UPDATE journal SET device = 'x' WHERE id = 4", "4");
    tamper("UPDATE journal SET op = 'batch.mix ' WHERE id = 1", "1");
    tamper("UPDATE journal SET hash = 'f' || substr(hash, 2) WHERE id = 1"
           " AND hash NOT LIKE 'f%'",
           "1");
}

TEST(rows_cut_swapped_or_added_are_found, LIMIT, "store.h")
{
    tamper("DELETE FROM journal WHERE id = 1", "1");
    tamper("DELETE FROM journal WHERE id = 3", "3");
    tamper("DELETE FROM journal WHERE id = 4", "4");
    tamper("DELETE FROM journal", "1");
    tamper("UPDATE journal SET id = CASE id WHEN 2 THEN -3 ELSE -2 END"
           " WHERE id IN (2, 3)",
           "1");
    tamper("INSERT INTO journal SELECT 5, received_ms, occurred_ms, person_id,"
           " device, op, body, body_hash, hash FROM journal WHERE id = 4",
           "5");
}

TEST(two_rows_that_change_places_are_found, LIMIT, "store.h")
{
    desk d;
    set_up(&d);
    SAME(run(&d, "DROP TRIGGER journal_is_not_edited"), DW_OK);
    SAME(run(&d, "UPDATE journal SET id = 99 WHERE id = 2"), DW_OK);
    SAME(run(&d, "UPDATE journal SET id = 2 WHERE id = 3"), DW_OK);
    SAME(run(&d, "UPDATE journal SET id = 3 WHERE id = 99"), DW_OK);
    SAME(verify(&d), DW_E_CONFLICT);
    SAME_TEXT(d.err.value, "2");
    tear_down(&d);
}

TEST(the_database_itself_refuses_edits_and_cuts, LIMIT, "migrations.c")
{
    desk d;
    set_up(&d);
    SAME(run(&d, "DELETE FROM journal WHERE id = 4"), DW_E_CONFLICT);
    SAME(run(&d, "UPDATE journal SET op = 'x'"), DW_E_CONFLICT);
    SAME(run(&d, "UPDATE journal SET body = 'x'"), DW_E_CONFLICT);
    SAME(verify(&d), DW_OK);
    tear_down(&d);
}

TEST(a_person_can_be_erased_and_the_chain_still_holds, LIMIT, "DESIGN: data")
{
    desk d;
    set_up(&d);
    SAME(run(&d, "UPDATE journal SET body = NULL WHERE person_id = 7"), DW_OK);
    SAME(verify(&d), DW_OK);
    SAME(dw_journal_append(d.store, &entries[0], &d.err), DW_OK);
    SAME(verify(&d), DW_OK);
    tear_down(&d);
}

TEST(a_rolled_back_entry_leaves_no_gap, LIMIT, "store.h")
{
    desk d;
    set_up(&d);
    SAME(dw_store_begin(d.store, &d.err), DW_OK);
    SAME(dw_journal_append(d.store, &entries[0], &d.err), DW_OK);
    dw_store_rollback(d.store);
    SAME(dw_journal_append(d.store, &entries[1], &d.err), DW_OK);
    SAME(verify(&d), DW_OK);
    tear_down(&d);
}

TEST(an_answer_is_kept_per_device_and_key, LIMIT, "store.h")
{
    desk d;
    set_up(&d);
    char hash[65];
    dw_answer_hash("batch.mix", "{\"kg\":12.5}", hash);
    SAME_TEXT(hash, "19024111851ea3cb5a32791e3cdc62cd"
                    "82a9a67eb5bd617a4c4c6da7e90857a3"); /* Python's hashlib */
    dw_answer kept = {"tablet", "k1", hash, "{\"id\":1}", 1000}, found;
    bool there = true;
    SAME(dw_answer_find(d.store, "tablet", "k1", &d.arena, &found, &there,
                        &d.err),
         DW_OK);
    CHECK(!there);
    SAME(dw_answer_keep(d.store, &kept, &d.err), DW_OK);
    SAME(dw_answer_keep(d.store, &kept, &d.err), DW_E_CONFLICT);
    SAME(dw_answer_find(d.store, "tablet", "k1", &d.arena, &found, &there,
                        &d.err),
         DW_OK);
    NEED(there);
    SAME_TEXT(found.reply, "{\"id\":1}");
    SAME_TEXT(found.body_hash, hash);
    SAME(found.received_ms, 1000);
    SAME(dw_answer_find(d.store, "phone", "k1", &d.arena, &found, &there,
                        &d.err),
         DW_OK);
    CHECK(!there);
    SAME(dw_answer_forget(d.store, 1000, &d.err), DW_OK);
    SAME(dw_answer_find(d.store, "tablet", "k1", &d.arena, &found, &there,
                        &d.err),
         DW_OK);
    CHECK(there);
    SAME(dw_answer_forget(d.store, 1001, &d.err), DW_OK);
    SAME(dw_answer_find(d.store, "tablet", "k1", &d.arena, &found, &there,
                        &d.err),
         DW_OK);
    CHECK(!there);
    tear_down(&d);
}

/* A row that points nowhere, as another program could leave it. */
TEST(the_check_of_the_file_finds_a_row_that_points_nowhere, LIMIT, "store.h")
{
    desk d;
    set_up(&d);
    SAME(dw_store_check_file(d.store, &d.err), DW_OK);
    SAME(run(&d, "PRAGMA foreign_keys = OFF"), DW_OK);
    SAME(run(&d, "INSERT INTO stack_move (id, stack_id, kind, balls,"
                 " occurred_ms, assumed) VALUES (1, 99, 'use', 1, 0, 0)"),
         DW_OK);
    SAME(dw_store_check_file(d.store, &d.err), DW_E_STORE);
    SAME_TEXT(d.err.field, "database");
    tear_down(&d);
}
