#include "pdf.h"

#include "dw_test.h"
#include "paper/paper.h"

#include <math.h>
#include <stdlib.h>

/* All that a command prints; the tool's absence is a failure. */
static char *output_of(const char *command)
{
    FILE *from = popen(command, "r");
    size_t room = 1 << 20, count = 0;
    char *text = malloc(room);
    if (!from || !text)
        abort();
    for (size_t n; (n = fread(text + count, 1, room - count - 1, from)) > 0;) {
        count += n;
        if (count + 1 == room && !(text = realloc(text, room *= 2)))
            abort();
    }
    text[count] = '\0';
    if (pclose(from) != 0)
        dw_test_fail(__FILE__, __LINE__, "failed: %s", command);
    return text;
}

/* In place: line ends, no-break spaces and runs of spaces are one space. */
static void squeeze(char *text)
{
    char *to = text;
    bool spaced = true;
    for (const char *c = text; *c; c++) {
        bool nbsp = (unsigned char)c[0] == 0xc2 && (unsigned char)c[1] == 0xa0;
        if (nbsp || strchr(" \n\f", *c)) {
            if (!spaced)
                *to++ = ' ';
            spaced = true;
            c += nbsp;
        } else {
            *to++ = *c;
            spaced = false;
        }
    }
    *to = '\0';
}

static double attribute(const char *tag, const char *name)
{
    char key[32];
    snprintf(key, sizeof key, "%s=\"", name);
    const char *at = strstr(tag, key);
    return at ? atof(at + strlen(key)) : (double)NAN;
}

static void read_words(pdf *p, const char *path)
{
    char command[256];
    snprintf(command, sizeof command, "pdftotext -bbox '%s' -", path);
    char *html = output_of(command);
    p->words = malloc(20000 * sizeof *p->words);
    if (!p->words)
        abort();
    for (char *at = html; (at = strchr(at, '<')); at++) {
        if (strncmp(at, "<page ", 6) == 0) {
            p->pages++;
            p->width = attribute(at, "width");
            p->height = attribute(at, "height");
        }
        if (strncmp(at, "<word ", 6) != 0 || p->words_count == 20000)
            continue;
        pdf_word *word = &p->words[p->words_count++];
        *word = (pdf_word){p->pages,
                           attribute(at, "xMin"),
                           attribute(at, "yMin"),
                           attribute(at, "xMax"),
                           attribute(at, "yMax"),
                           ""};
        const char *text = strchr(at, '>') + 1;
        snprintf(word->text, sizeof word->text, "%.*s", (int)strcspn(text, "<"),
                 text);
    }
    free(html);
}

static void read_back(business *b, pdf *p)
{
    char command[256];
    const char *path = dw_temp_path(&b->temp, "paper.pdf");
    FILE *to = fopen(path, "wb");
    if (!to || fwrite(p->bytes, 1, p->count, to) != p->count || fclose(to))
        abort();
    snprintf(command, sizeof command, "pdftotext '%s' -", path);
    p->text = output_of(command);
    squeeze(p->text);
    read_words(p, path);
}

dw_status pdf_print(business *b, const char *lang, const char *body, pdf *out)
{
    char text[1024];
    snprintf(text, sizeof text, "%s", body);
    for (char *c = text; *c; c++)
        if (*c == '\'')
            *c = '"';
    dw_job job = {.op = &dw_paper_op,
                  .codec = &dw_paper_codec,
                  .body = text,
                  .body_bytes = strlen(text),
                  .lang = lang};
    memset(out, 0, sizeof *out);
    dw_app_perform(b->app, &job);
    b->err = job.err;
    if (job.status != DW_OK)
        return job.status;
    out->bytes = malloc(job.reply_bytes);
    if (!out->bytes)
        abort();
    memcpy(out->bytes, job.reply, job.reply_bytes);
    out->count = job.reply_bytes;
    read_back(b, out);
    return DW_OK;
}

void pdf_free(pdf *p)
{
    free(p->bytes);
    free(p->text);
    free(p->words);
    memset(p, 0, sizeof *p);
}

bool pdf_says(const pdf *p, const char *sentence)
{
    return p->text && strstr(p->text, sentence);
}

/* A word's box is as high as its font; its ink is the middle of it. */
static bool lie_on_another(const pdf_word *a, const pdf_word *b)
{
    double wide = fmin(a->right, b->right) - fmax(a->left, b->left);
    double high = fmin(a->bottom, b->bottom) - fmax(a->top, b->top);
    double least = fmin(a->bottom - a->top, b->bottom - b->top);
    return a->page == b->page && wide > 0.5 && high > 0.35 * least;
}

void pdf_check_layout(const pdf *p, const char *name)
{
    const double margin = 8;
    for (size_t i = 0; i < p->words_count; i++) {
        const pdf_word *word = &p->words[i];
        if (word->left < margin || word->top < 0 ||
            word->right > p->width - margin || word->bottom > p->height)
            dw_test_fail(__FILE__, __LINE__, "%s: \"%s\" leaves page %d", name,
                         word->text, word->page);
        for (size_t j = 0; j < i; j++)
            if (lie_on_another(word, &p->words[j]))
                dw_test_fail(__FILE__, __LINE__,
                             "%s: \"%s\" lies on \"%s\", page %d", name,
                             word->text, p->words[j].text, word->page);
    }
}
