/* A paper sheet, entered afterwards: one form in the order of the sheet. Enter
 * goes to the next blank; what is typed is kept on the tablet until it is
 * saved, and saving works without a network. */

import { html, useEffect, useMemo, usePerson, useRef, useState }
    from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { write } from "../../lib/api.js";
import { clock } from "../../lib/clock.js";
import { bareUnit, inPersonUnits, writeNumber }
    from "../../lib/quantity.js";
import { go } from "../../lib/route.js";
import { civilOf } from "../../lib/shoptime.js";
import { t, tn } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { Pick } from "../../parts/pick.js";
import { toast } from "../../parts/toast.js";
import { onScale, readingName, usualReading } from "../mix/words.js";
import { ballsName, bareOnScale, blankOf, DEGREES, lotName, readSheet,
    TIMES, weighedName } from "./paper.js";
import { civilDay, longDay, mass, writeClock } from "./words.js";

/* --- what was typed ------------------------------------------------------ */

const KEPT = "doughwright.sheet.";

function useTexts(id, first) {
    const key = KEPT + id;
    const [texts, set] = useState(() => {
        try {
            return { ...first, ...JSON.parse(localStorage.getItem(key)) };
        } catch {
            return first;
        }
    });
    const put = (change) => set((was) => {
        const now = { ...was, ...change };
        localStorage.setItem(key, JSON.stringify(now));
        return now;
    });
    return { texts, put, forget: () => localStorage.removeItem(key) };
}

/* --- keys ---------------------------------------------------------------- */

/* Enter goes on to the next blank, from the last to Save. */
function onEnter(event) {
    if (event.key !== "Enter" || event.target.tagName === "BUTTON")
        return;
    event.preventDefault();
    const all = [...event.currentTarget.querySelectorAll(
        "input, button[type=submit]")];
    all[all.indexOf(event.target) + 1]?.focus();
}

/* --- blanks -------------------------------------------------------------- */

/* form: { texts, put, errors, times, card, shop, units } */
function Field({ form, blank, ...rest }) {
    return html`
        <${Blank} number text=${form.texts[blank] ?? ""}
            error=${form.errors[blank]} id=${`blank ${blank}`}
            onType=${(text) => form.put({ [blank]: text })} ...${rest} />`;
}

/* What the written time is taken for, said when it could be another. */
function timeHint(form, blank) {
    const at = form.times[blank];
    if (!at)
        return null;
    const { day } = civilOf(at, form.shop.zone);
    const time = writeClock(at);
    return day === form.card.batch.day ? time
        : t("{time} on {day}", { time, day: civilDay(day) });
}

function Time({ form, blank, name }) {
    return html`
        <${Field} form=${form} blank=${blank} name=${name}
            hint=${timeHint(form, blank)} />`;
}

/* Outside the usual a temperature is taken all the same, after asking. */
function degreesHint(form, blank) {
    const celsius = form.read[blank];
    const { low, high } = usualReading(form.got, blank, form.units);
    const at = celsius === null ? null : inPersonUnits(celsius, form.units);
    return at === null || low === undefined || (at >= low && at <= high) ? null
        : t("Usually between {low} and {high} {unit}. Look again?", {
            low: writeNumber(low, 0), high: writeNumber(high, 0),
            unit: form.units === "us" ? "°F" : "°C" });
}

function Degrees({ form, blank }) {
    return html`
        <${Field} form=${form} blank=${blank}
            name=${t("{reading}, {unit}", { reading: readingName(blank),
        unit: form.units === "us" ? "°F" : "°C" })}
            hint=${degreesHint(form, blank)} />`;
}

/* --- weighings ----------------------------------------------------------- */

function lotsFor(row, got) {
    const material = got.materials.find(({ name }) =>
        name === row.weighing.material);
    return got.material_lots.filter((lot) => lot.open &&
        lot.material_id === material?.id);
}

function Lot({ form, row }) {
    const { id, lot_id } = row.weighing;
    const lots = lotsFor(row, form.got);
    return lots.length > 0 && html`
        <${Pick} heard name=${t("Lot of {material}",
        { material: row.weighing.material })}
            value=${form.texts[lotName(id)] ?? String(lot_id)}
            options=${[["0", t("lot not written")],
        ...lots.map((lot) => [String(lot.id), lot.code])]}
            onPick=${(lot) => form.put({ [lotName(id)]: lot })} />
        ${form.errors[lotName(id)] && html`<small class="field-error">
            ${form.errors[lotName(id)]}</small>`}`;
}

