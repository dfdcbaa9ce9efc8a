/* What to order: each material by pack, and by when. */

import { html, usePerson } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { civilDay } from "../lib/dates.js";
import { writeQuantity } from "../lib/quantity.js";
import { go } from "../lib/route.js";
import { t, tn } from "../lib/say.js";
import { Empty } from "../parts/empty.js";

const shelf = (line, kg) => line.followed
    ? t("{kg} there", { kg: kg(line.on_hand_kg) })
    : t("not counted: no lot says how much came");

function Line({ line, kg }) {
    return html`
        <tr>
            <th scope="row">${line.name}
                <small class="quiet" style="display:block">
                    ${t("{kg} needed", { kg: kg(line.needed_kg) })},
                    ${" "}${shelf(line, kg)}</small>
                ${line.past_kg > 0 && html`
                    <small class="trouble" style="display:block">
                        ${t("{kg} will be past its date",
        { kg: kg(line.past_kg) })}</small>`}
                ${line.late && html`
                    <small class="trouble" style="display:block">
                        ${t("too late for {day}: {kg} are missing until it " +
        "comes", { day: civilDay(line.short_day),
        kg: kg(line.lacking_kg) })}</small>`}
            </th>
            <td class="number">${line.short_day === null ? "\u2013"
        : line.pack_kg ? tn("{n} pack", "{n} packs", line.packs)
            : kg(line.buy_kg)}</td>
            <td>${line.short_day === null ? ""
        : line.late ? t("today") : civilDay(line.order_day)}</td>
        </tr>`;
}

export function Page() {
    const { units } = usePerson();
    const { reply: list, refusal } = useAnswer("purchase.list", {});
    const kg = (value) => writeQuantity(value, "mass", units);
    if (!list)
        return refusal && html`
            <p class="trouble" role="alert">${refusal.message}</p>`;
    if (list.lines.length === 0)
        return html`<${Empty} title=${t("Nothing to order")}
            text=${t("Plan batches, or write down sales and the balls to " +
            "have, and what they take of flour, yeast and oil stands here.")}
            button=${t("Go on in Shop")} onPress=${() => go("/shop")} />`;
    return html`
        <div class="stack">
            <div class="row spread">
                <h1>${t("To order")}</h1>
                <button type="button" class="word screen-only"
                    onClick=${() => print()}>${t("Print the list")}</button>
            </div>
            <p>${t("For the planned batches, and where nothing is planned for " +
        "what is expected, until {day}.", { day: civilDay(list.day +
            list.days - 1) })}</p>
            <table class="ledger">
                <thead><tr>
                    <th scope="col" class="quiet">${t("material")}</th>
                    <th scope="col" class="number quiet">${t("to order")}</th>
                    <th scope="col" class="quiet">${t("by")}</th>
                </tr></thead>
                <tbody>${list.lines.map((line) => html`
                    <${Line} key=${line.material_id} line=${line}
                        kg=${kg} />`)}</tbody>
            </table>
        </div>`;
}
