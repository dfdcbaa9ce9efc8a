/* Drops: what goes to which shop on which day, from order to door. */

import { html, usePerson, useState } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { write } from "../lib/api.js";
import { longDay, shortDate, writeClock } from "../lib/dates.js";
import { writeQuantity } from "../lib/quantity.js";
import { go } from "../lib/route.js";
import { t, tn } from "../lib/say.js";
import { Choice } from "../parts/choice.js";
import { Empty } from "../parts/empty.js";
import { toast } from "../parts/toast.js";
import { Door } from "./drops/door.js";
import { Order } from "./drops/order.js";
import { ballsText, boxesText, ruleSentence, stateSentence, wantedSentence }
    from "./drops/words.js";

const stackWords = (part) => part.number
    ? t("{balls} of batch {n}, mixed {day}, {days}", {
        balls: ballsText(part.balls), n: part.number,
        day: shortDate(part.mixing_day),
        days: tn("{n} day left", "{n} days left", part.days_left) })
    : t("{balls} mixed {day}, {days}", { balls: ballsText(part.balls),
        day: shortDate(part.mixing_day),
        days: tn("{n} day left", "{n} days left", part.days_left) });

function Pieces({ drop }) {
    const sent = drop.drop_id > 0;
    const told = sent || drop.allotted;
    return html`
        <table class="ledger">
            <caption class="only-heard">${drop.outlet}</caption>
            <thead><tr>
                <th scope="col" class="quiet">${t("product")}</th>
                <th scope="col" class="number quiet">${t("wanted")}</th>
                ${told && html`
                    <th scope="col" class="number quiet">
                        ${sent ? t("sent") : t("allotted")}</th>
                    <th scope="col" class="number quiet">${t("boxes")}</th>`}
            </tr></thead>
            <tbody>${drop.pieces.map((piece) => html`
                <tr key=${piece.product_id}>
                    <th scope="row">${piece.name}
                        ${piece.parts.map((part) => html`
                            <small class="quiet" style="display:block">
                                ${stackWords(part)}</small>`)}
                        ${piece.short_of > 0 && html`
                            <small class="trouble" style="display:block">
                                ${t("short of {balls}", { balls:
        ballsText(piece.short_of) })}</small>`}
                    </th>
                    <td class="number">${piece.wanted}</td>
                    ${told && html`
                        <td class="number">${piece.balls}</td>
                        <td class="number">${piece.boxes}</td>`}
                </tr>`)}</tbody>
        </table>`;
}

function DoorSays({ drop, units }) {
    const refused = drop.pieces.flatMap((piece) => piece.parts).reduce(
        (sum, part) => sum + part.refused, 0);
    return html`
        ${drop.door_c !== null && html`
            <p class=${drop.door_warm ? "trouble" : ""}>${drop.door_warm
        ? t("Dough at the door {c}: warmer than {most}.", {
            c: writeQuantity(drop.door_c, "temperature", units),
            most: writeQuantity(drop.door_most_c, "temperature", units) })
        : t("Dough at the door {c}.", { c: writeQuantity(drop.door_c,
            "temperature", units) })}</p>`}
        ${refused > 0 && html`<p class="trouble">${t("{balls} refused.",
        { balls: ballsText(refused) })}</p>`}`;
}

function Drop({ drop, products, units }) {
    const [open, setOpen] = useState(null);
    const close = () => setOpen(null);
    const some = drop.pieces.some((piece) => piece.balls > 0);
    async function load() {
        try {
            await write("drop.load", { day: drop.day,
                outlet_id: drop.outlet_id });
            toast(t("{outlet} is loaded.", { outlet: drop.outlet }));
        } catch (problem) {
            toast(problem.message);
        }
    }
    return html`
        <section class="stack">
            <h3>${drop.outlet} <small class="quiet">
                ${writeClock(drop.at_ms)}</small></h3>
            <p>${stateSentence(drop)} ${wantedSentence(drop)}</p>
            ${drop.order_note && html`<p>${drop.order_note}</p>`}
            ${drop.pieces.length > 0 && html`<${Pieces} drop=${drop} />`}
            <${DoorSays} drop=${drop} units=${units} />
            <div class="row screen-only">
                ${drop.drop_id === 0 && html`
                    <button type="button" onClick=${() => setOpen("order")}>
                        ${t("Write its order")}</button>`}
                ${drop.allotted && some && html`
                    <button type="button" class="do" onClick=${load}>
                        ${t("It is loaded")}</button>`}
                ${drop.state === "loaded" && html`
                    <button type="button" class="do"
                        onClick=${() => setOpen("door")}>
                        ${t("Hand it over")}</button>`}
            </div>
            ${open === "order" && html`<${Order} drop=${drop}
                products=${products} onClose=${close} />`}
            ${open === "door" && html`<${Door} drop=${drop}
                onClose=${close} />`}
        </section>`;
}

function Owes({ owes, outlets }) {
    const name = (id) => outlets.find((one) => one.id === id)?.name ?? "";
    const some = owes.filter((one) => one.boxes !== 0);
    return some.length > 0 && html`
        <section class="stack">
            <h2>${t("Empty boxes owed")}</h2>
            <ul>${some.map((one) => html`<li key=${one.outlet_id}>
                ${name(one.outlet_id)}: ${boxesText(one.boxes)}</li>`)}</ul>
        </section>`;
}

function Days({ drops, products, units }) {
    const days = [...new Set(drops.drops.map((drop) => drop.day))];
    return days.map((day) => html`
        <section class="stack" key=${day}>
            <div class="row spread">
                <h2>${longDay(day)}</h2>
                <a class="screen-only" target="_blank"
                    href=${`/paper/drops.pdf?day=${day}`}>
                    ${t("Print the loading lists")}</a>
            </div>
            ${drops.drops.filter((drop) => drop.day === day).map((drop) => html`
                <${Drop} key=${drop.outlet_id} drop=${drop} units=${units}
                    products=${products} />`)}
        </section>`);
}

export function Page() {
    const { units } = usePerson();
    const [outlet_id, setOutlet] = useState(0);
    const { reply: shop } = useAnswer("shop.get", {});
    const { reply: drops, refusal } = useAnswer("drop.list",
        { days: 4, outlet_id });
    if (!drops || !shop)
        return refusal && html`
            <p class="trouble" role="alert">${refusal.message}</p>`;
    if (drops.drops.length === 0 && outlet_id === 0)
        return html`<${Empty} title=${t("No drops in the next days")}
            text=${t("A commissary sends dough to its shops on given days. " +
            "Write the shops down first, then their drops of the week.")}
            button=${t("Go on in Shop")} onPress=${() => go("/shop")} />`;
    return html`
        <div class="stack-wide">
            <h1>${t("Drops")}</h1>
            <p class="quiet">${ruleSentence(drops.short_rule)}</p>
            <div class="screen-only">
                <${Choice} shown legend=${t("Shop")} value=${outlet_id}
                    options=${[[0, t("all")], ...shop.outlets.map((one) =>
        [one.id, one.name])]} onChoose=${setOutlet} />
            </div>
            <${Days} drops=${drops} units=${units}
                products=${shop.products.filter((one) => one.here)} />
            <${Owes} owes=${drops.owes} outlets=${shop.outlets} />
        </div>`;
}
