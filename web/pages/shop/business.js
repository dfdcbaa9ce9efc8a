/* What is the same for every batch: who we are, the bench, the trade's clock,
 * yeast. One row, in four short forms. */

import { html } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { amount, clockTime, minutes, number, pick, text, whole }
    from "./fields.js";
import { Form } from "./form.js";
import { Head } from "./section.js";

const SMALL = { bare: { us: "oz", metric: "g" } };

function zones() {
    return Intl.supportedValuesOf?.("timeZone") ?? [];
}

const place = () => [text("name", () => t("Name of the shop"), { most: 80 }),
    text("zone", () => t("Time zone"), { most: 60, list: "zones" }),
    clockTime("cutover_minutes", () => t("The business day ends at")),
    pick("units", () => t("Units"), () => [["us", t("lb, oz, °F, in")],
        ["metric", t("kg, g, °C, cm")]]),
    pick("lang", () => t("Language"), () => [["en", "English"],
        ["es", "Español"]]),
    text("currency", () => t("Currency, three letters"), { most: 3 })];

const bench = () => [whole("hands", () => t("People at the bench")),
    number("balls_per_minute", () => t("Balls one of them makes in a minute")),
    minutes("bench_minutes", () => t("Longest time from mixer to last box")),
    amount("dough_goal_c", () => t("Wanted dough temperature"),
        "temperature"),
    amount("ball_loss_percent", () => t("Dough that never becomes a ball, %"),
        "percent"),
    amount("bowl_residue_kg", () => t("Dough that stays in the bowl"),
        "mass", SMALL),
    amount("release_oil_kg", () => t("Oil down the bowl side"), "mass",
        SMALL)];

const ages = () => [
    whole("ready_day", () => t("Ready on day")),
    whole("best_day", () => t("Best on day")),
    whole("use_first_day", () => t("Used first from day")),
    whole("last_day", () => t("Last day")),
    amount("close_core_low_c", () => t("Close the stack at a core of"),
        "temperature"),
    amount("close_core_high_c", () => t("up to"), "temperature"),
    amount("bench_life_h", () => t("How long a ball lasts out of the cold"),
        "time"),
    number("open_h_w_per_m2_k", () => t("Cooling of an open stack, W/m²K"))];

const yeast = () => [
    number("yeast_active_dry_ratio", () => t("Active dry yeast")),
    number("yeast_instant_ratio", () => t("Instant yeast"))];

/* The values an empty database starts from; the same as the server's. */
const usual = () => ({ name: "", currency: "USD",
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    cutover_minutes: 240 });

function Part({ id, title, about, fields, row, units }) {
    return html`
        <section id=${id} class="stack" aria-labelledby=${`${id}-head`}>
            <${Head} id=${id} title=${title} about=${about} />
            <${Form} key=${`${units} ${JSON.stringify(row)}`} fields=${fields} row=${row} units=${units}
                op="shop.save" onlyChanged />
        </section>`;
}

/* shop: null in an empty database, which then first asks who it belongs to. */
export function Place({ shop, units, lang }) {
    return html`
        <datalist id="zones">${zones().map((zone) =>
        html`<option key=${zone} value=${zone} />`)}</datalist>
        <${Part} id="place" title=${t("The shop")} units=${units}
            about=${t("The business day runs over midnight until the hour " +
        "you say; dough mixed then belongs to the day before.")}
            fields=${place()} row=${shop ?? { ...usual(), units, lang }} />`;
}

export function Habits({ shop, units }) {
    return html`
        <${Part} id="bench" title=${t("Bench")} fields=${bench()}
            about=${t("How much dough your hands take before it runs away: " +
        "the limit of a batch beside the mixer's.")}
            row=${shop} units=${units} />
        <${Part} id="clock" title=${t("The trade's clock")}
            about=${t("A rule of thumb. Mixing day is day 0; a stack is " +
        "closed once the core has cooled. Dates are about quality, not a " +
        "safety clearance: the local code decides.")}
            fields=${ages()} row=${shop} units=${units} />
        <${Part} id="yeast" title=${t("Yeast")}
            about=${t("How much replaces one part of fresh yeast.")}
            fields=${yeast()} row=${shop} units=${units} />`;
}
