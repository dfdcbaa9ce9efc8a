/* The life of a stack's balls, from what was read and when it was moved. */
#ifndef DW_APP_STACK_LIFE_H
#define DW_APP_STACK_LIFE_H

#include "app/batches.h"
#include "app/stack_air.h"
#include "app/taught.h"

/* A moment of the window; early and late: nine lives in ten lie between. 0: not
 * within 14 days, or no band was asked for. */
typedef struct dw_stack_moment {
    int64_t at_ms, early_ms, late_ms;
} dw_stack_moment;
/* Of a window's hour counted from `from_ms`, and its band. */
dw_stack_moment dw_stack_moment_of(int64_t from_ms, bool has, double hours,
                                   const dw_band_moment *band);

typedef struct dw_stack_life {
    double piece_g, dough_c, air_c;
    bool air_read, air_learned; /* neither: the cold room's setting */
    bool closed; /* false: taken to be closed when it is due, or now */
    double bench_h, open_h;
    dw_stack_moment ready, best, use_first, end;
    const char *end_reason;
    /* what it was lived by, and from how many readings; 0: not learned */
    double open_w_per_m2_k, closed_w_per_m2_k, activity, f_Tmin;
    int64_t open_readings, closed_readings, yeast_readings;
} dw_stack_life;
extern const dw_shape dw_stack_life_shape, dw_stack_moment_shape;

extern const char *const dw_no_life_words[];
enum {
    DW_NO_LIFE_FORM,   /* panned, frozen, opened...: no model */
    DW_NO_LIFE_DOUGH,  /* the dough's temperature was not read */
    DW_NO_LIFE_TIMES,  /* nor when the mixer stopped, or the boxes went in */
    DW_NO_LIFE_ANSWER, /* the engine refuses what was read */
};

/* The arena of one life without rows. */
#define DW_STACK_LIFE_BYTES ((size_t)1 << 21)

/* What the stacks of one call share. */
typedef struct dw_stack_lives {
    dw_call *call;
    const dw_shop *shop;
    int64_t members; /* of the band; 0: none */
    dw_taught taught;
    dw_reading_row *cold; /* what the room's thermometers showed */
    size_t cold_count;
    void *block; /* DW_STACK_LIFE_BYTES, for one life at a time */
    dw_recipe *recipes;
    size_t recipes_count, recipes_room;
} dw_stack_lives;

/* What a life is lived from: the dough in the bowl, the bench, the open
 * and the closed stack, the yeast as it is known. The last leg goes on. */
typedef struct dw_stack_story {
    dw_formula formula;
    dw_leg legs[3];
    dw_taught_model yeast;
} dw_stack_story;

/* DW_E_ROOM. At most `batches` recipes are kept. */
dw_status dw_stack_lives_begin(dw_call *call, const dw_shop *shop,
                               int64_t members, size_t batches,
                               dw_stack_lives *lives);
/* The story of a stack's balls, of the dough as it was in the bowl, and, in
 * `life`, what it was read from; the moments of the window stay blank. told
 * false: `none` tells why. */
dw_status dw_stack_story_of(dw_stack_lives *lives, const dw_stack *stack,
                            const dw_batch_row *batch,
                            const dw_product *product, dw_stack_life *life,
                            dw_stack_story *story, bool *told, int *none);
/* Where the balls of such a stack are, in turn, and by what their yeast works:
 * fills legs and yeast of `story`, and air, closed, hours and what was learned
 * of `life`. The story has its formula already. */
dw_status dw_stack_stand(dw_stack_lives *lives, const dw_stack *stack,
                         const dw_batch_row *batch, dw_stack_life *life,
                         dw_stack_story *story);
/* Live it in the block that every stack uses in turn: the reply holds until the
 * next. false: the engine refuses it. */
bool dw_stack_story_live(dw_stack_lives *lives, dw_stack_story *story,
                         const dw_stack_life *life, dw_life_reply *reply);
/* What the windows of all stacks go by. */
dw_life_limits dw_stack_life_limits(void);
/* When to close such a stack, by its life. known false: `none` tells why; so
 * too when the room is too warm for it. */
dw_status dw_stack_close_of(dw_stack_lives *lives, const dw_stack *stack,
                            const dw_batch_row *batch,
                            const dw_product *product, dw_stack_close *close,
                            bool *known, int *none);
/* The request that such a story is. */
void dw_stack_story_request(const dw_stack_lives *lives, dw_stack_story *story,
                            const dw_stack_life *life,
                            dw_life_request *request);

/* A stack's life among others: first all are told, then all are lived at once,
 * by all hands and going on from what is kept of them. has_life false: `none`
 * tells why. */
typedef struct dw_stack_tale {
    int64_t stack_id, stopped_ms;
    dw_stack_story story;
    dw_life_request request; /* the story with the air as it was read */
    size_t over;             /* legs of it that are over for good */
    dw_stack_life life;
    bool has_life;
    int none;
} dw_stack_tale;
/* `tale` stays where it is until it is lived. */
dw_status dw_stack_tale_of(dw_stack_lives *lives, const dw_stack *stack,
                           const dw_batch_row *batch, const dw_product *product,
                           dw_stack_tale *tale);
dw_status dw_stack_tales_live(dw_stack_lives *lives, dw_stack_tale *tales,
                              size_t count);
/* One alone. has_life false: `none` tells why. */
dw_status dw_stack_life_of(dw_stack_lives *lives, const dw_stack *stack,
                           const dw_batch_row *batch, const dw_product *product,
                           dw_stack_life *life, bool *has_life, int *none);

#endif
