#include "os/zone_rule.h"

#include "doughwright/day.h"

#include <ctype.h>
#include <string.h>

enum { DAY_S = 86400 };

static bool skip_name(const char **at)
{
    const char *from = *at;
    if (*from == '<') {
        const char *end = strchr(from, '>');
        if (!end)
            return false;
        *at = end + 1;
        return true;
    }
    while (isalpha((unsigned char)**at))
        (*at)++;
    return *at - from >= 3;
}

static bool read_number(const char **at, int low, int high, int *value)
{
    int number = 0;
    if (!isdigit((unsigned char)**at))
        return false;
    for (; isdigit((unsigned char)**at) && number <= high; (*at)++)
        number = number * 10 + (**at - '0');
    *value = number;
    return number >= low && number <= high;
}

/* [+-]hours[:minutes[:seconds]]; up to a week of hours. */
static bool read_time(const char **at, int32_t *seconds)
{
    int sign = 1, part[3] = {0, 0, 0};
    if (**at == '-')
        sign = -1;
    if (**at == '-' || **at == '+')
        (*at)++;
    if (!read_number(at, 0, 167, &part[0]))
        return false;
    for (int i = 1; i < 3 && **at == ':'; i++) {
        (*at)++;
        if (!read_number(at, 0, 59, &part[i]))
            return false;
    }
    *seconds = sign * (part[0] * 3600 + part[1] * 60 + part[2]);
    return true;
}

static bool read_day(const char **at, dw_zone__turn *turn)
{
    if (**at == 'M') {
        turn->kind = DW_ZONE__MONTH;
        (*at)++;
        return read_number(at, 1, 12, &turn->month) && *(*at)++ == '.' &&
               read_number(at, 1, 5, &turn->week) && *(*at)++ == '.' &&
               read_number(at, 0, 6, &turn->day);
    }
    if (**at == 'J') {
        turn->kind = DW_ZONE__JULIAN;
        (*at)++;
        return read_number(at, 1, 365, &turn->day);
    }
    turn->kind = DW_ZONE__ZERO_BASED;
    return read_number(at, 0, 365, &turn->day);
}

static bool read_turn(const char **at, dw_zone__turn *turn)
{
    if (*(*at)++ != ',' || !read_day(at, turn))
        return false;
    turn->second = 2 * 3600;
    if (**at != '/')
        return true;
    (*at)++;
    return read_time(at, &turn->second);
}

/* POSIX counts offsets westward; we add them to UTC. */
static bool read_offset(const char **at, int32_t *offset_s)
{
    int32_t west;
    if (!read_time(at, &west) || west < -DAY_S || west > DAY_S)
        return false;
    *offset_s = -west;
    return true;
}

bool dw_zone__rule_parse(const char *text, dw_zone__rule *rule)
{
    const char *at = text;
    memset(rule, 0, sizeof *rule);
    if (!skip_name(&at) || !read_offset(&at, &rule->standard_s))
        return false;
    if (!*at)
        return true;
    rule->has_summer = true;
    rule->summer_s = rule->standard_s + 3600;
    if (!skip_name(&at))
        return false;
    if (*at != ',' && !read_offset(&at, &rule->summer_s))
        return false;
    return read_turn(&at, &rule->start) && read_turn(&at, &rule->end) && !*at;
}

/* Week 5 is the last of the month. */
static int64_t day_of_month_rule(const dw_zone__turn *turn, int64_t year)
{
    int64_t first = dw_day_from_date(year, turn->month, 1);
    int64_t next = turn->month == 12
                       ? dw_day_from_date(year + 1, 1, 1)
                       : dw_day_from_date(year, turn->month + 1, 1);
    int after = (turn->day - dw_day_weekday(first) + 7) % 7;
    int64_t day = first + after + INT64_C(7) * (turn->week - 1);
    return day < next ? day : day - 7;
}

/* Days of the year: J counts without 29 February, n from 0 with it. */
static int64_t day_of_turn(const dw_zone__turn *turn, int64_t year)
{
    if (turn->kind == DW_ZONE__MONTH)
        return day_of_month_rule(turn, year);
    int64_t first = dw_day_from_date(year, 1, 1);
    if (turn->kind == DW_ZONE__ZERO_BASED)
        return first + turn->day;
    int64_t march = dw_day_from_date(year, 3, 1);
    return turn->day < 60 ? first + turn->day - 1 : march + turn->day - 60;
}

int64_t dw_zone__rule_offset_s(const dw_zone__rule *rule, int64_t utc_s)
{
    if (!rule->has_summer)
        return rule->standard_s;
    int64_t local_s = utc_s + rule->standard_s, year;
    int month, day;
    dw_day_to_date(local_s / DAY_S - (local_s % DAY_S < 0), &year, &month,
                   &day);
    int64_t start = day_of_turn(&rule->start, year) * DAY_S +
                    rule->start.second - rule->standard_s;
    int64_t end = day_of_turn(&rule->end, year) * DAY_S + rule->end.second -
                  rule->summer_s;
    bool summer = start < end ? utc_s >= start && utc_s < end
                              : utc_s >= start || utc_s < end;
    return summer ? rule->summer_s : rule->standard_s;
}
