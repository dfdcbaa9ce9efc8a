#include "dw_temp.h"
#include "dw_test.h"
#include "store/internal.h"

/* A noun with one member of every kind that is a column, present and absent. */
typedef struct tub {
    int64_t id;
    int64_t room_id;
    const char *label, *note;
    double mass_kg;
    bool has_core_c;
    double core_c;
    bool has_boxes;
    int64_t boxes;
    bool cold;
    int state;
    double *readings; /* not a column */
    size_t readings_count;
} tub;

static const char *const states[] = {"planned", "mixed", "used", NULL};

static const dw_field tub_fields[] = {
    DW_F_ID(tub, id, "its number"),
    DW_F_ID(tub, room_id, "where it stands"),
    DW_F_TEXT(tub, label, 40, "what is written on it"),
    DW_F_TEXT_OPT(tub, note, 200, "a remark"),
    DW_F_REAL(tub, mass_kg, "kg", 0, 1000, "what is in it"),
    DW_F_REAL_OPT(tub, core_c, "degC", -40, 100, "how warm"),
    DW_F_WHOLE_OPT(tub, boxes, "", 0, 100, "how many"),
    DW_F_YES(tub, cold, false, "is it in the cold"),
    DW_F_CHOICE(tub, state, states, "how far it is"),
    DW_F_REALS(tub, readings, "degC", -40, 100, "kept elsewhere"),
};
static const dw_shape tub_shape = DW_SHAPE("tub", tub, tub_fields, "a tub");

static const char *const tables[] = {
    "CREATE TABLE room (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE)"
    " STRICT",
    "CREATE TABLE tub (id INTEGER PRIMARY KEY,"
    " room_id INTEGER REFERENCES room (id), label TEXT NOT NULL, note TEXT,"
    " mass_kg REAL NOT NULL CHECK (mass_kg >= 0), core_c REAL, boxes INTEGER,"
    " cold INTEGER NOT NULL, state TEXT NOT NULL) STRICT",
    NULL};
static const dw_store__migration migrations[] = {tables};

typedef struct bench {
    dw_temp temp;
    char path[128];
    dw_store *store;
    unsigned char block[65536];
    dw_arena arena;
    dw_err err;
} bench;

static void set_up(bench *b)
{
    dw_temp_make(&b->temp);
    snprintf(b->path, sizeof b->path, "%s", dw_temp_path(&b->temp, "a.db"));
    dw_arena_init(&b->arena, b->block, sizeof b->block);
    b->store = NULL;
    CHECK(dw_store__open_with(b->path, migrations, 1, &b->store, &b->err) ==
          DW_OK);
}

static void tear_down(bench *b)
{
    dw_store_free(b->store);
    dw_temp_remove(&b->temp);
}

static dw_status insert(bench *b, const tub *t, int64_t *id)
{
    return dw_store_insert(b->store, "tub", &tub_shape, t, id, &b->err);
}

static dw_status get(bench *b, int64_t id, tub *t)
{
    return dw_store_get(b->store, "tub", &tub_shape, id, &b->arena, t, &b->err);
}

static size_t rows_in(bench *b, const char *sql)
{
    typedef struct tally {
        int64_t n;
    } tally;
    static const dw_field fields[] = {
        DW_F_WHOLE(tally, n, "", 0, 1e15, "how many")};
    static const dw_shape shape = DW_SHAPE("tally", tally, fields, "a count");
    tally *rows;
    size_t count = 0;
    dw_status status = dw_store_query(b->store, sql, NULL, 0, &shape, &b->arena,
                                      &rows, &count, &b->err);
    CHECK(status == DW_OK && count == 1);
    return status == DW_OK && count == 1 ? (size_t)rows[0].n : 0;
}

static dw_status run(bench *b, const char *sql)
{
    return dw_store_run(b->store, sql, NULL, 0, &b->err);
}

static const tub plain = {.label = "white dough", .mass_kg = 12.5, .state = 1};

