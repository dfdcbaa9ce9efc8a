#include "app/stack_air.h"
#include "dw_test.h"

#define HOUR_MS 3600000LL

static const dw_leg whole[3] = {{0.5, 23, 8}, {2, 3, 8}, {1, 3, 3}};

/* Hours after the mixer stopped. */
static dw_stack_times at(double closing_h, double now_h, bool closed)
{
    return (dw_stack_times){.stopped_ms = 0,
                            .opened_ms = HOUR_MS / 2,
                            .closing_ms = (int64_t)(closing_h * HOUR_MS),
                            .now_ms = (int64_t)(now_h * HOUR_MS),
                            .closed = closed};
}

static dw_reading_row reading(double at_h, double celsius, int64_t batch_id)
{
    return (dw_reading_row){.batch_id = batch_id,
                            .celsius = celsius,
                            .occurred_ms = (int64_t)(at_h * HOUR_MS)};
}

static void legs_are(const dw_stack_air *air, const dw_stack_times *times,
                     const dw_leg *want, size_t count, size_t over)
{
    static unsigned char block[1 << 16];
    dw_arena arena;
    dw_stack_legs legs;
    dw_arena_init(&arena, block, sizeof block);
    NEED(dw_stack_air_legs(air, times, whole, &arena, &legs));
    SAME(legs.count, count);
    SAME(legs.over, over);
    for (size_t i = 0; i < count && legs.count == count; i++) {
        NEAR(legs.legs[i].hours, want[i].hours, 1e-9);
        NEAR(legs.legs[i].air_c, want[i].air_c, 1e-9);
        NEAR(legs.legs[i].h_w_per_m2_k, want[i].h_w_per_m2_k, 1e-9);
    }
    NEAR(legs.air_c, want[count - 1].air_c, 1e-9);
}

TEST(without_readings_a_stack_has_its_three_legs, DERIVED, "worked by hand")
{
    dw_stack_air air = {.usual_c = 3};
    dw_stack_times closed = at(2.5, 10, true), due = at(2.5, 1, false);
    legs_are(&air, &closed, whole, 3, 2);
    legs_are(&air, &due, whole, 3, 1);
}

TEST(each_reading_holds_until_the_next, DERIVED,
     "worked by hand: read at 0.2, 1.5, 6 and 9 h, opened at 0.5, closed at "
     "2.5 h, now 10 h; another batch's at 7 h is not its own")
{
    dw_reading_row r[] = {reading(0.2, 4, 0),  reading(1.5, 5, 2),
                          reading(6, 2, 0),    reading(7, 9, 3),
                          reading(9, 2.02, 0), reading(11, 8, 0)};
    dw_stack_air air = {3, r, DW_COUNT(r), 2};
    dw_stack_times times = at(2.5, 10, true);
    const dw_leg want[] = {
        {0.5, 23, 8}, {1, 4, 8}, {1, 5, 8}, {3.5, 5, 3}, {1, 2, 3}};
    legs_are(&air, &times, want, 5, 4);
}

TEST(an_old_reading_gives_way_to_the_usual_air, DERIVED,
     "worked by hand: read at 3 h, old at 21 h, now 30 h; read again at 29 h")
{
    dw_reading_row r[] = {reading(3, 6, 0), reading(29, 4, 0)};
    dw_stack_air air = {3, r, 1, 2};
    dw_stack_times times = at(2.5, 30, true);
    const dw_leg old[] = {
        {0.5, 23, 8}, {2, 3, 8}, {0.5, 3, 3}, {18, 6, 3}, {1, 3, 3}};
    legs_are(&air, &times, old, 5, 4);
    air.readings_count = 2;
    const dw_leg again[] = {{0.5, 23, 8}, {2, 3, 8}, {0.5, 3, 3},
                            {18, 6, 3},   {8, 3, 3}, {1, 4, 3}};
    legs_are(&air, &times, again, 6, 5);
}

TEST(a_stack_that_stands_open_has_one_leg_that_still_changes, DERIVED,
     "worked by hand: due at 2.5 h, now 4 h, read at 3 h")
{
    dw_reading_row r[] = {reading(3, 5, 0)};
    dw_stack_air air = {3, r, 1, 2};
    dw_stack_times times = at(4, 4, false);
    const dw_leg want[] = {{0.5, 23, 8}, {2.5, 3, 8}, {1, 5, 8}, {1, 5, 3}};
    legs_are(&air, &times, want, 4, 2);
}

TEST(readings_after_two_weeks_make_no_legs, LIMIT,
     "legs stay within the longest life")
{
    dw_reading_row r[] = {reading(400, 5, 0)};
    dw_stack_air air = {3, r, 1, 2};
    dw_stack_times times = at(2.5, 401, true);
    const dw_leg want[] = {{0.5, 23, 8}, {2, 3, 8}, {1, 5, 3}};
    static unsigned char block[1 << 12];
    dw_arena arena;
    dw_stack_legs legs;
    dw_arena_init(&arena, block, sizeof block);
    NEED(dw_stack_air_legs(&air, &times, whole, &arena, &legs));
    SAME(legs.count, 3);
    NEAR(legs.legs[2].hours, want[2].hours, 1e-9);
}
