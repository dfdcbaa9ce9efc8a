#include "app/op.h"
#include "cli/cli.h"
#include "cli/program.h"
#include "dw_temp.h"
#include "dw_test.h"

#include <stdlib.h>

static bool has(const char *text, const char *part)
{
    return strstr(text, part) != NULL;
}

TEST(call_answers_json_on_standard_output, DERIVED, "DESIGN: one door")
{
    const ran *r = dw_test_program("call program.about", "");
    SAME(r->status, 2);
    CHECK(has(r->err, "{\"error\":{\"code\":\"not_understood\","));
    SAME_TEXT(r->out, "");
    r = dw_test_program("call program.about", "{}");
    SAME(r->status, 0);
    CHECK(has(r->out, "\"name\":\"program.about\",\"kind\":\"pure\""));
    SAME_TEXT(r->err, "");
}

TEST(call_refuses_with_status_2_and_the_error_as_json, DERIVED,
     "written by hand")
{
    const ran *r = dw_test_program("call program.about", "{\"x\":1}");
    SAME(r->status, 2);
    SAME_TEXT(r->out, "");
    SAME_TEXT(r->err, "{\"error\":{\"code\":\"unknown_field\",\"field\":\"x\","
                      "\"message\":\"x is not a field here\","
                      "\"low\":null,\"high\":null}}\n");
    r = dw_test_program("call no.such", "");
    SAME(r->status, 2);
    CHECK(has(r->err, "\"code\":\"not_found\",\"field\":\"op\""));
    r = dw_test_program("call", "");
    SAME(r->status, 2);
    CHECK(has(r->err, "\"code\":\"missing\",\"field\":\"OP\""));
}

TEST(a_body_of_ten_megabytes_is_refused_by_call, LIMIT, "json.h: 8 MiB")
{
    const ran *r =
        dw_test_program("call program.about; head -c 10485760 /dev/zero | "
                        "tr '\\0' ' ' | " DW_PROGRAM " call program.about",
                        "");
    SAME(r->status, 2);
    CHECK(has(r->err, "\"code\":\"too_large\""));
}

TEST(a_friction_number_is_a_difference_in_fahrenheit_too, DERIVED,
     "worked by hand: 3 x 78 - 72 - 70 - 27 F is 65 F, without the 32; 3 x 78 "
     "F less 22, 21 and 18 degC is 28.2 F")
{
    const ran *r = dw_test_program("heat rule --units us --goal_c '78 F' "
                                   "--temps_c '[22.2222222,21.1111111]' "
                                   "--friction_c '27 F'",
                                   "");
    SAME(r->status, 0);
    SAME_TEXT(r->out, "water  65 F\n");
    r = dw_test_program("heat friction --units us --dough_c '78 F' "
                        "--temps_c '[22,21,18]'",
                        "");
    CHECK(has(r->out, "28.2 F\n"));
    r = dw_test_program("heat friction --units metric --dough_c '78 F' "
                        "--temps_c '[22,21,18]'",
                        "");
    CHECK(has(r->out, "15.7 C\n"));
}

TEST(an_operation_is_also_a_noun_and_a_verb, DERIVED, "written by hand")
{
    const ran *r = dw_test_program("program about", "");
    SAME(r->status, 0);
    CHECK(has(r->out, "version  " DW_VERSION "\n"));
    CHECK(!has(r->out, "{"));
    r = dw_test_program("program about --json", "");
    CHECK(has(r->out, "{\"version\":\"" DW_VERSION "\""));
    r = dw_test_program("program", "");
    SAME(r->status, 0);
    CHECK(has(r->out, "program about"));
}

