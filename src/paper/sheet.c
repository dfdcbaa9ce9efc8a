#include "paper/sheet.h"

#include "paper/fonts.h"
#include "paper/words.h"

#include <cairo-pdf.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double MARGIN = 28, FOOT = 21, GAP = 6, BOX = 11;
static const double HAIR_GREY = 0.72, BAND_GREY = 0.92;
/* DejaVu Sans Condensed is the same drawing at nine tenths of its width: as
 * legible, and a Spanish sentence more often stays on its line. */
static const double NARROW = 0.9;

static const struct {
    double size, grey;
    bool bold;
} inks[] = {
    [DW_INK_BODY] = {12, 0, false},     [DW_INK_STRONG] = {12, 0, true},
    [DW_INK_LABEL] = {12, 0.32, false}, [DW_INK_SMALL] = {9.5, 0.25, false},
    [DW_INK_AMOUNT] = {13, 0, true},    [DW_INK_WALL] = {15, 0, false},
    [DW_INK_HEADING] = {14, 0, true},   [DW_INK_LARGE] = {18, 0, true},
    [DW_INK_TITLE] = {22, 0, true},
};

/* ---- marks --------------------------------------------------------------- */

void dw_sheet_line(dw_sheet *sheet, double x1, double y1, double x2, double y2,
                   double thick, double grey)
{
    cairo_set_source_rgb(sheet->ink, grey, grey, grey);
    cairo_set_line_width(sheet->ink, thick);
    cairo_move_to(sheet->ink, x1, y1);
    cairo_line_to(sheet->ink, x2, y2);
    cairo_stroke(sheet->ink);
}

void dw_sheet_frame(dw_sheet *sheet, double x, double y, double width,
                    double height, double thick)
{
    cairo_set_source_rgb(sheet->ink, 0, 0, 0);
    cairo_set_line_width(sheet->ink, thick);
    cairo_rectangle(sheet->ink, x, y, width, height);
    cairo_stroke(sheet->ink);
}

void dw_sheet_fill(dw_sheet *sheet, double x, double y, double width,
                   double height, double grey)
{
    cairo_set_source_rgb(sheet->ink, grey, grey, grey);
    cairo_rectangle(sheet->ink, x, y, width, height);
    cairo_fill(sheet->ink);
}

/* A triangle with an exclamation mark, its foot on the baseline. */
static void warning_sign(dw_sheet *sheet, double x, double base)
{
    cairo_t *ink = sheet->ink;
    cairo_set_source_rgb(ink, 0, 0, 0);
    cairo_set_line_width(ink, 1.4);
    cairo_set_line_join(ink, CAIRO_LINE_JOIN_ROUND);
    cairo_move_to(ink, x, base);
    cairo_rel_line_to(ink, 8, -14);
    cairo_rel_line_to(ink, 8, 14);
    cairo_close_path(ink);
    cairo_stroke(ink);
    dw_sheet_line(sheet, x + 8, base - 9.5, x + 8, base - 4.5, 1.6, 0);
    dw_sheet_fill(sheet, x + 7.2, base - 3.2, 1.6, 1.6, 0);
}

/* ---- text ---------------------------------------------------------------- */

