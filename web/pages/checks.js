/* Checks: thermometers, scales, cold rooms and cleaning, each written down when
 * it was done, with what was done where it was outside its limits. */

import { html, usePerson, useState } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { write } from "../lib/api.js";
import { clock } from "../lib/clock.js";
import { writeMoment } from "../lib/dates.js";
import { bareUnit, readNumber, readQuantity, writeQuantity }
    from "../lib/quantity.js";
import { t, tn } from "../lib/say.js";
import { Blank } from "../parts/blank.js";
import { Pick } from "../parts/pick.js";
import { toast } from "../parts/toast.js";

/* dimension: of what is read; none: it is looked at. Limits are usual ones, not
 * a rule: a probe in ice water within 1 degC (common practice, no source). */
const KINDS = {
    thermometer: { word: () => t("Thermometer, in ice water"),
        dimension: "temperature", lowest: -1, highest: 1 },
    scale: { word: () => t("Scale, with a check weight"), dimension: "mass" },
    cold_room: { word: () => t("Cold room"), dimension: "temperature" },
    cleaning: { word: () => t("Cleaning") },
    other: { word: () => t("Something else") },
};

const hasLimits = (due) => due.lowest !== null || due.highest !== null;
const shown = (due, value, units) => KINDS[due.what].dimension
    ? writeQuantity(value, KINDS[due.what].dimension, units) : String(value);

function readValue(what, text, units) {
    const { dimension } = KINDS[what];
    return readQuantity(text, dimension, bareUnit(dimension, units));
}

function limitsSentence(due, units) {
    const low = due.lowest !== null && shown(due, due.lowest, units);
    const high = due.highest !== null && shown(due, due.highest, units);
    if (low && high)
        return t("Between {low} and {high}.", { low, high });
    return low ? t("{low} or more.", { low }) : high
        ? t("{high} or less.", { high }) : "";
}

/* --- one check ----------------------------------------------------------- */

function dueSentence({ due_ms, last }, now) {
    if (!last)
        return t("Not done yet.");
    return due_ms < now ? t("Was due {time}.", { time: writeMoment(due_ms) })
        : t("Due {time}.", { time: writeMoment(due_ms) });
}

/* What is sent, or throws a sentence. */
function doneRequest(due, text, action, units) {
    const request = { check_id: due.id, action: action.trim() || null };
    return hasLimits(due)
        ? { ...request, value: readValue(due.what, text, units) }
        : { ...request, fine: request.action === null };
}

/* Its log stays. */
async function stop(due) {
    const save = (stopped) => write("check.save", { ...due, stopped });
    try {
        await save(true);
        toast(t("{name}: not asked for any more.", { name: due.name }),
            { button: t("Undo"), onPress: () => save(false) });
    } catch (problem) {
        toast(problem.message);
    }
}

function Check({ check, units, now }) {
    const { due } = check;
    const [text, setText] = useState("");
    const [action, setAction] = useState("");
    const [errors, setErrors] = useState({});
    async function keep(event) {
        event.preventDefault();
        try {
            await write("check.do", doneRequest(due, text, action, units));
            setText("");
            setAction("");
            setErrors({});
            toast(t("{name}: written down.", { name: due.name }));
        } catch (problem) {
            setErrors({ [problem.field ?? "value"]: problem.message });
        }
    }
    return html`
        <li>
            <form class="stack" onSubmit=${keep}>
                <div>
                    <h3>${due.name}</h3>
                    <p>${dueSentence(check, now)}${" "}
                        <span class="quiet">${tn("Every {n} day.",
        "Every {n} days.", due.every_days)}${" "}
                        ${limitsSentence(due, units)}</span></p>
                </div>
                <div class="paper-cells">
                    ${hasLimits(due) && html`<${Blank} number
                        name=${t("It shows")} text=${text}
                        error=${errors.value} onType=${setText} />`}
                    <${Blank} name=${hasLimits(due)
        ? t("Outside its limits: what was done")
        : t("Not as it should be: what was done")} text=${action}
                        error=${errors.action} onType=${setAction}
                        maxlength="400" />
                </div>
                <p class="row spread">
                    <button>${hasLimits(due) || action
        ? t("Write it down") : t("It is done")}
                        <span class="only-heard">${due.name}</span></button>
                    <button type="button" class="word"
                        onClick=${() => stop(due)}>${t("Ask no more")}
                        <span class="only-heard">${due.name}</span></button>
                </p>
            </form>
        </li>`;
}

/* --- a new one ----------------------------------------------------------- */

