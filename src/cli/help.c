#include "cli/cli.h"
#include "door/error.h"
#include "doughwright/say.h"

#include <float.h>
#include <math.h>
#include <string.h>

static const char *say(const dw_cli *cli, const char *sentence)
{
    return dw_say_sentence(cli->lang, sentence);
}

void dw_flag_print(const dw_flag *flag, char *out, size_t room)
{
    if (!flag->value)
        snprintf(out, room, "--%s", flag->name);
    else if (flag->value_optional)
        snprintf(out, room, "--%s[=%s]", flag->name, flag->value);
    else
        snprintf(out, room, "--%s %s", flag->name, flag->value);
}

static size_t put_range(const dw_cli *cli, const dw_field *field, char *out,
                        size_t room)
{
    /* ids and moments reach as far as numbers do */
    enum { EXACT_BITS = 53 };
    bool bounded = fabs(field->low) < DBL_MAX &&
                   fabs(field->high) < ldexp(1, EXACT_BITS) - 1;
    bool number = field->kind == DW_REAL || field->kind == DW_WHOLE ||
                  field->kind == DW_REALS || field->kind == DW_WHOLES;
    if (!number || !bounded)
        return 0;
    const dw_value values[] = {
        DW_VALUE_NUMBER("low", field->low),
        DW_VALUE_NUMBER("high", field->high),
        DW_VALUE_TEXT("unit", dw_unit_sentence(field->unit, cli->lang))};
    size_t n = dw_say(out, room, cli->lang, DW_MSG("{low} to {high} {unit}"),
                      values, DW_COUNT(values));
    while (n > 0 && out[n - 1] == ' ') /* no unit */
        out[--n] = '\0';
    return n;
}

static size_t put_choices(const dw_field *field, char *out, size_t room)
{
    size_t n = 0;
    for (size_t i = 0; field->kind == DW_CHOICE && field->words[i]; i++)
        n += dw_say(out + n, room - n, NULL, i ? ", {word}" : "{word}",
                    &(dw_value)DW_VALUE_TEXT("word", field->words[i]), 1);
    return n;
}

/* The flag of the object that the i-th is a member of; `i` when it is none's.
 */
static size_t parent_of(const dw_command *command, size_t i)
{
    const char *name = command->flags[i].name;
    const char *dot = strrchr(name, '.');
    for (size_t j = 0; dot && j < i; j++)
        if (strlen(command->flags[j].name) == (size_t)(dot - name) &&
            strncmp(command->flags[j].name, name, (size_t)(dot - name)) == 0)
            return j;
    return i;
}

/* What an object needs is not needed when the object is not. */
static bool is_required(const dw_command *command, size_t i)
{
    bool required = command->fields[i]->required;
    for (size_t up = parent_of(command, i); required && up != i;
         i = up, up = parent_of(command, i))
        required = command->fields[up]->required;
    return required;
}

void dw_flag_limits(const dw_cli *cli, const dw_command *command, size_t i,
                    char *out, size_t room)
{
    out[0] = '\0';
    if (i >= command->fields_count)
        return;
    const dw_field *field = command->fields[i];
    size_t n = put_range(cli, field, out, room);
    n += put_choices(field, out + n, room - n);
    if (is_required(command, i))
        snprintf(out + n, room - n, "%s%s", n ? "; " : "",
                 say(cli, DW_MSG("required")));
}

void dw_command_synopsis(const dw_command *command, char *out, size_t room)
{
    snprintf(out, room, "%s [FLAGS]%s%s", command->name,
             *command->operands ? " " : "", command->operands);
}

static void put_row(FILE *to, const char *left, const char *right)
{
    enum { LEFT = 28 };
    if (strlen(left) < LEFT - 2)
        fprintf(to, "  %-*s%s\n", LEFT - 2, left, right);
    else
        fprintf(to, "  %s\n%*s%s\n", left, LEFT, "", right);
}

static void put_flag(const dw_cli *cli, FILE *to, const dw_flag *flag,
                     const char *limits)
{
    char left[160], right[800];
    dw_flag_print(flag, left, sizeof left);
    snprintf(right, sizeof right, *limits ? "%s (%s)" : "%s",
             say(cli, flag->about), limits);
    put_row(to, left, right);
}

void dw_help_command(const dw_cli *cli, const dw_command *command, FILE *to)
{
    char synopsis[160];
    size_t count;
    const dw_flag *common = dw_flags_common(&count);
    dw_command_synopsis(command, synopsis, sizeof synopsis);
    fprintf(to, "doughwright %s\n\n%s\n\n", synopsis, say(cli, command->about));
    for (size_t i = 0; i < command->flags_count; i++) {
        char limits[400];
        dw_flag_limits(cli, command, i, limits, sizeof limits);
        put_flag(cli, to, &command->flags[i], limits);
    }
    for (size_t i = 0; i < count; i++)
        if (!dw_command_has_flag(command, common[i].name))
            put_flag(cli, to, &common[i], "");
}

/* "formula" of "formula.scale" */
static bool has_noun(const dw_op *op, const char *noun, size_t bytes)
{
    return strncmp(op->name, noun, bytes) == 0 && op->name[bytes] == '.';
}

void dw_help_noun(const dw_cli *cli, const char *noun, FILE *to)
{
    size_t count;
    const dw_op *ops = dw_ops(&count);
    size_t bytes = strlen(noun);
    for (size_t i = 0; i < count; i++) {
        if (!has_noun(&ops[i], noun, bytes))
            continue;
        char left[96];
        snprintf(left, sizeof left, "%s %s", noun, ops[i].name + bytes + 1);
        put_row(to, left, say(cli, ops[i].about));
    }
}

static void put_nouns(const dw_cli *cli, FILE *to)
{
    size_t count;
    const dw_op *ops = dw_ops(&count);
    for (size_t i = 0; i < count; i++) {
        size_t bytes = strcspn(ops[i].name, ".");
        if (i > 0 && has_noun(&ops[i - 1], ops[i].name, bytes))
            continue;
        char noun[64];
        snprintf(noun, sizeof noun, "%.*s", (int)bytes, ops[i].name);
        dw_help_noun(cli, noun, to);
    }
}

void dw_help_all(const dw_cli *cli, FILE *to)
{
    size_t count;
    const dw_command *const *commands = dw_commands(&count);
    fprintf(
        to, "%s\n\ndoughwright COMMAND [FLAGS]\n\n",
        say(cli, DW_MSG("Runs the dough of a pizza shop or a commissary.")));
    for (size_t i = 0; i < count; i++) {
        char left[96];
        snprintf(left, sizeof left, "%s %s", commands[i]->name,
                 commands[i]->operands);
        put_row(to, left, say(cli, commands[i]->about));
    }
    fprintf(to, "\n%s\n", say(cli, DW_MSG("Operations:")));
    put_nouns(cli, to);
    fprintf(to, "\n%s\n",
            say(cli, DW_MSG("doughwright help COMMAND says more. Numbers may "
                            "carry units: 10 lb, 80 F, 0.375 %.")));
}