TEST(what_is_not_understood_is_said_in_one_sentence, DERIVED, "written by hand")
{
    static const char *const cases[][2] = {
        {"bake", "doughwright: bake is not a command; see doughwright help\n"},
        {"program fly",
         "doughwright: fly is not a command; see doughwright help\n"},
        {"help fly", "doughwright: fly is not a command; see doughwright "
                     "help\n"},
        {"ops --nope", "doughwright: --nope is not a flag of this command\n"},
        {"ops --lang", "doughwright: --lang needs a value\n"},
        {"ops --lang fr", "doughwright: lang (fr) is not one of the allowed "
                          "words: en, es\n"},
        {"ops more", "doughwright: more is more than this command takes\n"},
        {"completion fish", "doughwright: SHELL (fish) is not a shell it "
                            "completes for; try bash\n"},
        {"completion", "doughwright: SHELL is required\n"},
        {"program about --units stone",
         "doughwright: units (stone) is not one of the allowed words: metric, "
         "us\n"},
        {"ops --lang es more",
         "doughwright: more is more than this command takes\n"},
        {"ops >/dev/full",
         "doughwright: standard output could not be read or written\n"},
    };
    for (size_t i = 0; i < DW_COUNT(cases); i++) {
        const ran *r = dw_test_program(cases[i][0], "");
        SAME(r->status, 2);
        SAME_TEXT(r->err, cases[i][1]);
        SAME_TEXT(r->out, "");
    }
}

TEST(spanish_is_spoken_when_asked, DERIVED, "translated by hand")
{
    const ran *r = dw_test_program("call program.about --lang es", "{\"x\":1}");
    CHECK(has(r->err, "\"x no es un campo de esta petici\xc3\xb3n\""));
}

TEST(an_operation_that_reads_makes_no_database, LIMIT, "DESIGN: one door")
{
    size_t count;
    const dw_op *ops = dw_ops(&count);
    for (size_t i = 0; i < count; i++) {
        if (ops[i].kind != DW_OP_READ)
            continue;
        char words[200];
        snprintf(words, sizeof words,
                 "call %s --data /tmp/dw-nowhere.db; ls /tmp/dw-nowhere.db",
                 ops[i].name);
        const ran *r = dw_test_program(words, "{}");
        CHECK(has(r->err, "\"code\":\"not_found\",\"field\":\"data\""));
        SAME_TEXT(r->out, "");
    }
    const ran *r = dw_test_program("call shop.get", "{}");
    CHECK(has(r->err, "\"code\":\"missing\",\"field\":\"data\""));
}

TEST(what_is_written_is_read_back_and_a_dry_run_changes_nothing, LIMIT,
     "DESIGN: one door")
{
    dw_temp temp;
    char words[600];
    dw_temp_make(&temp);
    const char *data = dw_temp_path(&temp, "business.db");
    const char *shop = "shop save --name '%s' --zone Etc/UTC --currency EUR "
                       "--units us --data %s %s";
    snprintf(words, sizeof words, shop, "Dough House", data, "");
    SAME(dw_test_program(words, "")->status, 0);
    snprintf(words, sizeof words, shop, "Other", data, "--dry-run");
    SAME(dw_test_program(words, "")->status, 0);
    snprintf(words, sizeof words, "shop get --json --data %s", data);
    const ran *r = dw_test_program(words, "");
    CHECK(has(r->out, "Dough House") && !has(r->out, "Other"));
    dw_temp_remove(&temp);
}

TEST(version_is_told, DERIVED, "written by hand")
{
    const ran *r = dw_test_program("--version", "");
    SAME(r->status, 0);
    SAME_TEXT(r->out, "doughwright " DW_VERSION "\n");
}

/* "formula.scale" as "formula scale" */
static void spaced(char *out, size_t room, const char *op)
{
    snprintf(out, room, "%s", op);
    *strchr(out, '.') = ' ';
}

TEST(every_command_has_help, LIMIT, "the tables")
{
    size_t count;
    const dw_command *const *commands = dw_commands(&count);
    char words[128];
    for (size_t i = 0; i < count; i++) {
        snprintf(words, sizeof words, "%s --help", commands[i]->name);
        const ran *r = dw_test_program(words, "");
        SAME(r->status, 0);
        CHECK(has(r->out, commands[i]->about));
        CHECK(has(r->out, "--help"));
        snprintf(words, sizeof words, "help %s", commands[i]->name);
        CHECK(has(dw_test_program(words, "")->out, commands[i]->about));
    }
    const ran *all = dw_test_program("", "");
    SAME(all->status, 0);
    for (size_t i = 0; i < count; i++)
        CHECK(has(all->out, commands[i]->about));
}

