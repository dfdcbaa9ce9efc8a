/* Running the program as a person would, from a shell. */
#ifndef DW_TEST_PROGRAM_H
#define DW_TEST_PROGRAM_H

typedef struct ran {
    int status; /* exit status, -1 when it did not end by itself */
    char out[1 << 20], err[16 << 10];
} ran;

/* `words` are shell words after the program's name; `input` is its standard
 * input. It runs with no HOME and no database named, in English. Static,
 * overwritten by the next call. */
const ran *dw_test_program(const char *words, const char *input);
/* The same for a shell line in which `doughwright` is the program. */
const ran *dw_test_shell(const char *line, const char *input);

#endif
