/* How many planted slips are found, at how many false alarms: 1,000 sound
 * formulas of all styles and one slip planted in each, a line of JSON per sort
 * of slip. The criterion is told first. */
#include "slip_cases.h"

#include <stdio.h>

enum { FORMULAS = 1000, STYLES = DW_ROMAN_TRAY + 1 };

typedef struct score {
    int tried, caught, wrong;
} score;

static score run(slip_plant plant, int process)
{
    unsigned long long seed = 20240101ULL + (unsigned long long)process;
    score s = {0, 0, 0};
    for (int i = 0; s.tried < FORMULAS; i++) {
        slip_case c;
        dw_slip first;
        slip_case_draw(&seed, i % STYLES, process, &c);
        if (plant != PLANT_NONE && !slip_case_plant(&seed, plant, &c))
            continue;
        s.tried++;
        if (!slip_case_caught(&c, &first))
            continue;
        s.caught++;
        s.wrong += first.level == DW_WRONG;
    }
    return s;
}

static void print(const char *what, const char *process, score s)
{
    printf("{\"bench\":\"slips\",\"what\":\"%s\",\"process\":\"%s\","
           "\"formulas\":%d,\"caught\":%d,\"caught_percent\":%.1f,"
           "\"called_wrong\":%d}\n",
           what, process, s.tried, s.caught,
           100.0 * s.caught / (s.tried ? s.tried : 1), s.wrong);
}

/* The three sorts the criterion names, together. */
static score criterion(int process)
{
    static const slip_plant plants[] = {PLANT_TENFOLD, PLANT_TENTH,
                                        PLANT_FRESH_DRY};
    score all = {0, 0, 0};
    for (size_t i = 0; i < DW_COUNT(plants); i++) {
        score s = run(plants[i], process);
        all.tried += s.tried;
        all.caught += s.caught;
        all.wrong += s.wrong;
    }
    return all;
}

int main(void)
{
    print("tenfold, tenth and yeast type together", "cold", criterion(DW_COLD));
    for (int process = DW_COLD; process <= DW_FROZEN; process++)
        for (int plant = PLANT_NONE; plant < PLANT_COUNT; plant++)
            print(plant == PLANT_NONE ? "false alarms on sound formulas"
                                      : slip_plant_words[plant],
                  dw_process_words[process], run((slip_plant)plant, process));
    return 0;
}