/* width < 0: as wide as it is. Yours. */
static PangoLayout *lay(const dw_sheet *sheet, double width, dw_ink ink,
                        const char *text)
{
    PangoLayout *layout = pango_layout_new(sheet->context);
    PangoFontDescription *font = pango_font_description_new();
    pango_font_description_set_family_static(font, "DejaVu Sans");
    pango_font_description_set_weight(
        font, inks[ink].bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font,
                                             inks[ink].size * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    PangoAttrList *plain = pango_attr_list_new();
    pango_attr_list_insert(plain, pango_attr_insert_hyphens_new(FALSE));
    pango_layout_set_attributes(layout, plain);
    pango_attr_list_unref(plain);
    if (width >= 0)
        pango_layout_set_width(layout, (int)(width / NARROW * PANGO_SCALE));
    pango_layout_set_text(layout, text ? text : "", -1);
    return layout;
}

static double height_of(PangoLayout *layout)
{
    int width, height;
    pango_layout_get_size(layout, &width, &height);
    return (double)height / PANGO_SCALE;
}

static double width_of(PangoLayout *layout)
{
    int width, height;
    pango_layout_get_size(layout, &width, &height);
    return (double)width / PANGO_SCALE * NARROW;
}

static double base_of(PangoLayout *layout)
{
    return (double)pango_layout_get_baseline(layout) / PANGO_SCALE;
}

static void show(dw_sheet *sheet, PangoLayout *layout, dw_ink ink, double x,
                 double y)
{
    double grey = inks[ink].grey;
    cairo_save(sheet->ink);
    cairo_set_source_rgb(sheet->ink, grey, grey, grey);
    cairo_translate(sheet->ink, x, y);
    cairo_scale(sheet->ink, NARROW, 1);
    cairo_move_to(sheet->ink, 0, 0);
    pango_cairo_show_layout(sheet->ink, layout);
    cairo_restore(sheet->ink);
}

double dw_sheet_text(dw_sheet *sheet, double x, double y, double width,
                     dw_ink ink, const char *text)
{
    PangoLayout *layout = lay(sheet, width, ink, text);
    show(sheet, layout, ink, x, y);
    double height = height_of(layout);
    g_object_unref(layout);
    return height;
}

double dw_sheet_text_height(dw_sheet *sheet, double width, dw_ink ink,
                            const char *text)
{
    PangoLayout *layout = lay(sheet, width, ink, text);
    double height = height_of(layout);
    g_object_unref(layout);
    return height;
}

double dw_sheet_text_width(dw_sheet *sheet, dw_ink ink, const char *text)
{
    PangoLayout *layout = lay(sheet, -1, ink, text);
    double width = width_of(layout);
    g_object_unref(layout);
    return width;
}

void dw_sheet_say(dw_sheet *sheet, dw_ink ink, const char *text)
{
    double width = sheet->right - sheet->left;
    dw_sheet_need(sheet, dw_sheet_text_height(sheet, width, ink, text));
    sheet->y += dw_sheet_text(sheet, sheet->left, sheet->y, width, ink, text);
}

/* ---- pages --------------------------------------------------------------- */

/* Text that ends at the right margin. */
static void text_to_right(dw_sheet *sheet, double y, dw_ink ink,
                          const char *text)
{
    double width = dw_sheet_text_width(sheet, ink, text);
    dw_sheet_text(sheet, sheet->right - width, y, width + 1, ink, text);
}

static void draw_head(dw_sheet *sheet)
{
    double y = MARGIN - 8, half = (sheet->right - sheet->left) * 0.36;
    const char *aside = sheet->page == 1 ? sheet->aside : NULL;
    double wide =
        fmax(dw_sheet_text_width(sheet, DW_INK_STRONG, sheet->shop.name),
             dw_sheet_text_width(sheet, DW_INK_BODY, aside));
    double shop = fmin(wide + 1, half);
    double width = sheet->right - sheet->left - shop - GAP;
    bool short_one =
        dw_sheet_text_width(sheet, DW_INK_TITLE, sheet->title) <= width;
    dw_ink ink = sheet->page > 1 ? DW_INK_HEADING
                 : short_one     ? DW_INK_TITLE
                                 : DW_INK_LARGE;
    double title =
        dw_sheet_text(sheet, sheet->left, y, width, ink, sheet->title);
    double beside = dw_sheet_text(sheet, sheet->right - shop, y + 2, shop,
                                  DW_INK_STRONG, sheet->shop.name);
    if (aside)
        beside += dw_sheet_text(sheet, sheet->right - shop, y + 2 + beside,
                                shop, DW_INK_BODY, aside);
    y += fmax(title, beside + 2);
    if (sheet->page == 1 && sheet->detail)
        y += dw_sheet_text(sheet, sheet->left, y, sheet->right - sheet->left,
                           DW_INK_BODY, sheet->detail);
    y += 4;
    dw_sheet_line(sheet, sheet->left, y, sheet->right, y, 1.6, 0);
    sheet->y = y + 2;
}

static void draw_foot(dw_sheet *sheet)
{
    double y = sheet->height - MARGIN + 8 - 12;
    const dw_value printed[] = {
        DW_VALUE_TEXT("date", dw_paper__moment(sheet, sheet->call->now_ms)),
        DW_VALUE_TEXT("version", DW_VERSION)};
    const dw_value page[] = {DW_VALUE_NUMBER("page", sheet->page),
                             DW_VALUE_NUMBER("pages", sheet->pages)};
    dw_sheet_line(sheet, sheet->left, y - 5, sheet->right, y - 5, 0.5,
                  HAIR_GREY);
    dw_sheet_text(
        sheet, sheet->left, y, sheet->right - sheet->left - 120, DW_INK_SMALL,
        dw_paper__say(sheet, DW_MSG("Printed {date}, Doughwright {version}"),
                      printed, DW_COUNT(printed)));
    text_to_right(sheet, y, DW_INK_SMALL,
                  dw_paper__say(sheet, DW_MSG("Page {page} of {pages}"), page,
                                DW_COUNT(page)));
}

void dw_sheet_page(dw_sheet *sheet)
{
    if (sheet->page > 0)
        cairo_show_page(sheet->ink);
    sheet->page++;
    sheet->y = 0;
    sheet->left = MARGIN; /* a column ends with its page */
    sheet->right = sheet->width - MARGIN;
    if (sheet->bare)
        return;
    draw_head(sheet);
    draw_foot(sheet);
}

void dw_sheet_need(dw_sheet *sheet, double height)
{
    if (sheet->y + height > sheet->bottom)
        dw_sheet_page(sheet);
}

void dw_sheet_gap(dw_sheet *sheet, double height)
{
    sheet->y += height;
}

void dw_sheet_heading(dw_sheet *sheet, const char *text, double height)
{
    dw_sheet_need(sheet, height + 34);
    sheet->y += 7;
    dw_sheet_say(sheet, DW_INK_HEADING, text);
    sheet->y += 2;
    dw_sheet_line(sheet, sheet->left, sheet->y, sheet->right, sheet->y, 0.8, 0);
    sheet->y += 2;
}

/* ---- rows ---------------------------------------------------------------- */

enum { CELLS_MOST = 10 };

typedef struct placed {
    double x[CELLS_MOST], width[CELLS_MOST];
    PangoLayout *layout[CELLS_MOST]; /* NULL: no text */
    double base, height;
} placed;

static void place_columns(dw_sheet *sheet, const dw_cell *cells, size_t count,
                          placed *at)
{
    double taken = 0, x = sheet->left;
    size_t open = 0;
    for (size_t i = 0; i < count; i++) {
        at->width[i] = cells[i].width;
        if (cells[i].width < 0)
            at->width[i] =
                dw_sheet_text_width(sheet, cells[i].ink, cells[i].text) + 0.5;
        taken += at->width[i] + (i > 0 ? GAP : 0);
        open += cells[i].width == 0;
    }
    double rest =
        open ? (sheet->right - sheet->left - taken) / (double)open : 0;
    for (size_t i = 0; i < count; i++) {
        at->x[i] = x;
        at->width[i] += cells[i].width == 0 ? rest : 0;
        x += at->width[i] + GAP;
    }
}

/* Lay the texts; the row is as high as the highest on a common baseline. */
static void place_texts(const dw_sheet *sheet, const dw_cell *cells,
                        size_t count, placed *at)
{
    double below = 0, least = 0;
    for (size_t i = 0; i < count; i++) {
        const dw_cell *cell = &cells[i];
        at->layout[i] = NULL;
        if (cell->kind == DW_CELL_BLANK)
            least = 15 + sheet->air;
        if (cell->kind == DW_CELL_BOX || !cell->text)
            continue;
        bool behind = cell->kind == DW_CELL_BLANK;
        at->layout[i] =
            lay(sheet, behind ? -1 : at->width[i], cell->ink, cell->text);
        if (cell->kind == DW_CELL_RIGHT)
            pango_layout_set_alignment(at->layout[i], PANGO_ALIGN_RIGHT);
        double base = base_of(at->layout[i]);
        at->base = fmax(at->base, base);
        below = fmax(below, height_of(at->layout[i]) - base);
    }
    double text = fmax(at->base + below, 14);
    at->base = fmax(at->base, 11.2);
    at->height = fmax(text + sheet->air, least);
    at->base += fmax(at->height - text - sheet->air * 0.6, sheet->air * 0.4);
}

static void draw_blank(dw_sheet *sheet, const placed *at, size_t i,
                       const dw_cell *cell, double base)
{
    double end = at->x[i] + at->width[i];
    if (at->layout[i]) {
        end -= width_of(at->layout[i]);
        show(sheet, at->layout[i], cell->ink, end,
             base - base_of(at->layout[i]));
        end -= 3;
    }
    dw_sheet_line(sheet, at->x[i], base + 2.5, end, base + 2.5, 0.8, 0.25);
}

static void draw_cells(dw_sheet *sheet, const dw_cell *cells, size_t count,
                       const placed *at)
{
    double base = sheet->y + at->base;
    for (size_t i = 0; i < count; i++) {
        PangoLayout *layout = at->layout[i];
        if (cells[i].kind == DW_CELL_BOX)
            dw_sheet_frame(sheet, at->x[i] + 1, base - BOX + 1, BOX, BOX, 1.1);
        else if (cells[i].kind == DW_CELL_BLANK)
            draw_blank(sheet, at, i, &cells[i], base);
        else if (layout)
            show(sheet, layout, cells[i].ink, at->x[i], base - base_of(layout));
        if (layout)
            g_object_unref(layout);
    }
}

static void place(dw_sheet *sheet, const dw_cell *cells, size_t count,
                  placed *at)
{
    DW_ASSERT(count <= CELLS_MOST);
    *at = (placed){.base = 0};
    place_columns(sheet, cells, count, at);
    place_texts(sheet, cells, count, at);
}

static void forget(placed *at, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (at->layout[i])
            g_object_unref(at->layout[i]);
}

void dw_sheet_plain_row(dw_sheet *sheet, const dw_cell *cells, size_t count)
{
    placed at;
    place(sheet, cells, count, &at);
    if (sheet->y + at.height > sheet->bottom) {
        forget(&at, count); /* the new page may be wider than the column was */
        dw_sheet_page(sheet);
        place(sheet, cells, count, &at);
    }
    draw_cells(sheet, cells, count, &at);
    sheet->y += at.height;
}

void dw_sheet_row(dw_sheet *sheet, const dw_cell *cells, size_t count)
{
    dw_sheet_plain_row(sheet, cells, count);
    dw_sheet_line(sheet, sheet->left, sheet->y, sheet->right, sheet->y, 0.4,
                  HAIR_GREY);
}

void dw_sheet_head_row(dw_sheet *sheet, const dw_cell *cells, size_t count)
{
    placed at;
    place(sheet, cells, count, &at);
    dw_sheet_need(sheet, at.height + 40);
    dw_sheet_fill(sheet, sheet->left - 3, sheet->y,
                  sheet->right - sheet->left + 6, at.height, BAND_GREY);
    draw_cells(sheet, cells, count, &at);
    sheet->y += at.height;
}

void dw_sheet_caution(dw_sheet *sheet, const char *const *sentences,
                      size_t count)
{
    const char *all = "";
    for (size_t i = 0; i < count; i++)
        all = dw_paper__print(sheet, "%s%s%s", all, *all ? " " : "",
                              sentences[i]);
    double indent = 27, width = sheet->right - sheet->left - indent - 6;
    double height = dw_sheet_text_height(sheet, width, DW_INK_BODY, all) + 7;
    dw_sheet_need(sheet, height + 8);
    sheet->y += 4;
    dw_sheet_frame(sheet, sheet->left, sheet->y, sheet->right - sheet->left,
                   height, 1.2);
    warning_sign(sheet, sheet->left + 7, sheet->y + height / 2 + 7);
    dw_sheet_text(sheet, sheet->left + indent, sheet->y + 3, width, DW_INK_BODY,
                  all);
    sheet->y += height + 4;
}

void dw_sheet_lines(dw_sheet *sheet, size_t count)
{
    const dw_cell line = {DW_CELL_BLANK, 0, DW_INK_BODY, NULL};
    for (size_t i = 0; i < count; i++)
        dw_sheet_plain_row(sheet, &line, 1);
}

/* ---- the file ------------------------------------------------------------ */

typedef struct pdf {
    char *bytes;
    size_t count, room;
} pdf;

static cairo_status_t pdf_write(void *to, const unsigned char *data,
                                unsigned count)
{
    pdf *out = to;
    if (out->count + count > out->room) {
        size_t room = 2 * (out->count + count);
        char *grown = realloc(out->bytes, room);
        if (!grown)
            return CAIRO_STATUS_NO_MEMORY;
        out->bytes = grown;
        out->room = room;
    }
    memcpy(out->bytes + out->count, data, count);
    out->count += count;
    return CAIRO_STATUS_SUCCESS;
}

static PangoContext *open_context(PangoFontMap *fonts)
{
    PangoContext *context = pango_font_map_create_context(fonts);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_cairo_context_set_resolution(context, 72);
    pango_context_set_round_glyph_positions(context, FALSE);
    return context;
}

/* One time through; the pages are counted and the file is left in *out. */
static dw_status draw_once(dw_sheet *sheet, dw_sheet_draw *draw,
                           const void *what, pdf *out)
{
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
        pdf_write, out, sheet->width, sheet->height);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                   dw_paper__iso(sheet, sheet->call->now_ms));
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR,
                                   "Doughwright " DW_VERSION);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE,
                                   sheet->title ? sheet->title : "");
    sheet->ink = cairo_create(surface);
    sheet->page = 0;
    dw_sheet_page(sheet);
    draw(sheet, what);
    sheet->pages = sheet->page;
    cairo_show_page(sheet->ink);
    cairo_destroy(sheet->ink);
    cairo_surface_finish(surface);
    bool good = cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(surface);
    return good && !sheet->full
               ? DW_OK
               : dw_fail(sheet->call->err, DW_E_ROOM, "paper", NULL);
}