TEST(a_row_comes_back_as_it_was_written, LIMIT, "round trip")
{
    bench b;
    set_up(&b);
    SAME(run(&b, "INSERT INTO room VALUES (4, 'walk-in')"), DW_OK);
    tub t = {.room_id = 4,
             .label = "b\xc3\xbaho 'quoted\" $label",
             .note = "",
             .mass_kg = 0.1 + 0.2,
             .has_core_c = true,
             .core_c = -0.5,
             .has_boxes = true,
             .boxes = 9007199254740991,
             .cold = true,
             .state = 2};
    int64_t id = 0;
    SAME(insert(&b, &t, &id), DW_OK);
    tub back;
    NEED(get(&b, id, &back) == DW_OK);
    SAME(back.id, id);
    SAME(back.room_id, 4);
    SAME_TEXT(back.label, t.label);
    SAME_TEXT(back.note, "");
    CHECK(back.mass_kg == t.mass_kg && back.core_c == t.core_c);
    CHECK(back.has_core_c && back.has_boxes && back.cold);
    SAME(back.boxes, t.boxes);
    SAME(back.state, 2);
    CHECK(back.readings == NULL && back.readings_count == 0);
    tear_down(&b);
}

TEST(what_is_absent_is_null_and_comes_back_absent, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    int64_t id = 0;
    SAME(insert(&b, &plain, &id), DW_OK);
    SAME(rows_in(&b, "SELECT count(*) AS n FROM tub WHERE room_id IS NULL"
                     " AND note IS NULL AND core_c IS NULL AND boxes IS NULL"
                     " AND state = 'mixed'"),
         1);
    tub back;
    NEED(get(&b, id, &back) == DW_OK);
    CHECK(!back.has_core_c && !back.has_boxes && !back.cold);
    CHECK(back.note == NULL && back.room_id == 0 && back.core_c == 0);
    tear_down(&b);
}

TEST(a_chosen_id_is_kept_and_a_taken_one_is_a_conflict, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    tub t = plain;
    t.id = 77;
    int64_t id = 0;
    SAME(insert(&b, &t, &id), DW_OK);
    SAME(id, 77);
    id = 5;
    SAME(insert(&b, &t, &id), DW_E_CONFLICT);
    SAME(id, 5);
    SAME_TEXT(b.err.field, "tub");
    SAME_TEXT(b.err.sentence, "is there already");
    tear_down(&b);
}

TEST(broken_constraints_name_the_table_and_change_nothing, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    tub nowhere = plain, nameless = plain, negative = plain;
    nowhere.room_id = 9;
    nameless.label = NULL;
    negative.mass_kg = -1;
    SAME(insert(&b, &nowhere, NULL), DW_E_CONFLICT);
    SAME_TEXT(b.err.sentence,
              "points to something that is not there, or is still in use");
    SAME_TEXT(b.err.value, "");
    SAME(insert(&b, &nameless, NULL), DW_E_CONFLICT);
    SAME_TEXT(b.err.sentence, "lacks a value it must have");
    SAME_TEXT(b.err.value, "tub.label");
    SAME(insert(&b, &negative, NULL), DW_E_CONFLICT);
    SAME_TEXT(b.err.field, "tub");
    SAME_TEXT(b.err.value, "mass_kg >= 0");
    SAME(rows_in(&b, "SELECT count(*) AS n FROM tub"), 0);
    tear_down(&b);
}

TEST(update_writes_every_column_and_misses_a_row_that_is_not_there, LIMIT,
     "store.h")
{
    bench b;
    set_up(&b);
    tub t = plain, back;
    t.note = "to be cleared";
    SAME(insert(&b, &t, &t.id), DW_OK);
    t.note = NULL;
    t.mass_kg = 3;
    SAME(dw_store_update(b.store, "tub", &tub_shape, &t, &b.err), DW_OK);
    NEED(get(&b, t.id, &back) == DW_OK);
    CHECK(back.note == NULL && back.mass_kg == 3);
    t.id = 12345;
    SAME(dw_store_update(b.store, "tub", &tub_shape, &t, &b.err),
         DW_E_NOT_FOUND);
    SAME_TEXT(b.err.value, "12345");
    back.mass_kg = 8;
    SAME(get(&b, 12345, &back), DW_E_NOT_FOUND);
    CHECK(back.mass_kg == 8);
    tear_down(&b);
}

