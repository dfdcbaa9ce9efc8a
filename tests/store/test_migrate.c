#include "dw_temp.h"
#include "dw_test.h"
#include "store/internal.h"

#include <fcntl.h>
#include <unistd.h>

static const char *const second[] = {
    "CREATE TABLE note (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT",
    "INSERT INTO note (text) SELECT op FROM journal", NULL};
static const char *const broken[] = {"CREATE TABLE half (id INTEGER) STRICT",
                                     "CREATE TABLE nonsense (", NULL};
static const char *const orphan[] = {
    "CREATE TABLE child (id INTEGER PRIMARY KEY,"
    " note_id INTEGER REFERENCES journal (id)) STRICT",
    "INSERT INTO child VALUES (1, 999)", NULL};

static int64_t number(dw_store *store, const char *sql)
{
    sqlite3_stmt *statement = NULL;
    int64_t value = -1;
    if (sqlite3_prepare_v2(store->db, sql, -1, &statement, NULL) == SQLITE_OK &&
        sqlite3_step(statement) == SQLITE_ROW)
        value = sqlite3_column_int64(statement, 0);
    sqlite3_finalize(statement);
    return value;
}

static void write_one(dw_store *store)
{
    dw_journal_row row = {.op = "batch.mix", .body = "{}"};
    CHECK(dw_journal_append(store, &row, NULL) == DW_OK);
}

/* A file at version 1 with one row in it. */
static void make_first(const char *path)
{
    dw_store *store;
    NEED(dw_store__open_with(path, dw_store__migrations, 1, &store, NULL) ==
         DW_OK);
    write_one(store);
    dw_store_free(store);
}

static void spoil(const char *path, off_t from, const char *text, size_t bytes)
{
    int file = open(path, O_WRONLY | O_CREAT, 0600);
    CHECK(pwrite(file, text, bytes, from) == (ssize_t)bytes);
    close(file);
}

TEST(an_empty_file_gets_the_newest_schema_and_safe_settings, LIMIT, "store.h")
{
    dw_temp temp;
    dw_temp_make(&temp);
    dw_store *store;
    dw_err err;
    NEED(dw_store_open(dw_temp_path(&temp, "a.db"), &store, &err) == DW_OK);
    SAME(number(store, "PRAGMA user_version"), dw_store__migrations_count);
    SAME(number(store, "PRAGMA foreign_keys"), 1);
    SAME(number(store, "PRAGMA synchronous"), 2); /* FULL */
    SAME(number(store, "SELECT count(*) FROM pragma_journal_mode"
                       " WHERE journal_mode = 'wal'"),
         1);
    SAME(number(store, "SELECT count(*) FROM pragma_table_list"
                       " WHERE schema = 'main' AND type = 'table'"
                       " AND name NOT LIKE 'sqlite%' AND NOT strict"),
         0);
    dw_store_free(store);
    CHECK(access(dw_temp_path(&temp, "a.db.v0.backup"), F_OK) != 0);
    dw_temp_remove(&temp);
}

TEST(an_older_file_is_copied_before_it_is_brought_up_to_date, LIMIT, "store.h")
{
    dw_temp temp;
    dw_temp_make(&temp);
    char path[128];
    snprintf(path, sizeof path, "%s", dw_temp_path(&temp, "a.db"));
    make_first(path);
    const dw_store__migration list[] = {dw_store__migrations[0], second};
    dw_store *store, *copy;
    NEED(dw_store__open_with(path, list, 2, &store, NULL) == DW_OK);
    SAME(number(store, "PRAGMA user_version"), 2);
    SAME(number(store, "SELECT count(*) FROM note"), 1);
    SAME(number(store, "PRAGMA foreign_keys"), 1);
    dw_store_free(store);
    NEED(dw_store_open_reader(dw_temp_path(&temp, "a.db.v1.backup"), &copy,
                              NULL) == DW_OK);
    SAME(number(copy, "PRAGMA user_version"), 1);
    SAME(number(copy, "SELECT count(*) FROM journal"), 1);
    SAME(number(copy, "SELECT count(*) FROM sqlite_schema"
                      " WHERE name = 'note'"),
         0);
    SAME(number(copy, "SELECT count(*) FROM pragma_integrity_check"
                      " WHERE integrity_check = 'ok'"),
         1);
    dw_store_free(copy);
    NEED(dw_store__open_with(path, list, 2, &store, NULL) == DW_OK);
    dw_store_free(store);
    CHECK(access(dw_temp_path(&temp, "a.db.v1.2.backup"), F_OK) != 0);
    dw_temp_remove(&temp);
}

