/* What is asked of the cold room: nothing, what a warm room or a mishap does to
 * every stack, or an emergency dough. */

import { html, useState } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { useBanded } from "../../life/banded.js";
import { FateSheet, keyOf } from "./fates.js";
import { firstHappening, overOf, requestOf, sumSentence } from "./happens.js";
import { Tonight } from "./tonight.js";

const BAND = 15;

/* What becomes of every stack if it happens, at once; how sure that is, once
 * the hand rests. */
function useFates(what) {
    const { reply, refusal, banded } = useBanded("cold.foresee", (members) =>
        what && requestOf(what, members), BAND);
    const told = what && (banded ?? reply);
    return { told, refusal, banded: told !== null && banded !== null,
        fates: told && new Map(told.fates.map((one) => [keyOf(one), one])) };
}

export function Ask({ what, onAsk }) {
    return html`
        <div class="row screen-only">
            <button type="button" aria-pressed=${what === "warm"}
                onClick=${() => onAsk("warm")}>
                ${t("The cold room is warm")}</button>
            <button type="button" aria-pressed=${what === "if"}
                onClick=${() => onAsk("if")}>
                ${t("If this happens\u2026")}</button>
            <button type="button" aria-pressed=${what === "hurry"}
                onClick=${() => onAsk("hurry")}>
                ${t("Emergency dough\u2026")}</button>
        </div>`;
}

const titles = () => ({ warm_room: t("The cold room is warm"),
    power_cut: t("Power cut, doors shut"), van: t("Delivery in a warm van"),
    left_out: t("A box forgotten outside") });

export function Sheet({ room, asked, dying }) {
    const { what, told, banded, fates } = asked;
    if (!told)
        return html`<${Tonight} room=${room} stacks=${dying} />`;
    const rows = room.stacks.map((stack) =>
        ({ stack, fate: fates.get(keyOf(stack)) })).filter(({ fate }) => fate &&
        (what.stack_id === 0 || fate.touched));
    return html`<${FateSheet} rows=${rows} banded=${banded}
        title=${titles()[what.kind]}
        sum=${what.stack_id === 0 ? sumSentence(told, overOf(what, room.now_ms)) : ""} />`;
}

export function useAsking(stacks) {
    const [asking, setAsking] = useState(null); /* warm, if, hurry */
    const [what, set] = useState(null);
    const happens = asking === "hurry" ? null : what;
    return { asking, what: happens, ...useFates(happens),
        change: (change) => set((was) => ({ ...was, ...change })),
        begin: (kind) => set(firstHappening(kind, stacks)),
        ask(next) {
            const same = next === asking;
            setAsking(same ? null : next);
            set(same || next === "hurry" ? null : firstHappening(
                next === "warm" ? "warm_room" : "power_cut", stacks));
        } };
}
