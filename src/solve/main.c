/* doughwright-solve: a mixed-integer program on standard input, its solution on
 * standard output (solve/wire.h). The only program that holds COIN-OR's CBC. */
#include "solve/wire.h"

#include <coin/Cbc_C_Interface.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct problem {
    dw_solve__ask ask;
    double *cost, *low, *high, *row_low, *row_high, *value, *start;
    bool *whole;
    int32_t *row_start, *column;
} problem;

/* Read so many into new memory; the program ends when that fails. */
static void *take(size_t count, size_t bytes)
{
    void *memory = malloc(count * bytes + 1);
    if (!memory || !dw_solve__read(STDIN_FILENO, memory, count * bytes))
        exit(1);
    return memory;
}

static void read_problem(problem *p)
{
    if (!dw_solve__read(STDIN_FILENO, &p->ask, sizeof p->ask) ||
        p->ask.mark != DW_SOLVE_MARK)
        exit(1);
    size_t columns = p->ask.columns, rows = p->ask.rows;
    p->cost = take(columns, sizeof(double));
    p->low = take(columns, sizeof(double));
    p->high = take(columns, sizeof(double));
    p->whole = take(columns, sizeof(bool));
    p->row_low = take(rows, sizeof(double));
    p->row_high = take(rows, sizeof(double));
    p->row_start = take(rows + 1, sizeof(int32_t));
    p->column = take(p->ask.entries, sizeof(int32_t));
    p->value = take(p->ask.entries, sizeof(double));
    p->start = p->ask.has_start ? take(columns, sizeof(double)) : NULL;
}

/* The solver wants the matrix by columns. */
static void turn_matrix(const problem *p, int *start, int *row, double *value)
{
    size_t columns = p->ask.columns, rows = p->ask.rows;
    memset(start, 0, (columns + 1) * sizeof *start);
    for (size_t k = 0; k < p->ask.entries; k++)
        start[p->column[k] + 1]++;
    for (size_t j = 0; j < columns; j++)
        start[j + 1] += start[j];
    for (size_t i = 0; i < rows; i++)
        for (int32_t k = p->row_start[i]; k < p->row_start[i + 1]; k++) {
            int at = start[p->column[k]]++;
            row[at] = (int)i;
            value[at] = p->value[k];
        }
    memmove(start + 1, start, columns * sizeof *start);
    start[0] = 0;
}

static void set_number(Cbc_Model *model, const char *name, double value)
{
    char text[40];
    snprintf(text, sizeof text, "%.9g", value);
    Cbc_setParameter(model, name, text);
}

/* A start names only what must be whole: the rest follows. */
static void set_start(Cbc_Model *model, const problem *p)
{
    int *index = malloc((p->ask.columns + 1) * sizeof *index);
    double *value = malloc((p->ask.columns + 1) * sizeof *value);
    int count = 0;
    if (!index || !value)
        exit(1);
    for (size_t j = 0; j < p->ask.columns; j++)
        if (p->whole[j]) {
            index[count] = (int)j;
            value[count++] = p->start[j];
        }
    Cbc_setMIPStartI(model, count, index, value);
    free(index);
    free(value);
}

static Cbc_Model *load(const problem *p)
{
    int *start = malloc((p->ask.columns + 1) * sizeof *start);
    int *row = malloc((p->ask.entries + 1) * sizeof *row);
    double *value = malloc((p->ask.entries + 1) * sizeof *value);
    Cbc_Model *model = Cbc_newModel();
    if (!start || !row || !value || !model)
        exit(1);
    turn_matrix(p, start, row, value);
    Cbc_loadProblem(model, (int)p->ask.columns, (int)p->ask.rows, start, row,
                    value, p->low, p->high, p->cost, p->row_low, p->row_high);
    for (size_t j = 0; j < p->ask.columns; j++)
        if (p->whole[j])
            Cbc_setInteger(model, (int)j);
    Cbc_setParameter(model, "log", "0");
    Cbc_setParameter(model, "timeMode", "elapsed");
    set_number(model, "sec", p->ask.seconds);
    set_number(model, "ratio", p->ask.gap);
    if (p->start)
        set_start(model, p);
    free(start);
    free(row);
    free(value);
    return model;
}

/* Whatever the library prints goes nowhere. */
static int own_output(void)
{
    int out = fcntl(STDOUT_FILENO, F_DUPFD_CLOEXEC, 3);
    int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (out < 0 || nowhere < 0 || dup2(nowhere, STDOUT_FILENO) < 0)
        exit(1);
    close(nowhere);
    return out;
}

int main(void)
{
    problem p;
    int out = own_output();
    read_problem(&p);
    Cbc_Model *model = load(&p);
    Cbc_solve(model);
    bool linear = !memchr(p.whole, 1, p.ask.columns);
    const double *x =
        linear ? Cbc_getColSolution(model) : Cbc_bestSolution(model);
    bool impossible = Cbc_isProvenInfeasible(model) || Cbc_isAbandoned(model);
    double cost = Cbc_getObjValue(model);
    double bound = linear ? cost : Cbc_getBestPossibleObjValue(model);
    if (impossible || (linear && !Cbc_isProvenOptimal(model)))
        bound = -DW_SOLVER_INFINITE;
    dw_solve__answer answer = {DW_SOLVE_MARK, x && !impossible, cost, bound};
    bool sent =
        dw_solve__write(out, &answer, sizeof answer) &&
        (!answer.found || dw_solve__write(out, x, p.ask.columns * sizeof *x));
    /* Leave at once: nobody needs the library to tidy up. */
    _exit(sent ? 0 : 1);
}
