/* Count: what is left by product and mixing day, and at once what is short. */

import { html, useEffect, usePerson, useRef, useState } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { write } from "../lib/api.js";
import { go } from "../lib/route.js";
import { t } from "../lib/say.js";
import { Empty } from "../parts/empty.js";
import { toast } from "../parts/toast.js";
import { BuildTo } from "./count/build_to.js";
import { CountPad } from "./count/pad.js";
import { Shelf } from "./count/shelf.js";
import { Short } from "./count/short.js";
import { ballsOf, linesOf, newRow, nextRow, nothingTyped, press, rowsOf,
    uncounted, withAdded } from "./count/tally.js";

/* A count survives a reload, for the day it was begun. */
const KEPT = "doughwright.count";
const fresh = (day) => ({ day, counted: {}, added: [] });

function useTally(day) {
    const [tally, set] = useState(() => {
        const kept = JSON.parse(localStorage.getItem(KEPT) ?? "null");
        return kept?.day === day ? kept : fresh(day);
    });
    useEffect(() =>
        localStorage.setItem(KEPT, JSON.stringify(tally)), [tally]);
    return [tally, set];
}

/* Digits of a keyboard, wherever the focus is but in a blank. */
function useKeys(onKey) {
    const newest = useRef(onKey);
    newest.current = onKey; /* two quick keys may come between two effects */
    useEffect(() => {
        function listen(event) {
            const { target, key } = event;
            if (target.closest("input, select, dialog") || event.ctrlKey ||
                event.metaKey || event.altKey)
                return;
            const name = { Backspace: "back", b: "boxes", "+": "boxes",
                Enter: target.closest("a, button") ? "" : "next" }[key] ??
                (/^\d$/.test(key) ? key : "");
            if (name === "")
                return;
            event.preventDefault();
            newest.current(name);
        }
        addEventListener("keydown", listen);
        return () => removeEventListener("keydown", listen);
    }, []);
}

function Done({ sheet, lines, onSave }) {
    const left = uncounted(sheet, lines);
    return html`
        <div class="keep row">
            <button type="button" class=${left.length ? "" : "do big"}
                disabled=${lines.length === 0} onClick=${onSave}>
                ${left.length
        ? t("Write down what is counted") : t("Write down the count")}
            </button>
            <span class="quiet">${left.length > 0 && lines.length > 0
        ? t("Not counted and left as assumed: {names}.",
            { names: left.map((one) => one.name).join(", ") })
        : left.length > 0 && t("{n} of {all} products counted",
            { n: sheet.products.length - left.length,
                all: sheet.products.length })}</span>
        </div>`;
}

function Counting({ sheet, units, onTaken }) {
    const [tally, setTally] = useTally(sheet.day);
    const rows = withAdded(rowsOf(sheet), tally.added);
    const [chosen, setChosen] = useState(null);
    const [typed, setTyped] = useState(nothingTyped);
    const { counted } = tally;
    const row = rows.find((one) => one.key === chosen) ??
        nextRow(rows, counted, null);
    const lines = linesOf(rows, counted);
    const nameOf = (id) =>
        sheet.products.find((one) => one.product_id === id)?.name;

    function pick(key) {
        setChosen(key);
        setTyped(nothingTyped);
    }
    function next() {
        if (!row)
            return;
        const now = { ...counted,
            [row.key]: ballsOf(typed, row.per_box) ?? row.expected };
        setTally((was) => ({ ...was, counted: now }));
        pick(nextRow(rows, now, row.key)?.key ?? null);
    }
    function add(product, mixing_day) {
        const made = newRow(product, { mixing_day, balls: 0,
            readiness: null });
        setTally((was) => ({ ...was, added: [...was.added, made] }));
        pick(made.key);
    }
    async function save() {
        try {
            const reply = await write("count.save", { day: sheet.day, lines });
            setTally(fresh(sheet.day));
            onTaken(reply);
        } catch (refusal) {
            toast(refusal.message);
        }
    }
    useKeys((key) => key === "next" ? next()
        : setTyped((was) => press(was, key)));

    return html`
        <div class="counting" data-open=${row !== null}>
            <div class="shelves">
                <${Shelf} sheet=${sheet} rows=${rows} counted=${counted}
                    current=${row?.key} units=${units} onPick=${pick}
                    onAdd=${add} />
                <${Done} sheet=${sheet} lines=${lines} onSave=${save} />
            </div>
            ${row && html`
                <${CountPad} row=${row} name=${nameOf(row.product_id)}
                    typed=${typed} onNext=${next}
                    onPress=${(key) => setTyped((was) => press(was, key))} />`}
        </div>`;
}

function NothingYet() {
    return html`<${Empty} title=${t("Nothing to count yet")}
        text=${t("Count tells what is left by product and mixing day, and " +
            "what is short for tomorrow. First write down the pieces your " +
            "shop makes.")}
        button=${t("Go to Shop")} onPress=${() => go("/shop")} />`;
}

/* What the count was answered with stands until the next answer is as new. */
function newer(taken, reply) {
    return taken.counted_ms > reply.counted_ms ? taken : reply;
}

export function Page() {
    const { units } = usePerson();
    const { reply, refusal } = useAnswer("count.get", {});
    const { reply: shop } = useAnswer("shop.get", {});
    const [taken, setTaken] = useState(null);
    if (refusal?.code === "not_found" || reply?.products.length === 0)
        return html`<${NothingYet} />`;
    if (!reply)
        return refusal && html`
            <p class="trouble" role="alert">${refusal.message}</p>`;
    return html`
        <div class="stack-wide count-page">
            <div class="row spread">
                <h1>${t("Count")}</h1>
                ${taken && html`
                    <button type="button" onClick=${() => setTaken(null)}>
                        ${t("Count again")}</button>`}
            </div>
            ${taken?.queued && html`
                <p class="note">${t("The count is kept on this tablet. What " +
        "is short is told when the shop's computer has it.")}</p>`}
            ${taken ? html`<${Short} sheet=${newer(taken, reply)} />`
        : html`<${Counting} key=${reply.day} sheet=${reply} units=${units}
                onTaken=${setTaken} />
            ${reply.counted_ms > 0 && html`<${Short} sheet=${reply} />`}`}
            ${shop && html`<${BuildTo} shop=${shop} />`}
        </div>`;
}