function usual(what, units) {
    const { dimension, lowest, highest } = KINDS[what];
    const write = (value) => value === undefined ? ""
        : writeQuantity(value, dimension, units);
    return { what, name: "", every_days: what === "thermometer" ? "7" : "1",
        lowest: write(lowest), highest: write(highest) };
}

function newRequest({ what, name, every_days, lowest, highest }, units) {
    const limit = (text) => text.trim() && KINDS[what].dimension
        ? readValue(what, text, units) : null;
    const request = { what, name: name.trim() || KINDS[what].word(),
        every_days: readNumber(every_days), lowest: limit(lowest),
        highest: limit(highest) };
    if (!Number.isInteger(request.every_days))
        throw new Error(t("Write a whole number"));
    return request;
}

function NewCheck({ units }) {
    const [texts, set] = useState(() => usual("thermometer", units));
    const [error, setError] = useState(null);
    const put = (name) => (value) => set((was) => ({ ...was, [name]: value }));
    async function keep(event) {
        event.preventDefault();
        try {
            await write("check.save", newRequest(texts, units));
            set(usual(texts.what, units));
            setError(null);
        } catch (problem) {
            setError(problem.message);
        }
    }
    return html`
        <form class="stack" onSubmit=${keep}>
            <div class="section-head"><h2>${t("Ask for a check")}</h2></div>
            <${Pick} name=${t("What")} value=${texts.what}
                options=${Object.entries(KINDS).map(([what, { word }]) =>
        [what, word()])}
                onPick=${(what) => set(usual(what, units))} />
            <div class="paper-cells">
                <${Blank} name=${t("Called")} text=${texts.name} maxlength="80"
                    onType=${put("name")} />
                <${Blank} number name=${t("Every so many days")}
                    text=${texts.every_days} onType=${put("every_days")} />
                ${KINDS[texts.what].dimension && html`
                    <${Blank} number name=${t("Lowest allowed")}
                        text=${texts.lowest} onType=${put("lowest")} />
                    <${Blank} number name=${t("Highest allowed")}
                        text=${texts.highest} onType=${put("highest")} />`}
            </div>
            ${error && html`<p class="field-error" role="alert">${error}</p>`}
            <button class="do">${t("Ask for it")}</button>
            <p class="note">${t("Limits follow your local code and the " +
        "authority; those here are only usual ones. A thermometer is checked " +
        "in crushed ice and water, stirred.")}</p>
        </form>`;
}

/* --- the page ------------------------------------------------------------ */

function Log({ done, checks, units }) {
    const names = new Map(checks.map(({ due }) => [due.id, due]));
    return done.length > 0 && html`
        <section class="stack">
            <div class="section-head"><h2>${t("What was checked")}</h2></div>
            <ul class="ruled">${done.map((one) => {
        const due = names.get(one.check_id);
        return html`
                <li key=${one.id}>
                    <b>${due?.name ?? t("A check that is not asked for now")}</b>
                    ${" "}<span class="quiet">
                        ${writeMoment(one.occurred_ms)}</span><br />
                    ${due && one.value !== null &&
                        `${shown(due, one.value, units)} `}
                    ${one.within ? t("As it should be.")
        : html`<b class="trouble">${t("Outside its limits.")}</b>`}
                    ${" "}${one.action}
                </li>`;
    })}</ul>
        </section>`;
}

export function Page({ path }) {
    const { units } = usePerson();
    const { reply, refusal } = useAnswer("check.list", {});
    if (!reply)
        return refusal && html`<p class="trouble" role="alert">
            ${refusal.message}</p>`;
    const asked = Number(path.split("/")[2]);
    const checks = reply.checks.toSorted((a, b) =>
        (b.due.id === asked) - (a.due.id === asked));
    return html`
        <div class="stack-wide">
            <h1>${t("Checks")}</h1>
            <div class="beside-two">
                <div class="stack-wide">
                    <section class="stack">
                        <div class="section-head"><h2>${t("To be checked")}
                        </h2></div>
                        ${!checks.length && html`<p>${t("Nothing yet. Ask " +
        "for the thermometers, the scales, the cold room and the cleaning; " +
        "what is due then stands on Today.")}</p>`}
                        <ul class="ruled">${checks.map((check) => html`
                            <${Check} key=${check.due.id} check=${check}
                                units=${units} now=${clock.now()} />`)}</ul>
                    </section>
                    <${Log} done=${reply.done} checks=${reply.checks}
                        units=${units} />
                </div>
                <${NewCheck} key=${units} units=${units} />
            </div>
        </div>`;
}
