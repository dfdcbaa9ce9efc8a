/* Shop: everything that is set up once, as plain lists and forms. */

import { html, useLoaded, usePerson } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { t } from "../lib/say.js";
import { Habits, Place } from "./shop/business.js";
import { mixers } from "./shop/mixer.js";
import { boxes, coldRooms, lots, materials, outlets, people, products,
    scales } from "./shop/nouns.js";
import { Section } from "./shop/section.js";
import { standardBatches } from "./shop/standard.js";
import { Week } from "./shop/week.js";

/* What a first batch needs, in the order to fill it in. */
const firstSteps = (all) => [
    ["#place", t("Say what the shop is called and where its clock runs."),
        all.shop !== null],
    ["#mixers", t("Add the mixer and what its plate says."),
        all.mixers.length > 0],
    ["#scales", t("Add the scales, so that weights are split right."),
        all.scales.length > 0],
    ["#boxes", t("Add the dough box."), all.box_types.length > 0],
    ["#cold", t("Add the cold room."), all.cold_rooms.length > 0],
    ["/formulas", t("Write down your first formula."),
        all.formulas.length > 0],
    ["#products", t("Add what you make of it: a ball and its weight."),
        all.products.length > 0],
    ["/count", t("Write how many to have each morning, and count."),
        all.build_tos.length > 0],
];

function First({ all }) {
    const steps = firstSteps(all);
    const next = steps.find(([, , done]) => !done);
    if (!next)
        return null;
    return html`
        <section class="stack first" aria-labelledby="first-head">
            <h2 id="first-head">${all.shop ? t("Still to fill in")
        : t("Eight things, and the first batch can be mixed")}</h2>
            <ol>${steps.map(([href, words, done]) => html`
                <li key=${href} data-done=${done}
                    data-next=${next[0] === href}>
                    <span aria-hidden="true">${done ? "\u2713" : ""}</span>
                    ${done ? html`<span>${words}
                        <span class="only-heard">${t("Done.")}</span></span>`
        : html`<a href=${href}>${words}</a>`}
                </li>`)}
            </ol>
        </section>`;
}

const LISTS = [[mixers, "mixers"], [scales, "scales"],
    [standardBatches, "standard_batches"], [boxes, "box_types"],
    [coldRooms, "cold_rooms"], [products, "products"],
    [materials, "materials"], [lots, "material_lots"], [people, "persons"],
    [outlets, "outlets"]];

/* What cannot be chosen before something else is there waits for it. */
function shownLists(all) {
    return LISTS.filter(([noun]) => all.shop &&
        (noun !== lots || all.materials.length) &&
        (noun !== products || (all.formulas.length && all.box_types.length)));
}

function Contents({ lists, all }) {
    return html`
        <nav class="contents" aria-label=${t("On this page")}>
            <ul>
                <li><a href="#place">${t("The shop")}</a></li>
                ${lists.map(([noun]) => html`
                    <li key=${noun.id}><a href=${`#${noun.id}`}>
                        ${noun.title()}</a></li>`)}
                ${all.shop && [["hours", t("Hours")], ["bench", t("Bench")],
        ["clock", t("The trade's clock")], ["yeast", t("Yeast")],
        ["taught", t("What this shop has taught")]]
        .map(([id, name]) => html`
                    <li key=${id}><a href=${`#${id}`}>${name}</a></li>`)}
            </ul>
        </nav>`;
}

const loadTaught = () => import("./shop/taught.js").then((it) => it.Taught);

export function Page() {
    const { units, lang } = usePerson();
    const { reply, refusal } = useAnswer("shop.get", {});
    const { reply: book } = useAnswer("recipe.list", {});
    const Taught = useLoaded(reply?.shop ? loadTaught : null);
    if (!reply || !book)
        return refusal && html`
            <p class="trouble" role="alert">${refusal.message}</p>`;
    const formulas = book.formulas.map(({ formula_id, name }) =>
        ({ id: formula_id, name }));
    const all = { ...reply, formulas };
    const lists = shownLists(all);
    return html`
        <div class="shop-page">
            <h1>${reply.shop?.name ?? t("Your shop")}</h1>
            <${Contents} lists=${lists} all=${all} />
            <div class="shop-forms">
                <${First} all=${all} />
                <${Place} shop=${all.shop} units=${units} lang=${lang} />
                ${lists.map(([noun, rows]) => html`
                    <${Section} key=${noun.id} noun=${noun} rows=${all[rows]}
                        all=${all} units=${units} />`)}
                ${all.shop && html`<${Week} openings=${all.openings} />`}
                ${all.shop && html`
                    <${Habits} shop=${all.shop} units=${units} />`}
                ${Taught && html`<${Taught} all=${all} />`}
            </div>
        </div>`;
}
