import assert from "node:assert/strict";
import { graded } from "./graded.js";
import { businessDay, civilOf, momentOf, placeClock, readClock }
    from "../../web/lib/shoptime.js";

const utc = (text) => Date.parse(text);
const dayOf = (text) => utc(`${text}T00:00Z`) / 86400000;
const NEW_YORK = { zone: "America/New_York", cutover_minutes: 240 };

graded("a shop's clock goes by its zone, in summer and in winter", "published",
    "IANA time zone database: New York is UTC-4 in June, UTC-5 in December",
    () => {
        assert.equal(momentOf(dayOf("2026-06-05"), 8 * 60, NEW_YORK.zone),
            utc("2026-06-05T12:00Z"));
        assert.equal(momentOf(dayOf("2026-12-05"), 8 * 60, NEW_YORK.zone),
            utc("2026-12-05T13:00Z"));
    });

graded("clocks that change are followed on the day they change", "published",
    "IANA time zone database: New York, 8 March 2026 at 2:00", () => {
        const day = dayOf("2026-03-08");
        assert.equal(momentOf(day, 60, NEW_YORK.zone),
            utc("2026-03-08T06:00Z"));
        assert.equal(momentOf(day, 300, NEW_YORK.zone),
            utc("2026-03-08T09:00Z"));
    });

graded("a moment goes to the zone's clock and back", "limit", "round trip",
    () => {
        for (const zone of ["America/New_York", "Europe/Madrid", "Asia/Tokyo",
            "Asia/Kathmandu"]) {
            const ms = utc("2026-11-24T23:37Z");
            const { day, minutes } = civilOf(ms, zone);
            assert.equal(momentOf(day, minutes, zone), ms);
        }
    });

graded("before the cut-over it is still the business day before", "derived",
    "4:00 cut-over, worked by hand", () => {
        assert.equal(businessDay(utc("2026-06-05T07:59Z"), NEW_YORK),
            dayOf("2026-06-04"));
        assert.equal(businessDay(utc("2026-06-05T08:00Z"), NEW_YORK),
            dayOf("2026-06-05"));
    });

graded("times are read as people write them", "practice",
    "common practice, no source", () => {
        const at = (text) => readClock(text)?.minutes ?? null;
        for (const text of ["14:20", "1420", "14.20", "2:20 pm", "2:20PM",
            "220p", "2.20 p.m.", " 14 20 "])
            assert.equal(at(text), 860, text);
        assert.equal(at("12:05 am"), 5);
        assert.equal(at("12 pm"), 720);
        assert.equal(at("7"), 420);
        for (const text of ["", "24:00", "14:60", "13:00 pm", "0:10 am",
            "half two", "14:2", "123456"])
            assert.equal(at(text), null, text);
    });

const sheet = (text, after) => placeClock(readClock(text), {
    day: dayOf("2026-06-05"), shop: NEW_YORK, after,
    planned: utc("2026-06-05T17:30Z") /* 13:30 in New York */ });

graded("a time without am or pm is the one that fits what stands above it",
    "practice", "common practice, no source", () => {
        const begun = sheet("1:50");
        assert.equal(begun, utc("2026-06-05T17:50Z"));
        assert.equal(sheet("2:20", begun), utc("2026-06-05T18:20Z"));
        assert.equal(sheet("2:20 am", begun), utc("2026-06-05T06:20Z"));
    });

graded("past midnight the next day is meant, and running backwards stays " +
    "to be seen", "derived", "worked by hand", () => {
    const late = sheet("23:50");
    assert.equal(sheet("0:10", late), utc("2026-06-06T04:10Z"));
    assert.ok(sheet("23:20", late) < late);
});
