/* Papers printed for a business of the tests, and read back by pdftotext. */
#ifndef DW_TEST_PDF_H
#define DW_TEST_PDF_H

#include "../ops/business.h"

/* A word where it stands on its page, points from the top left. */
typedef struct pdf_word {
    int page;
    double left, top, right, bottom;
    char text[80];
} pdf_word;

typedef struct pdf {
    char *bytes;
    size_t count;
    char *text; /* no-break spaces are plain ones, runs of spaces are one */
    int pages;
    double width, height;
    pdf_word *words;
    size_t words_count;
} pdf;

/* Print what the body asks for (single quotes stand for double ones) and read
 * it. The status of the job; on refusal *out is empty and b->err says why. */
dw_status pdf_print(business *b, const char *lang, const char *body, pdf *out);
void pdf_free(pdf *p);

bool pdf_says(const pdf *p, const char *sentence);
/* Words that leave the page or lie on one another, said as failures. */
void pdf_check_layout(const pdf *p, const char *name);

#endif