TEST(lists_are_filtered_ordered_and_laid_side_by_side, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    SAME(run(&b, "INSERT INTO room VALUES (1, 'one'), (2, 'two')"), DW_OK);
    static const double masses[] = {3, 1, 2, 9};
    for (int i = 0; i < 4; i++) {
        tub t = plain;
        t.room_id = i < 3 ? 1 : 2;
        t.mass_kg = masses[i];
        SAME(insert(&b, &t, NULL), DW_OK);
    }
    tub *rows;
    size_t count;
    NEED(dw_store_list(b.store, "tub", &tub_shape, "room_id", 1, "mass_kg DESC",
                       &b.arena, &rows, &count, &b.err) == DW_OK);
    SAME(count, 3);
    CHECK(rows[0].mass_kg == 3 && rows[1].mass_kg == 2 && rows[2].mass_kg == 1);
    SAME_TEXT(rows[2].label, "white dough");
    NEED(dw_store_list(b.store, "tub", &tub_shape, NULL, 0, NULL, &b.arena,
                       &rows, &count, &b.err) == DW_OK);
    SAME(count, 4);
    NEED(dw_store_list(b.store, "tub", &tub_shape, "room_id", 3, NULL, &b.arena,
                       &rows, &count, &b.err) == DW_OK);
    SAME(count, 0);
    tear_down(&b);
}

TEST(replacing_children_keeps_other_parents_and_undoes_as_one, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    SAME(run(&b, "INSERT INTO room VALUES (1, 'one'), (2, 'two')"), DW_OK);
    tub old = plain, other = plain, fresh[2] = {plain, plain};
    old.room_id = 1;
    other.room_id = 2;
    fresh[0].room_id = fresh[1].room_id = 1;
    SAME(insert(&b, &old, NULL), DW_OK);
    SAME(insert(&b, &other, NULL), DW_OK);
    SAME(dw_store_begin(b.store, &b.err), DW_OK);
    SAME(dw_store_replace(b.store, "tub", &tub_shape, "room_id", 1, fresh, 2,
                          &b.err),
         DW_OK);
    SAME(rows_in(&b, "SELECT count(*) AS n FROM tub WHERE room_id = 1"), 2);
    SAME(rows_in(&b, "SELECT count(*) AS n FROM tub WHERE room_id = 2"), 1);
    dw_store_rollback(b.store);
    SAME(rows_in(&b, "SELECT count(*) AS n FROM tub WHERE room_id = 1"), 1);
    tear_down(&b);
}

TEST(a_savepoint_undoes_its_own_part_only, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    SAME(dw_store_begin(b.store, &b.err), DW_OK);
    for (int i = 0; i < 3; i++) {
        SAME(dw_store_savepoint(b.store, &b.err), DW_OK);
        SAME(insert(&b, &plain, NULL), DW_OK);
        if (i == 1)
            dw_store_undo_savepoint(b.store);
        else
            SAME(dw_store_release(b.store, &b.err), DW_OK);
    }
    SAME(dw_store_commit(b.store, &b.err), DW_OK);
    CHECK(!dw_store_in_transaction(b.store));
    SAME(rows_in(&b, "SELECT count(*) AS n FROM tub WHERE id IN (1, 2)"), 2);
    SAME(rows_in(&b, "SELECT count(*) AS n FROM tub"), 2);
    tear_down(&b);
}

TEST(a_reader_sees_its_snapshot_and_cannot_write, LIMIT, "store.h")
{
    bench b, r;
    set_up(&b);
    dw_arena_init(&r.arena, r.block, sizeof r.block);
    NEED(dw_store_open_reader(b.path, &r.store, &r.err) == DW_OK);
    SAME(dw_store_begin(r.store, &r.err), DW_OK);
    SAME(rows_in(&r, "SELECT count(*) AS n FROM tub"), 0);
    SAME(insert(&b, &plain, NULL), DW_OK);
    SAME(rows_in(&r, "SELECT count(*) AS n FROM tub"), 0);
    dw_store_rollback(r.store);
    SAME(rows_in(&r, "SELECT count(*) AS n FROM tub"), 1);
    SAME(insert(&r, &plain, NULL), DW_E_STORE);
    SAME_TEXT(r.err.sentence, "cannot be written to; nothing was changed");
    dw_store_free(r.store);
    tear_down(&b);
}

