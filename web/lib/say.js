/* What people read, in their language.
 *
 * The English sentence is the name of a message; a catalogue maps it to
 * another language. Values are set into {braces}; nothing is concatenated, so
 * a translator can put them where the sentence needs them. Numbers are written
 * by quantity.js before they come here. */

const state = { lang: "en", messages: {} };

export function lang() {
    return state.lang;
}

/* Use a catalogue that is already here (tests, and loadLanguage below). */
export function useCatalogue(name, messages) {
    state.lang = name;
    state.messages = messages;
}

/* Fetch a language; English needs none. A catalogue that cannot be had leaves
 * the sentences in English rather than the page empty. */
export async function loadLanguage(name) {
    if (name === "en")
        return useCatalogue("en", {});
    try {
        const answer = await fetch(`/lang/${name}.json`);
        useCatalogue(name, answer.ok ? await answer.json() : {});
    } catch {
        useCatalogue(name, {});
    }
}

function fill(sentence, values) {
    if (!values)
        return sentence;
    return sentence.replace(/\{(\w+)\}/g, (all, name) =>
        name in values ? String(values[name]) : all);
}

/* t("Close stack {name} at {time}", {name, time}) */
export function t(sentence, values) {
    const found = state.messages[sentence];
    return fill(typeof found === "string" && found ? found : sentence, values);
}

/* tn("{n} ball", "{n} balls", count, {n: "1,200"}): English and Spanish both
 * tell one from many; each form is a message of its own. */
export function tn(one, many, count, values) {
    return t(count === 1 ? one : many, { n: String(count), ...values });
}