TEST(help_manual_and_completion_know_every_operation, LIMIT, "the tables")
{
    static char manual[1 << 20], completion[1 << 20];
    size_t count;
    const dw_op *ops = dw_ops(&count);
    strcpy(manual, dw_test_program("man", "")->out);
    strcpy(completion, dw_test_program("completion bash", "")->out);
    const ran *r = dw_test_program("help", "");
    for (size_t i = 0; i < count; i++) {
        char name[96], entry[128];
        spaced(name, sizeof name, ops[i].name);
        CHECK(has(r->out, name));
        snprintf(entry, sizeof entry, ".SS %s ", name);
        CHECK(has(manual, entry));
        snprintf(entry, sizeof entry, "    '%s') follow='", name);
        CHECK(has(completion, entry));
    }
}

TEST(the_completion_offers_what_may_follow, DERIVED, "tried in bash")
{
    const ran *r = dw_test_program(
        "completion bash > /tmp/dw-completion-$$; bash -c '"
        ". /tmp/dw-completion-'$$'; "
        "COMP_WORDS=(doughwright prog); COMP_CWORD=1; _doughwright; "
        "echo \"${COMPREPLY[@]}\"; "
        "COMP_WORDS=(doughwright program about --j); COMP_CWORD=3; "
        "_doughwright; echo \"${COMPREPLY[@]}\"'; rm /tmp/dw-completion-$$",
        "");
    SAME(r->status, 0);
    SAME_TEXT(r->out, "program\n--json\n");
    SAME_TEXT(r->err, "");
}

/* Every operation takes the same flags; a field of that name would hide one. */
TEST(no_field_hides_a_flag_of_every_command, LIMIT, "the tables")
{
    static const char *const taken[] = {"help", "json", "data", "key"};
    size_t count;
    const dw_op *ops = dw_ops(&count);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < DW_COUNT(taken); j++)
            if (dw_shape_find(ops[i].request, taken[j]))
                dw_test_fail(__FILE__, __LINE__, "%s has a field %s",
                             ops[i].name, taken[j]);
}

TEST(papers_are_written_to_a_file_and_refused_in_one_sentence, DERIVED,
     "written by hand")
{
    const ran *r = dw_test_program("paper poster", "");
    SAME(r->status, 2);
    CHECK(has(r->err, "SHEET (poster) is not one of the allowed words"));
    r = dw_test_program("paper batch one", "");
    SAME(r->status, 2);
    CHECK(has(r->err, "ID (one)"));
    r = dw_test_program("paper run --day tomorrow", "");
    SAME(r->status, 2);
    CHECK(has(r->err, "day"));
    dw_temp temp;
    char words[256];
    dw_temp_make(&temp);
    snprintf(words, sizeof words, "demo --today 2026-06-05 --data %s",
             dw_temp_path(&temp, "business.db"));
    r = dw_test_program(words, "");
    SAME(r->status, 0);
    snprintf(words, sizeof words,
             "paper run --day 2026-06-05 --lang es --data %s",
             dw_temp_path(&temp, "business.db"));
    r = dw_test_program(words, "");
    SAME(r->status, 0);
    CHECK(strncmp(r->out, "%PDF-", 5) == 0);
    dw_temp_remove(&temp);
}

TEST(verify_says_that_a_journal_holds_and_finds_one_that_was_edited, LIMIT,
     "DESIGN: the journal is append-only")
{
    dw_temp temp;
    char words[600];
    dw_temp_make(&temp);
    const char *path = dw_temp_path(&temp, "a.db");
    snprintf(words, sizeof words,
             "shop save --data %s --name 'Alder Street' --zone UTC"
             " --currency EUR",
             path);
    SAME(dw_test_program(words, "")->status, 0);
    snprintf(words, sizeof words, "verify --data %s", path);
    const ran *r = dw_test_program(words, "");
    SAME(r->status, 0);
    CHECK(strncmp(r->out, "The journal holds: 1 rows.", 26) == 0);
    snprintf(words, sizeof words,
             "sqlite3 %s \"DROP TRIGGER journal_is_not_edited;"
             " UPDATE journal SET device = 'other'\" && doughwright verify"
             " --data %s",
             path, path);
    r = dw_test_shell(words, "");
    SAME(r->status, 2);
    CHECK(strstr(r->err, "was changed outside this program") != NULL);
    dw_temp_remove(&temp);
}
