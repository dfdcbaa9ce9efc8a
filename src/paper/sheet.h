/* The kit every paper is drawn with: pages with a head and a foot, rows of
 * cells, check boxes, lines to write on. Inside src/paper.
 *
 * Lengths are points (1/72 in) from the top left corner. A paper is drawn
 * several times, to count its pages and to find its air, so drawing has no
 * effect but ink. What is worked by is 12 pt or more, what only names a blank
 * or a column 9.5; in DejaVu Sans from its files, whatever fonts the machine
 * has besides; greys are light enough to write over and dark enough to copy. A
 * text that does not fit its width goes on in a new line, never beyond it.
 */
#ifndef DW_PAPER_SHEET_H
#define DW_PAPER_SHEET_H

#include "app/rows.h"
#include "doughwright/quantity.h"
#include "os/zone.h"
#include "paper/paper.h"

#include <pango/pangocairo.h>

typedef enum dw_ink {
    DW_INK_BODY,   /* 12 */
    DW_INK_STRONG, /* 12 bold */
    DW_INK_LABEL,  /* 12 grey: what the thing beside it is */
    DW_INK_SMALL,  /* 9.5 grey: the name of a blank or a column */
    DW_INK_AMOUNT, /* 13 bold: what is read from across the bench */
    DW_INK_WALL,   /* 15: read on a wall */
    DW_INK_HEADING,
    DW_INK_LARGE, /* 18 bold: labels */
    DW_INK_TITLE
} dw_ink;

typedef enum dw_cell_kind {
    DW_CELL_TEXT,
    DW_CELL_RIGHT, /* text, right aligned */
    DW_CELL_BOX,   /* a check box */
    DW_CELL_BLANK  /* a line to write on; the text stands behind it */
} dw_cell_kind;

typedef struct dw_cell {
    dw_cell_kind kind;
    double width; /* 0: what the others leave; below 0: as wide as its text */
    dw_ink ink;
    const char *text; /* NULL: nothing */
} dw_cell;

typedef struct dw_sheet {
    dw_call *call;
    dw_shop shop;
    const dw_zone *zone;
    dw_units_choice units;
    const char *title, *detail; /* of the head */
    const char *aside;          /* below the shop's name */
    double width, height;       /* of the paper */
    double left, right, bottom; /* where the foot begins */
    double y;                   /* where the next thing goes */
    double air;                 /* above and below the text of a row */
    int page, pages;
    bool full; /* the arena is: the paper is not handed out */
    bool bare; /* no head and no foot: labels */
    cairo_t *ink;
    PangoContext *context;
} dw_sheet;

typedef void dw_sheet_draw(dw_sheet *sheet, const void *what);

/* Draw `what` into a PDF in the arena. The sheet's call, shop, zone, units,
 * title and paper size are set. DW_E_IO when a font is missing, DW_E_ROOM. */
dw_status dw_sheet_print(dw_sheet *sheet, dw_sheet_draw *draw, const void *what,
                         dw_paper *paper);

/* ---- pages ---- */

/* Begin a page, as wide as it is: a column that was set by left and right ends.
 * The first is begun by dw_sheet_print. */
void dw_sheet_page(dw_sheet *sheet);
/* Begin a new page unless so much is left of this one. */
void dw_sheet_need(dw_sheet *sheet, double height);
void dw_sheet_gap(dw_sheet *sheet, double height);
/* A heading over a rule, with room for at least `height` below it. */
void dw_sheet_heading(dw_sheet *sheet, const char *text, double height);

/* ---- text and rows ---- */

/* At a place of its own; returns its height. */
double dw_sheet_text(dw_sheet *sheet, double x, double y, double width,
                     dw_ink ink, const char *text);
double dw_sheet_text_height(dw_sheet *sheet, double width, dw_ink ink,
                            const char *text);
double dw_sheet_text_width(dw_sheet *sheet, dw_ink ink, const char *text);
/* Across the page at y, which moves on. */
void dw_sheet_say(dw_sheet *sheet, dw_ink ink, const char *text);
/* A row on one baseline over a hairline; a new page when it does not fit. */
void dw_sheet_row(dw_sheet *sheet, const dw_cell *cells, size_t count);
/* The same without the hairline: blanks bring their own line. */
void dw_sheet_plain_row(dw_sheet *sheet, const dw_cell *cells, size_t count);
/* The same as the head of a table: on a light band, no hairline. */
void dw_sheet_head_row(dw_sheet *sheet, const dw_cell *cells, size_t count);
/* Sentences in a frame with a warning sign. */
void dw_sheet_caution(dw_sheet *sheet, const char *const *sentences,
                      size_t count);
/* Lines to write on, the whole width. */
void dw_sheet_lines(dw_sheet *sheet, size_t count);

/* ---- marks ---- */

void dw_sheet_line(dw_sheet *sheet, double x1, double y1, double x2, double y2,
                   double thick, double grey);
void dw_sheet_frame(dw_sheet *sheet, double x, double y, double width,
                    double height, double thick);
void dw_sheet_fill(dw_sheet *sheet, double x, double y, double width,
                   double height, double grey);

#endif
