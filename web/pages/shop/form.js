/* One row of the shop as a form. What is typed stands as typed until the blank
 * is left, then in the person's own units. What the server refuses is said at
 * its blank. */

import { html, useState } from "../../lib/view.js";
import { Refusal, write } from "../../lib/api.js";
import { t } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { Pick } from "../../parts/pick.js";
import { toast } from "../../parts/toast.js";

function shown(field, value, units) {
    return value === null || value === undefined || !field.show ? "" :
        field.show(value, units).replaceAll("\u00a0", " ");
}

/* The server's refusal in the words and units of the blank. */
function refusalOf(field, refusal, units) {
    const { code, low, high } = refusal;
    if (code === "out_of_range" && low !== null && high !== null &&
        field.number)
        return t("Between {low} and {high}, please.",
            { low: field.show(low, units), high: field.show(high, units) });
    return refusal.message;
}

function fieldAt(fields, refusal) {
    const name = refusal.field?.split(".").at(-1);
    return fields.find((field) => field.key === name);
}

function readAll(fields, values, typed, units) {
    const row = { ...values };
    const errors = {};
    for (const field of fields.filter((one) => one.read)) {
        const what = typed[field.key] ?? shown(field, row[field.key], units);
        try {
            if (field.optional && what.trim() === "")
                row[field.key] = null;
            else if (typed[field.key] !== undefined || what === "")
                row[field.key] = field.read(what, units);
        } catch (error) {
            errors[field.key] = error.message;
        }
    }
    return { row, errors };
}

/* { values, changed, bind(field), save(), refusal }; toRequest(row) makes the request
 * of `op` when it is not the row itself. */
export function useForm({ fields, row, units, op, toRequest = (one) => one,
    onSaved }) {
    const [values, setValues] = useState(row);
    const [typed, setTyped] = useState({});
    const [errors, setErrors] = useState({});
    const [refusal, setRefusal] = useState(null);
    const put = (key, value) => {
        setErrors((was) => ({ ...was, [key]: null }));
        setValues((was) => ({ ...was, [key]: value }));
    };

    function leave(field) {
        const { row: read, errors: wrong } =
            readAll([field], values, typed, units);
        setErrors((was) => ({ ...was, [field.key]: wrong[field.key] }));
        if (wrong[field.key])
            return;
        setValues((was) => ({ ...was, [field.key]: read[field.key] }));
        setTyped(({ [field.key]: gone, ...rest }) => rest);
    }

    async function save() {
        const read = readAll(fields, values, typed, units);
        setErrors(read.errors);
        setRefusal(null);
        if (Object.keys(read.errors).length)
            return;
        try {
            const reply = await write(op, toRequest(read.row));
            setValues(read.row);
            setTyped({});
            toast(reply.queued ? t("Kept on this tablet.") : t("Saved."));
            onSaved?.(reply);
        } catch (problem) {
            if (!(problem instanceof Refusal))
                throw problem;
            const field = fieldAt(fields, problem);
            if (field)
                setErrors({ [field.key]: refusalOf(field, problem, units) });
            else
                setRefusal(problem.message);
        }
    }

    const bind = (field) => ({ field, units, value: values[field.key],
        text: typed[field.key] ?? shown(field, values[field.key], units),
        error: errors[field.key], onPut: (value) => put(field.key, value),
        onLeave: () => typed[field.key] !== undefined && leave(field),
        onType: (text) => setTyped((was) => ({ ...was, [field.key]: text })) });
    const changed = values !== row || Object.keys(typed).length > 0;
    return { values, changed, bind, save, refusal };
}

function Control({ field, value, text, error, onType, onLeave, onPut }) {
    if (field.control === "tick")
        return html`
            <label class="tick">
                <input type="checkbox" checked=${value}
                    onChange=${(event) => onPut(event.target.checked)} />
                ${field.name()}
            </label>`;
    if (field.control === "pick")
        return html`
            <${Pick} name=${field.name()} value=${String(value)}
                options=${field.options()}
                onPick=${(one) => onPut(field.numeric ? Number(one) : one)} />`;
    return html`
        <${Blank} name=${field.name()} text=${text} error=${error}
            number=${field.number} onType=${onType} onBlur=${onLeave}
            type=${field.control === "date" ? "date" : "text"}
            maxlength=${field.most} list=${field.list} />`;
}

export function Controls({ fields, form }) {
    return html`
        <div class="form-blanks">${fields.map((field) => html`
            <div key=${field.key} class=${field.wide ? "wide-blank" : ""}>
                <${Control} ...${form.bind(field)} />
                ${field.hint && html`
                    <small class="quiet">${field.hint()}</small>`}
            </div>`)}
        </div>`;
}

/* fields, row, units, op, toRequest, onSaved: see useForm; onlyChanged: the
 * button comes with the first change. */
export function Form({ onlyChanged, ...about }) {
    const form = useForm(about);
    function submit(event) {
        event.preventDefault();
        form.save();
    }
    return html`
        <form class="stack" onSubmit=${submit} novalidate>
            <${Controls} fields=${about.fields} form=${form} />
            ${form.refusal && html`
                <p class="trouble" role="alert">${form.refusal}</p>`}
            ${(form.changed || !onlyChanged) && html`
                <button type="submit" class="do">${t("Save")}</button>`}
        </form>`;
}
