#include "paper/fonts.h"

#include "doughwright/base.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangofc-fontmap.h>
#include <pthread.h>

/* Read once for the process: fontconfig and cairo keep what they read of a
 * font, so that a set of its own for each paper would add up. Written once,
 * before any thread reads it. */
static struct {
    FcConfig *config; /* NULL: a file is not there */
    pthread_once_t once;
} set = {.once = PTHREAD_ONCE_INIT};

static void read_set(void)
{
    static const char *const files[] = {DW_FONT_DIR "/DejaVuSans.ttf",
                                        DW_FONT_DIR "/DejaVuSans-Bold.ttf"};
    FcConfig *config = FcConfigCreate();
    bool all = config != NULL;
    for (size_t i = 0; all && i < DW_COUNT(files); i++)
        all = FcConfigAppFontAddFile(config, (const FcChar8 *)files[i]);
    if (config && !all)
        FcConfigDestroy(config);
    set.config = all ? config : NULL;
}

PangoFontMap *dw_paper__fonts(void)
{
    pthread_once(&set.once, read_set);
    if (!set.config)
        return NULL;
    PangoFontMap *map =
        pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    if (map)
        pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map), set.config);
    return map;
}

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define DW_LEAKS_CHECKED
#endif
#elif defined(__SANITIZE_ADDRESS__)
#define DW_LEAKS_CHECKED
#endif
#ifdef DW_LEAKS_CHECKED
/* fontconfig keeps its tables by offsets, which a leak checker cannot follow.
 */
const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void)
{
    return "leak:libfontconfig\n";
}
#endif
