/* Where a number of the plan comes from. */

import { html } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { longDay } from "../../lib/dates.js";
import { Why } from "../../parts/why.js";
import { writeMoney } from "./words.js";

const tenth = (value) => String(Math.round(value * 10) / 10);

function ofWanted(shop, { product, day }) {
    const one = shop.plan.products[product];
    const at = one.days[day];
    return {
        title: t("{name}, {day}", { name: one.name,
            day: longDay(shop.first_day + day) }),
        value: t("{balls} in their window", { balls: tenth(at.ready) }),
        inputs: [
            [t("wanted on average"), tenth(at.wanted)],
            [t("wanted on 8 days of 10"),
                `${at.wanted_low}–${at.wanted_high}`],
            [t("made this day"), String(at.made)],
            [t("lost sales on average"), tenth(at.lost)],
            [t("thrown away on average"), tenth(at.thrown)],
            [t("left for the night"), tenth(at.left)],
            [t("of these by age, from today's"),
                at.by_age.map(tenth).join(" · ")],
        ],
        equation: t("Balls leave oldest first; every demand that may come is followed with its chance. A lost sale costs as much as {ratio} balls thrown away, by the shop's own figure.",
            { ratio: tenth(one.lost_to_thrown) }),
    };
}

function ofRoom(shop, { day }, kind) {
    const at = shop.plan.days[day];
    const slots = kind === "slots";
    return {
        title: longDay(shop.first_day + day),
        value: slots
            ? t("{used} of {limit} places in the cold room",
                { used: tenth(at.slots), limit: tenth(shop.slots) })
            : t("{used} of {limit} boxes",
                { used: tenth(at.boxes), limit: tenth(shop.boxes) }),
        inputs: [],
        equation: slots
            ? t("The stock of the night on average; today's boxes are open and take 1.44 places.")
            : t("The stock of the evening before on average and what is made today: a box emptied today is washed by tomorrow."),
    };
}

function ofHands(shop, { day }) {
    const at = shop.plan.days[day];
    return {
        title: longDay(shop.first_day + day),
        value: t("{minutes} minutes of hands",
            { minutes: tenth(at.hands_minutes) }),
        inputs: at.mixers.map((one) =>
            [one.mixer, t("{minutes} min", { minutes: tenth(one.minutes) })]),
        equation: t("Minutes of each batch and of each ball, all people together."),
    };
}

function ofCost(shop) {
    const sum = (name) => shop.plan.days.reduce((all, day) =>
        all + day[name], 0);
    const money = (minor) => writeMoney(minor, shop.currency);
    return {
        title: t("What the plan costs"),
        value: money(shop.plan.cost),
        inputs: [
            [t("lost sales"), money(sum("lost_cost"))],
            [t("thrown balls"), money(sum("thrown_cost"))],
            [t("batches"), money(sum("start_cost"))],
            [t("labour"), money(sum("labour_cost") + sum("overtime_cost"))],
        ],
        equation: shop.plan.bound_by === "solver"
            ? t("No plan at all costs less than {bound}: proved by a solver.",
                { bound: money(shop.plan.bound_cost) })
            : t("No plan at all costs less than {bound}: a simple bound. Look longer for a closer one.",
                { bound: money(shop.plan.bound_cost) }),
    };
}

export function WhyNumber({ kind, shop, onClose, ...rest }) {
    const what = kind === "wanted" ? ofWanted(shop, rest)
        : kind === "hands" ? ofHands(shop, rest)
            : kind === "cost" ? ofCost(shop) : ofRoom(shop, rest, kind);
    return html`<${Why} ...${what} onClose=${onClose} />`;
}
