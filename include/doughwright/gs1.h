/* What a scanner reads off a box: GS1 element strings.
 *
 * An element is an application identifier and its value, "(10)58-3". Written
 * one after another they make the data of a GS1-128 or GS1 DataMatrix symbol;
 * a value that is not of a predefined length is closed by FNC1 (0x1D when a
 * scanner sends it) unless it is the last. Predefined lengths come first here,
 * so that a box label needs at most one.
 *
 *   01 GTIN      10 lot      11 made   13 packed   15 best before   17 use by
 *   21 serial    30 count    310n net weight, kg, n decimals of six digits
 *
 * Check digit of a key: digits weighed 3, 1, 3, ... from the right, the digit
 * that brings the sum to a multiple of ten.                               (1)
 * Dates are YYMMDD, day 00 the month's end. The century: a year more than 50
 * ahead of this one lies in the last century, one 50 or more behind in the
 * next (memory).                                                          (2)
 * Lot and serial: up to 20 characters of the GS1 set of 82.
 *
 * Source: GS1 General Specifications as in the GS1 Barcode Syntax Dictionary;
 * docs/sources.md "gs1". A GTIN is the business's own, from its GS1 member
 * organisation: one is never made up here.
 */
#ifndef DOUGHWRIGHT_GS1_H
#define DOUGHWRIGHT_GS1_H

#include "doughwright/field.h"

enum { DW_GS1_ELEMENTS = 16, DW_GS1_LONGEST = 512 };

typedef struct dw_gs1_element {
    const char *identifier; /* "01", "3103"; static or in the arena */
    const char *title;      /* "GTIN"; static */
    const char *value;      /* as in the symbol; in the arena */
    bool has_day;
    int64_t day; /* of a date; a day of 00 is the month's last */
    bool has_amount;
    double amount; /* of a weight (kg) or count */
} dw_gs1_element;

typedef struct dw_gs1_write_request {
    const char *gtin; /* 8, 12, 13 or 14 digits with their check digit */
    const char *lot, *serial; /* or NULL */
    bool has_made_day, has_packed_day, has_best_before_day, has_use_by_day;
    int64_t made_day, packed_day, best_before_day, use_by_day;
    bool has_net_kg;
    double net_kg; /* to the gram below 1000 kg */
    bool has_count;
    int64_t count;
} dw_gs1_write_request;

typedef struct dw_gs1_write_reply {
    const char *text; /* "(01)…(10)…", for people and for printing */
    const char *path; /* of a GS1 Digital Link: "/01/…/10/…?17=…" */
    dw_gs1_element *elements;
    size_t elements_count;
} dw_gs1_write_reply;

typedef struct dw_gs1_read_request {
    const char *text; /* as scanned, or "(01)…" */
    int64_t today;    /* a civil day, for (2) */
} dw_gs1_read_request;

typedef struct dw_gs1_read_reply {
    dw_gs1_element *elements;
    size_t elements_count;
} dw_gs1_read_reply;

extern const dw_shape dw_gs1_write_request_shape, dw_gs1_write_reply_shape,
    dw_gs1_read_request_shape, dw_gs1_read_reply_shape;

/* (1) of the `count` digits before it, 0 to 9. */
int dw_gs1_check_digit(const char *digits, size_t count);
/* A key of 8, 12, 13, 14, 17 or 18 digits whose last is (1) of the rest. */
bool dw_gs1_key_valid(const char *key);
/* YYMMDD of any century, as (2). */
bool dw_gs1_date_read(const char *date, int64_t today, int64_t *day);

/* Fails with DW_E_SYNTAX (gtin: length, a letter; lot, serial: a character that
 * has no place in a symbol), DW_E_SUM (gtin's check digit), DW_E_RANGE (days
 * out of 2000 to 2099, a weight of nothing), DW_E_ROOM. 8 KiB are enough. */
dw_status dw_gs1_write(const dw_gs1_write_request *request, dw_arena *arena,
                       dw_err *err, dw_gs1_write_reply *reply);
/* Fails with DW_E_SYNTAX (text: what cannot be read, from where on in the
 * value), DW_E_SUM (a key's check digit), DW_E_MISSING (an element that needs
 * another: a lot without a GTIN), DW_E_ROOM. 8 KiB are enough. */
dw_status dw_gs1_read(const dw_gs1_read_request *request, dw_arena *arena,
                      dw_err *err, dw_gs1_read_reply *reply);

/* Is a value of this identifier closed by FNC1 when another follows? */
bool dw_gs1_needs_closing(const char *identifier);

#endif
