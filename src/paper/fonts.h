/* The fonts of the papers. Inside src/paper. */
#ifndef DW_PAPER_FONTS_H
#define DW_PAPER_FONTS_H

#include <pango/pangocairo.h>

/* A map of DejaVu Sans from its two files and nothing else, so that a paper is
 * the same on every machine; it belongs to one thread at a time. Yours:
 * g_object_unref. NULL when a file is not there. */
PangoFontMap *dw_paper__fonts(void);

#endif
