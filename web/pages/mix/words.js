/* How the card says weights, temperatures, days and the names of its stops. */

import { clock } from "../../lib/clock.js";
import { inPersonUnits, writeNumber, writeQuantity }
    from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { aboutHours } from "../../life/words.js";

export const temperature = (c, units) =>
    writeQuantity(c, "temperature", units);
export const mass = (kg, units) => writeQuantity(kg, "mass", units);

/* A difference of temperatures, without the zero of the scale. */
export const degrees = (c, units) =>
    writeQuantity(Math.abs(c), "difference", units);

/* --- on the scale -------------------------------------------------------- */

const LB = 0.45359237;
const SCALE_UNITS = { us: [["oz", LB / 16], ["lb", LB], ["g", 0.001],
    ["kg", 1]],
metric: [["g", 0.001], ["kg", 1], ["oz", LB / 16], ["lb", LB]] };

/* A division is 1, 2 or 5 of a decimal place in the unit the scale shows. */
function decimalsOf(division) {
    for (let decimals = 0; decimals <= 4; decimals++) {
        const steps = division * 10 ** decimals;
        for (const nice of [1, 2, 5, 10, 20, 50]) {
            if (Math.abs(steps - nice) < 1e-6 * nice)
                return decimals;
        }
    }
    return null;
}

/* The unit that a scale of this division shows: { name, kg, decimals }. */
export function scaleUnit(division_kg, units) {
    const fits = SCALE_UNITS[units].map(([name, kg]) =>
        ({ name, kg, decimals: decimalsOf(division_kg / kg) }))
        .filter((one) => one.decimals !== null &&
            division_kg / one.kg >= 0.0005);
    return fits.find((one) => one.decimals === 0 &&
        division_kg / one.kg < 1.5) ??
        fits.find((one) => one.decimals > 0) ?? fits[0] ??
        { name: units === "us" ? "lb" : "kg", kg: units === "us" ? LB : 1,
            decimals: 3 };
}

/* What the scale must show for this weight, all its decimals. */
export function onScale(kg, division_kg, units) {
    const unit = scaleUnit(division_kg, units);
    return `${(kg / unit.kg).toFixed(unit.decimals)}\u00a0${unit.name}`;
}

/* Is the scale's unit the person's own? */
export function isOwnUnit(division_kg, units) {
    const { name } = scaleUnit(division_kg, units);
    return (name === "oz" || name === "lb") === (units === "us");
}

/* --- days and spans ------------------------------------------------------ */

/* "in 12 min", "3 min late": whole minutes, for people. */
export function away(at_ms, now = clock.now()) {
    const minutes = Math.round((at_ms - now) / 60000);
    const span = writeQuantity(Math.abs(minutes) / 60, "time", "us");
    if (minutes === 0)
        return t("now");
    return minutes > 0 ? t("in {span}", { span }) : t("{span} late", { span });
}

/* The window that was planned, and what became of it, in one sentence. */
export function windowSentence({ planned, in_bowl }) {
    const words = { ready: aboutHours(in_bowl.ready_h),
        was_ready: aboutHours(planned.ready_h),
        end: aboutHours(in_bowl.end_h), was_end: aboutHours(planned.end_h) };
    if (in_bowl.ready_h === null)
        return t("It does not get ready any more; planned was ready " +
            "{was_ready} after mixing.", words);
    if (words.ready === words.was_ready && words.end === words.was_end)
        return t("It keeps its window: ready {ready} after mixing, past " +
            "{end}.", words);
    return t("Ready {ready} after mixing, planned {was_ready}; past {end}, " +
        "planned {was_end}.", words);
}

/* --- names for the rail -------------------------------------------------- */

const NAMES = {
    read: () => t("Temperatures"),
    wet_yeast: () => t("Wet the yeast"),
    rest: () => t("Rest"), ask: () => t("Look at the oil"),
    oil_bowl: () => t("Oil the bowl side"), stop: () => t("Stop the mixer"),
    probe: () => t("Dough temperature"),
    round: () => t("Round the balls"), box: () => t("Box"),
    oil_tops: () => t("Oil the tops"), chill_open: () => t("Cold room, open"),
    close: () => t("Close the stack"), hold: () => t("Hold cold"),
    temper: () => t("Warm up"), sheet: () => t("Roll out"),
    punch: () => t("Punch down"),
};

export function nameOf(stop) {
    if (stop.kind === "weigh")
        return t("Weigh {material}",
            { material: stop.row.weighing.material });
    if (stop.kind === "add")
        return t("Add {material}",
            { material: stop.step.material ?? stop.step.stage ?? "" });
    if (stop.kind === "mix")
        return stop.step.speed === "second"
            ? t("Second speed") : t("Low speed");
    if (stop.kind === "divide")
        return stop.step.material
            ? t("Divide {product}", { product: stop.step.material })
            : t("Divide");
    return NAMES[stop.kind]();
}

/* Until when, beside the minutes. */
export function untilOf(step, units) {
    const words = {
        no_dry_flour: () => t("until no dry flour is left"),
        absorbed: () => t("until the oil is taken up"),
        smooth: () => t("until smooth and satiny"),
        risen: () => t("until it has risen"),
        core: () => step.goal_c === null ? null
            : t("until the core is {core}",
                { core: temperature(step.goal_c, units) }),
    };
    return words[step.until]?.() ?? null;
}

export function minutesOf(step) {
    const minutes = writeNumber(step.minutes, 1);
    return step.minutes_to
        ? t("{low} to {high} minutes", { low: minutes,
            high: writeNumber(step.minutes_to, 1) })
        : step.minutes === 1 ? t("1 minute")
            : t("{minutes} minutes", { minutes });
}

/* --- thermometers -------------------------------------------------------- */

export const readingName = (kind) => ({
    flour_c: t("Flour"), room_c: t("Room"), tap_c: t("Tap water"),
    water_c: t("Water as poured"), bowl_c: t("Bowl"), dough_c: t("Dough"),
    cold_c: t("Cold room"),
})[kind];

/* The usual range of a thermometer by shop.get, in whole degrees of the person;
 * empty until it is known. What is outside is asked about and taken. */
export function usualReading(shop, kind, units) {
    const usual = shop?.usual_readings?.find((one) => one.kind === kind);
    return usual ? { low: Math.round(inPersonUnits(usual.low_c, units)),
        high: Math.round(inPersonUnits(usual.high_c, units)) } : {};
}

export function newestReading(card, kind) {
    return card.readings.findLast((one) => one.kind === kind) ?? null;
}