/* As airy as its least number of pages allows: a few rows are not left over for
 * a page of their own. What a trial wrote into the arena is dropped. */
static dw_status draw_best(dw_sheet *sheet, dw_sheet_draw *draw,
                           const void *what, pdf *out)
{
    static const double airs[] = {5, 4, 3, 2};
    const dw_arena before = *sheet->call->arena;
    double best = airs[0];
    int fewest = 0;
    size_t trials = sheet->bare ? 1 : DW_COUNT(airs);
    for (size_t i = 0; i < trials && fewest != 1; i++) {
        sheet->air = airs[i];
        out->count = 0;
        DW_TRY(draw_once(sheet, draw, what, out));
        *sheet->call->arena = before;
        if (fewest == 0 || sheet->pages < fewest) {
            fewest = sheet->pages;
            best = airs[i];
        }
    }
    sheet->air = best;
    sheet->pages = fewest;
    out->count = 0;
    return draw_once(sheet, draw, what, out);
}

static dw_status keep(dw_call *call, const pdf *out, dw_paper *paper)
{
    char *bytes = dw_arena_take(call->arena, out->count);
    if (!bytes)
        return dw_fail(call->err, DW_E_ROOM, "paper", NULL);
    memcpy(bytes, out->bytes, out->count);
    paper->bytes = bytes;
    paper->count = out->count;
    return DW_OK;
}

dw_status dw_sheet_print(dw_sheet *sheet, dw_sheet_draw *draw, const void *what,
                         dw_paper *paper)
{
    PangoFontMap *fonts = dw_paper__fonts();
    if (!fonts)
        return dw_fail(sheet->call->err, DW_E_IO, "font", DW_FONT_DIR);
    sheet->context = open_context(fonts);
    sheet->bottom = sheet->height - MARGIN - FOOT + 8;
    pdf out = {NULL, 0, 0};
    dw_status status = draw_best(sheet, draw, what, &out);
    if (status == DW_OK)
        status = keep(sheet->call, &out, paper);
    free(out.bytes);
    g_object_unref(sheet->context);
    g_object_unref(fonts);
    return status;
}