function plannedOn(row, units) {
    return row.division_kg
        ? onScale(row.weighing.planned_kg, row.division_kg, units)
        : mass(row.weighing.planned_kg, units);
}

function Weighing({ form, row }) {
    const { id, material, whole_bags } = row.weighing;
    return html`
        <li class="paper-row">
            <${Field} form=${form} blank=${weighedName(id)}
                name=${row.stage ? t("{material} for {stage}, {unit}",
        { material, stage: row.stage, unit: bareOnScale(row, form.units) })
        : t("{material}, {unit}",
            { material, unit: bareOnScale(row, form.units) })}
                placeholder=${plannedOn(row, form.units)}
                hint=${whole_bags > 0 ? tn("{n} whole bag is in it",
            "{n} whole bags are in it", whole_bags) : null} />
            <${Lot} form=${form} row=${row} />
        </li>`;
}

/* A sheet whose weights were only ticked. */
function asPlanned(form) {
    form.put(Object.fromEntries(form.card.weighings
        .filter(({ weighing }) => !form.texts[weighedName(weighing.id)])
        .map((row) => [weighedName(row.weighing.id),
            plannedOn(row, form.units)])));
}

function Weigh({ form }) {
    return html`
        <section class="stack">
            <div class="section-head">
                <h2>${t("Weigh")}</h2>
                <button type="button" class="word"
                    onClick=${() => asPlanned(form)}>
                    ${t("The rest was ticked as planned")}</button>
            </div>
            <ul class="paper-rows">${form.card.weighings.map((row) => html`
                <${Weighing} key=${row.weighing.id} form=${form} row=${row}
                    />`)}</ul>
        </section>`;
}

/* --- the rest of the sheet ----------------------------------------------- */

function Who({ form }) {
    const people = form.got.persons.filter(({ here }) => here);
    return html`
        <section class="paper-cells">
            <${Pick} name=${t("Who mixed")}
                value=${String(form.texts.person_id)}
                options=${[["0", t("not written")], ...people.map((one) =>
        [String(one.id), one.name])]}
                onPick=${(person_id) => form.put({ person_id })} />
            <${Time} form=${form} blank="started_ms"
                name=${t("First step at")} />
        </section>`;
}

function Read({ form }) {
    return html`
        <section class="stack">
            <div class="section-head"><h2>${t("Read")}</h2></div>
            <div class="paper-cells">${DEGREES.map((blank) => html`
                <${Degrees} key=${blank} form=${form} blank=${blank} />`)}
            </div>
        </section>`;
}

function Times({ form }) {
    const names = { stopped_ms: t("Mixer stopped at"),
        first_box_ms: t("First box at"), last_box_ms: t("Last box at"),
        closed_ms: t("Stacks closed at") };
    return html`
        <section class="stack">
            <div class="section-head"><h2>${t("Times")}</h2></div>
            <div class="paper-cells">${TIMES.slice(1).map((blank) => html`
                <${Time} key=${blank} form=${form} blank=${blank}
                    name=${names[blank]} />`)}
            </div>
        </section>`;
}

function AddsUp({ form }) {
    const unit = bareUnit("mass", form.units);
    return html`
        <section class="stack">
            <div class="section-head">
                <h2>${t("Does it add up?")}</h2></div>
            <div class="paper-cells">
                <${Field} form=${form} blank="scrap_kg"
                    name=${t("Scrap, {unit}", { unit })} />
                <${Field} form=${form} blank="residue_kg"
                    name=${t("Left in the bowl, {unit}", { unit })}
                    placeholder=${mass(form.shop.bowl_residue_kg,
        form.units)} />
            </div>
        </section>`;
}

function Boxes({ form }) {
    return html`
        <section class="stack">
            <div class="section-head"><h2>${t("Divide and box")}</h2></div>
            <div class="paper-cells">
                ${form.card.pieces.map(({ piece, name }) => html`
                    <${Field} key=${piece.id} form=${form}
                        blank=${ballsName(piece.id)}
                        name=${t("Balls of {product}", { product: name })}
                        placeholder=${String(piece.balls_planned)} />`)}
            </div>
            <${Field} form=${form} blank="note" number=${false}
                name=${t("Written on the sheet")} maxlength="400" />
        </section>`;
}