TEST(a_full_disk_is_said_and_leaves_nothing_half_written, LIMIT,
     "SQLite answers SQLITE_FULL at max_page_count as on a full disk")
{
    bench b;
    set_up(&b);
    SAME(insert(&b, &plain, NULL), DW_OK);
    static char pad[2000];
    memset(pad, 'x', sizeof pad - 1);
    tub big = plain;
    big.note = pad;
    SAME(run(&b, "PRAGMA max_page_count = 10"), DW_OK);
    SAME(dw_store_begin(b.store, &b.err), DW_OK);
    dw_status status = DW_OK;
    for (int i = 0; i < 100 && status == DW_OK; i++)
        status = insert(&b, &big, NULL);
    SAME(status, DW_E_STORE);
    SAME_TEXT(b.err.sentence,
              "could not be stored: the disk is full; nothing was changed");
    if (!dw_store_in_transaction(b.store))
        SAME(insert(&b, &plain, NULL), DW_E_STORE); /* not committed alone */
    dw_store_rollback(b.store);
    SAME(rows_in(&b, "SELECT count(*) AS n FROM tub"), 1);
    SAME(run(&b, "PRAGMA max_page_count = 100000"), DW_OK);
    SAME(insert(&b, &big, NULL), DW_OK);
    tear_down(&b);
}

TEST(an_arena_that_is_too_small_is_said, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    for (int i = 0; i < 20; i++)
        SAME(insert(&b, &plain, NULL), DW_OK);
    unsigned char small[600];
    dw_arena arena;
    dw_arena_init(&arena, small, sizeof small);
    tub *rows = NULL;
    size_t count = 99;
    SAME(dw_store_list(b.store, "tub", &tub_shape, NULL, 0, NULL, &arena, &rows,
                       &count, &b.err),
         DW_E_ROOM);
    CHECK(rows == NULL && count == 99);
    SAME(insert(&b, &plain, NULL), DW_OK); /* the statement was given back */
    tear_down(&b);
}

TEST(a_spelling_that_does_not_match_fails_loudly, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    SAME(dw_store_check_shape(b.store, "tub", &tub_shape, &b.err), DW_OK);
    SAME(run(&b, "ALTER TABLE tub RENAME COLUMN mass_kg TO mass"), DW_OK);
    SAME(dw_store_check_shape(b.store, "tub", &tub_shape, &b.err), DW_E_STORE);
    SAME_TEXT(b.err.field, "tub.mass_kg");
    SAME(insert(&b, &plain, NULL), DW_E_STORE);
    SAME(run(&b, "ALTER TABLE tub RENAME COLUMN mass TO mass_kg"), DW_OK);
    SAME(run(&b, "ALTER TABLE tub ADD COLUMN extra TEXT NOT NULL DEFAULT 'x'"),
         DW_OK);
    SAME(dw_store_check_shape(b.store, "tub", &tub_shape, &b.err), DW_OK);
    SAME(dw_store_check_shape(b.store, "tubs", &tub_shape, &b.err), DW_E_STORE);
    tear_down(&b);
}

TEST(columns_and_members_of_a_query_must_match, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    SAME(insert(&b, &plain, NULL), DW_OK);
    tub *rows;
    size_t count;
    SAME(dw_store_query(b.store, "SELECT id, label FROM tub", NULL, 0,
                        &tub_shape, &b.arena, &rows, &count, &b.err),
         DW_E_STORE);
    SAME_TEXT(b.err.value, "room_id");
    dw_arg args[] = {{.name = "$a", .kind = DW_TEXT, .text = "white dough"},
                     {.name = "$b", .kind = DW_REAL, .real = 12.5}};
    NEED(dw_store_query(
             b.store, "SELECT * FROM tub WHERE label = $a AND mass_kg = $b",
             args, 2, &tub_shape, &b.arena, &rows, &count, &b.err) == DW_OK);
    SAME(count, 1);
    SAME(run(&b, "ALTER TABLE tub ADD COLUMN extra TEXT"), DW_OK);
    SAME(dw_store_query(b.store, "SELECT * FROM tub", NULL, 0, &tub_shape,
                        &b.arena, &rows, &count, &b.err),
         DW_E_STORE);
    SAME_TEXT(b.err.value, "extra");
    tear_down(&b);
}

TEST(a_word_that_is_not_known_is_not_guessed, LIMIT, "store.h")
{
    bench b;
    set_up(&b);
    SAME(insert(&b, &plain, NULL), DW_OK);
    SAME(run(&b, "UPDATE tub SET state = 'frozen'"), DW_OK);
    tub back;
    SAME(get(&b, 1, &back), DW_E_STORE);
    SAME_TEXT(b.err.field, "state");
    SAME_TEXT(b.err.value, "frozen");
    tear_down(&b);
}
