/* What people know that sales do not say: events, overrides with their reason
 * and end, days that sold out. */

import { html, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { civilDate, civilDay, weekdays } from "../../lib/dates.js";
import { writeNumber } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { toast } from "../../parts/toast.js";
import { day, number, pick, pickId, text, tick, whole }
    from "../shop/fields.js";
import { Controls, useForm } from "../shop/form.js";
import { Section } from "../shop/section.js";

/* A form whose row can be taken away again; a field may be there only `when`
 * the others say so. */
const removable = (op) => function Editor(about) {
    const [refusal, setRefusal] = useState(null);
    const form = useForm(about);
    const fields = about.fields.filter((field) =>
        !field.when || field.when(form.values));
    function submit(press) {
        press.preventDefault();
        form.save();
    }
    async function remove() {
        try {
            const reply = await write(op, { id: about.row.id });
            toast(reply.queued ? t("Kept on this tablet.") : t("Saved."));
            about.onSaved();
        } catch (problem) {
            setRefusal(problem);
        }
    }
    return html`
        <form class="stack" onSubmit=${submit} novalidate>
            <${Controls} fields=${fields} form=${form} />
            ${form.refusal && html`
                <p class="trouble" role="alert">${form.refusal}</p>`}
            <button type="submit" class="do">${t("Save")}</button>
        </form>
        ${about.row.id > 0 && html`
            <button type="button" class="word" onClick=${remove}>
                ${t("Take it away")}</button>`}
        ${refusal && html`
            <p class="trouble" role="alert">${refusal.message}</p>`}`;
};

const months = () => Array.from({ length: 12 }, (_, i) =>
    [String(i + 1), new Intl.DateTimeFormat(document.documentElement.lang,
        { month: "long", timeZone: "UTC" }).format(Date.UTC(2026, i, 15))]);
const nths = () => [["1", t("first")], ["2", t("second")], ["3", t("third")],
    ["4", t("fourth")], ["-1", t("last")]];
const rules = () => [["once", t("once")],
    ["yearly", t("every year on a date")],
    ["nth_weekday", t("every year on a weekday of a month")],
    ["easter", t("by Easter")]];
const numbered = { numeric: true };
const only = (...names) => ({ optional: true,
    when: (row) => names.includes(row.rule) });

const event = {
    id: "events", op: "event.save", Editor: removable("event.delete"),
    title: () => t("Holidays and events"),
    about: () => t("What a day of it does is learned from the days of it " +
        "that were seen; until then, what you expect counts."),
    add: () => t("Add an event"),
    fields: () => [text("name", () => t("What people call it"), { most: 60 }),
        pick("rule", () => t("It comes"), rules),
        { ...day("day", () => t("Day")), ...only("once") },
        pick("nth", () => t("Which of the month"), nths,
            { ...numbered, ...only("nth_weekday") }),
        pick("weekday", () => t("Weekday"), () => weekdays("long")
            .map((name, i) => [String(i), name]),
        { ...numbered, ...only("nth_weekday") }),
        pick("month", () => t("Month"), months,
            { ...numbered, ...only("yearly", "nth_weekday") }),
        whole("date", () => t("Day of the month"), only("yearly")),
        number("offset_days", () => t("Days after Easter Sunday"),
            only("easter")),
        whole("days", () => t("Days in a row")),
        number("expected_percent", () => t("Percent more than usual, as you " +
            "expect"), { optional: true }),
        tick("closed", () => t("Closed: nothing is sold"))],
    blank: (demand) => ({ name: "", rule: "once", day: demand.today + 1,
        month: 1, date: 1, nth: 1, weekday: 0, offset_days: 0, days: 1,
        closed: false, expected_percent: null }),
    says(row) {
        const when = { once: () => civilDay(row.day),
            yearly: () => civilDate(Date.UTC(2026, row.month - 1, row.date) /
                86400000),
            nth_weekday: () => t("{nth} {weekday}, {month}", {
                nth: nths().find(([n]) => Number(n) === row.nth)?.[1] ?? "",
                weekday: weekdays("long")[row.weekday],
                month: months()[row.month - 1]?.[1] ?? "" }),
            easter: () => t("Easter Sunday and {n} days",
                { n: row.offset_days }) }[row.rule]();
        if (row.closed)
            return t("{when}: closed.", { when });
        return row.expected_percent === null ? when
            : t("{when}: {percent} % expected.", { when, percent:
                writeNumber(row.expected_percent, 0) });
    },
    toRequest(demand, { id, ...row }) {
        const needed = { once: ["day"], yearly: ["month", "date"],
            nth_weekday: ["month", "nth", "weekday"],
            easter: ["offset_days"] }[row.rule];
        const kept = ["name", "rule", "days", "closed", "expected_percent",
            ...needed];
        return { id: id ?? 0, event: Object.fromEntries(
            kept.map((key) => [key, row[key]])) };
    },
};

const productName = (demand, id) => demand.products.find((one) =>
    one.product_id === id)?.forecast.name ?? "";
const products = (demand) => demand.products.map((one) =>
    ({ id: one.product_id, name: one.forecast.name }));

const override = {
    id: "overrides", op: "override.save", Editor: removable("override.delete"),
    title: () => t("You know better"),
    about: () => t("A number of your own instead of the forecast, with its " +
        "reason; after its end the forecast counts again."),
    add: () => t("Put a number of your own in"),
    nameOf: (row, demand) => productName(demand, row.product_id),
    fields: (demand) => [pickId("product_id", () => t("Product"),
        products(demand)),
    day("from_day", () => t("From")), day("to_day", () => t("To")),
    whole("balls", () => t("Balls a day"), { optional: true }),
    number("percent", () => t("Or percent more than the forecast"),
        { optional: true }),
    text("reason", () => t("Reason"), { most: 120 }),
    day("expires_day", () => t("It no longer counts from"))],
    blank: (demand) => ({ product_id: demand.products[0].product_id,
        from_day: demand.today + 1, to_day: demand.today + 1, balls: null,
        percent: null, reason: "", expires_day: demand.today + 2 }),
    says: (row) => t("{from} to {to}: {reason}", { from: civilDay(row.from_day),
        to: civilDay(row.to_day), reason: row.reason }),
    toRequest: (demand, { id, product_id, outlet_id, from_day, to_day, balls,
        percent, reason, expires_day }) => ({ id: id ?? 0, product_id,
        outlet_id: outlet_id ?? 0, change: { from_day, to_day, balls, percent,
            reason, expires_day } }),
};

const mark = {
    id: "marks", op: "demand.mark",
    title: () => t("Sold out, lost sales"),
    about: () => t("A day that sold out counts as at least; guests who were " +
        "counted and went away are demand too."),
    add: () => t("Mark a day"),
    nameOf: (row, demand) => productName(demand, row.product_id),
    fields: (demand) => [pickId("product_id", () => t("Product"),
        products(demand)),
    ...demand.outlets.length > 1 ? [pickId("outlet_id", () => t("Outlet"),
        demand.outlets)] : [],
    day("day", () => t("Day")),
    tick("sold_out", () => t("It sold out")),
    whole("lost_balls", () => t("Balls more that were wanted, if counted"))],
    blank: (demand) => ({ product_id: demand.products[0].product_id,
        outlet_id: demand.outlets.length > 1 ? demand.outlets[0].id : 0,
        day: demand.today - 1, sold_out: true, lost_balls: 0 }),
    says: (row) => row.lost_balls > 0
        ? t("{day}: {n} more were wanted", { day: civilDay(row.day),
            n: row.lost_balls })
        : t("{day}: sold out", { day: civilDay(row.day) }),
};

export function Known({ demand }) {
    const rows = {
        events: demand.events.map((one) => ({ id: one.id, ...one.event })),
        overrides: demand.overrides.map((one) => ({ id: one.id,
            product_id: one.product_id, outlet_id: one.outlet_id,
            ...one.change })),
    };
    return html`
        <div class="known">
            <${Section} noun=${event} rows=${rows.events} all=${demand} />
            <${Section} noun=${override} rows=${rows.overrides}
                all=${demand} />
            <${Section} noun=${mark} rows=${demand.marks} all=${demand} />
        </div>`;
}