/* --- saving -------------------------------------------------------------- */

function useSave(form, forget) {
    const [refused, setRefused] = useState({});
    const [tried, setTried] = useState(false);
    const element = useRef(null);
    /* The first blank with an error gets the eyes and the keys. */
    function showFirst() {
        requestAnimationFrame(() => element.current
            ?.querySelector("[aria-invalid=true]")?.focus());
    }
    async function save(event) {
        event.preventDefault();
        setTried(true);
        if (Object.keys(form.wrong).length)
            return showFirst();
        try {
            const reply = await write("batch.enter", form.request);
            forget();
            toast(reply.queued ? t("Kept on this tablet; it goes into the " +
                "book when the shop's computer is back.") : t("Batch {number} is in " +
                "the book.", { number: form.card.batch.number }));
            go(`/book/${form.card.batch.id}`);
        } catch (refusal) {
            const blank = blankOf(refusal.field, form.request);
            setRefused({ [blank ?? "sheet"]: refusal.message });
            showFirst();
        }
        return undefined;
    }
    return { save, element, refused, tried,
        clear: () => setRefused({}) };
}

function Form({ card, got, units }) {
    const { shop } = got;
    const who = usePerson();
    const { texts, put, forget } = useTexts(card.batch.id, { person_id:
        String(card.batch.person_id || who.person_id) });
    const { request, errors: wrong, times } = useMemo(() => readSheet(texts,
        { card, shop, units, now: clock.now() }), [texts, units, card]);
    const saving = useSave({ request, wrong, card }, forget);
    /* An empty blank is wrong only once somebody wanted to save. */
    const told = Object.fromEntries(Object.entries(wrong).filter(([name]) =>
        saving.tried || texts[name]));
    const form = { texts, times, card, shop, got, units, read: request,
        errors: { ...told, ...saving.refused },
        put: (change) => {
            saving.clear();
            put(change);
        } };
    useEffect(() => {
        saving.element.current.querySelector("input").focus();
    }, []);
    return html`
        <form class="stack-wide paper" novalidate ref=${saving.element}
            onKeyDown=${onEnter} onSubmit=${saving.save}>
            <${Who} form=${form} />
            <${Weigh} form=${form} />
            <${Read} form=${form} />
            <${Times} form=${form} />
            <${AddsUp} form=${form} />
            <${Boxes} form=${form} />
            ${form.errors.sheet && html`<p class="trouble" role="alert">
                ${form.errors.sheet}</p>`}
            <div class="row spread keep">
                <button type="submit" class="do">
                    ${t("Put it into the book")}</button>
                <span class="quiet">${t("Entered {day}, {time}", {
        day: civilDay(civilOf(clock.now(), shop.zone).day),
        time: writeClock(clock.now()) })}</span>
            </div>
        </form>`;
}

export function Sheet({ id }) {
    const { units } = usePerson();
    const { reply: card, refusal } = useAnswer("batch.get", { id });
    const { reply: got } = useAnswer("shop.get", {});
    if (!card || !got)
        return refusal && html`<p class="trouble" role="alert">
            ${refusal.message}</p>`;
    const { batch } = card;
    return html`
        <div class="column stack-wide">
            <header class="stack">
                <a class="back" href=${`/book/${id}`}>${t("Batch {number}",
        { number: batch.number })}</a>
                <h1>${t("From the paper sheet")}</h1>
                <p class="comes-to">${t("{formula}, batch {number}, {day}.", {
        formula: card.formula_name, number: batch.number,
        day: longDay(batch.day) })}</p>
                <p class="quiet">${t("Blanks stay blank. The grey numbers " +
        "are what was planned. Enter goes to the next blank.")}</p>
            </header>
            ${batch.started_ms > 0
        ? html`<p class="slip">${t("This batch was begun on a tablet or is " +
            "entered already.")}${" "}<a class="back" href=${`/book/${id}`}>
            ${t("Look at it")}</a></p>`
        : html`<${Form} card=${card} got=${got} units=${units} />`}
        </div>`;
}