TEST(answers_without_a_time_are_as_old_as_the_newest_entry, LIMIT,
     "a tablet may still wait for them: journal at 1 and 7 ms")
{
    static const char *const entries[] = {
        "INSERT INTO journal VALUES (1,1,1,NULL,'t','note.add','','a','b')",
        "INSERT INTO journal VALUES (2,7,1,NULL,'t','note.add','','a','b')",
        "INSERT INTO answer VALUES ('t', 'k', 'h', '{}')", NULL};
    dw_temp temp;
    dw_temp_make(&temp);
    const char *path = dw_temp_path(&temp, "a.db");
    const dw_store__migration list[] = {dw_store__migrations[0], entries,
                                        dw_store__schema_answer};
    dw_store *store;
    NEED(dw_store__open_with(path, list, 3, &store, NULL) == DW_OK);
    SAME(number(store, "SELECT received_ms FROM answer"), 7);
    dw_store_free(store);
    dw_temp_remove(&temp);
}

TEST(an_earlier_copy_is_never_written_over, LIMIT, "store.h")
{
    dw_temp temp;
    dw_temp_make(&temp);
    char path[128];
    snprintf(path, sizeof path, "%s", dw_temp_path(&temp, "a.db"));
    make_first(path);
    spoil(dw_temp_path(&temp, "a.db.v1.backup"), 0, "precious", 8);
    const dw_store__migration list[] = {dw_store__migrations[0], second};
    dw_store *store;
    NEED(dw_store__open_with(path, list, 2, &store, NULL) == DW_OK);
    dw_store_free(store);
    CHECK(access(dw_temp_path(&temp, "a.db.v1.2.backup"), F_OK) == 0);
    char text[16] = "";
    int file = open(dw_temp_path(&temp, "a.db.v1.backup"), O_RDONLY);
    SAME(read(file, text, 15), 8);
    close(file);
    SAME_TEXT(text, "precious");
    dw_temp_remove(&temp);
}

TEST(a_migration_that_fails_changes_nothing, LIMIT, "store.h")
{
    dw_temp temp;
    dw_temp_make(&temp);
    char path[128];
    snprintf(path, sizeof path, "%s", dw_temp_path(&temp, "a.db"));
    make_first(path);
    const dw_store__migration bad[] = {dw_store__migrations[0], second, broken};
    const dw_store__migration lost[] = {dw_store__migrations[0], orphan};
    dw_store *store = NULL;
    dw_err err;
    SAME(dw_store__open_with(path, bad, 3, &store, &err), DW_E_STORE);
    SAME(dw_store__open_with(path, lost, 2, &store, &err), DW_E_STORE);
    SAME_TEXT(err.value, path);
    CHECK(store == NULL);
    NEED(dw_store__open_with(path, dw_store__migrations, 1, &store, &err) ==
         DW_OK);
    SAME(number(store, "SELECT count(*) FROM journal"), 1);
    SAME(number(store, "SELECT count(*) FROM sqlite_schema"
                       " WHERE name IN ('note', 'half', 'child')"),
         0);
    dw_store_free(store);
    dw_temp_remove(&temp);
}

TEST(a_file_of_a_newer_program_is_refused, LIMIT, "store.h")
{
    dw_temp temp;
    dw_temp_make(&temp);
    char path[128];
    snprintf(path, sizeof path, "%s", dw_temp_path(&temp, "a.db"));
    const dw_store__migration list[] = {dw_store__migrations[0], second};
    dw_store *store;
    dw_err err;
    NEED(dw_store__open_with(path, list, 2, &store, &err) == DW_OK);
    dw_store_free(store);
    SAME(dw_store__open_with(path, list, 1, &store, &err), DW_E_STORE);
    SAME_TEXT(err.sentence, "was written by a newer version of this program");
    dw_temp_remove(&temp);
}

TEST(files_that_are_not_ours_or_are_damaged_are_refused, LIMIT, "store.h")
{
    static const char says[] =
        "is damaged or is not a database of this program";
    dw_temp temp;
    dw_temp_make(&temp);
    dw_store *store = NULL;
    dw_err err;
    spoil(dw_temp_path(&temp, "text.db"), 0, "flour, water, salt\n", 19);
    SAME(dw_store_open(temp.path, &store, &err), DW_E_STORE);
    SAME_TEXT(err.sentence, says);
    SAME_TEXT(err.value, temp.path);

    sqlite3 *other;
    sqlite3_open(dw_temp_path(&temp, "other.db"), &other);
    sqlite3_exec(other, "CREATE TABLE theirs (x)", NULL, NULL, NULL);
    sqlite3_close(other);
    SAME(dw_store_open(temp.path, &store, &err), DW_E_STORE);
    SAME_TEXT(err.sentence, says);

    make_first(dw_temp_path(&temp, "ours.db"));
    static char junk[4000];
    memset(junk, 0x5a, sizeof junk);
    spoil(temp.path, 100, junk, sizeof junk);
    SAME(dw_store_open(temp.path, &store, &err), DW_E_STORE);
    SAME_TEXT(err.sentence, says);
    SAME(dw_store_open("/nowhere/at/all.db", &store, &err), DW_E_STORE);
    SAME_TEXT(err.sentence, "could not be opened");
    CHECK(store == NULL);
    dw_temp_remove(&temp);
}
