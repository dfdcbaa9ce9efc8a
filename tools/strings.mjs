// Every sentence for people has its Spanish, with the same {values}, and one
// sentence has one Spanish over all files of po/es. Sentences
// are found where they are said: DW_MSG, dw_say and its kin, dw_fail_says and the
// list of statuses in C; t and tn in the pages. Needs a build (build/po/es.json).
import { readFileSync } from "node:fs";
import { execFileSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const read = (path) => readFileSync(join(root, path), "utf8");

// which arguments of which call are sentences
const SAID = {
    c: { DW_MSG: [0], dw_say: [3], dw_say_in: [2], dw_say_sentence: [1],
        dw_fail_says: [4], X: [3] },
    js: { t: [0], tn: [0, 1] },
};

const STRING = /"(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/y;
const COMMENT = /\/\*[^]*?\*\/|\/\/[^\n]*/y;

function matchAt(pattern, text, at) {
    pattern.lastIndex = at;
    return pattern.exec(text)?.[0];
}

// The arguments of a call whose opening bracket is at `at`, as source texts.
function args(text, at) {
    const found = [];
    let depth = 0, current = "";
    for (let i = at; i < text.length;) {
        const whole = matchAt(STRING, text, i);
        if (whole) {
            current += whole;
            i += whole.length;
            continue;
        }
        const c = text[i++];
        if ("([{".includes(c) && depth++ === 0)
            continue;
        if (")]}".includes(c) && --depth === 0)
            return [...found, current];
        if (c === "," && depth === 1) {
            found.push(current);
            current = "";
        } else {
            current += c;
        }
    }
    return found;
}

// "a" "b", "a" + "b" and DW_MSG("a") are texts; anything else is not told here.
function literal(source) {
    const inner = source.replace(/^\s*DW_MSG\s*\(([^]*)\)\s*$/, "$1");
    const parts = inner.match(/"(?:[^"\\]|\\.)*"/g) ?? [];
    const rest = inner.replace(/"(?:[^"\\]|\\.)*"/g, "").replace(/[\s+\\]/g, "");
    if (parts.length === 0 || rest)
        return null;
    return parts.map((part) => JSON.parse(part.replace(/\\x([0-9a-f]{2})/gi,
        "\\u00$1"))).join("");
}

const values = (text) => [...text.matchAll(/\{\w+\}/g)].map(String).sort();
const hasWords = (text) => /\p{L}/u.test(text.replace(/\{\w+\}/g, ""));

// Comments give way to blanks, so that lines keep their numbers.
const withoutComments = (text) => text.replace(
    new RegExp(`${STRING.source}|(${COMMENT.source})`, "g"),
    (all, comment) => comment ? comment.replace(/[^\n]/g, " ") : all);

function sentencesOf(path, calls) {
    const text = withoutComments(read(path));
    const names = new RegExp(`(?<![\\w.])(${Object.keys(calls).join("|")})\\(`, "g");
    const found = [];
    for (const call of text.matchAll(names)) {
        const given = args(text, call.index + call[1].length);
        for (const i of calls[call[1]]) {
            const sentence = given[i] === undefined ? null : literal(given[i]);
            if (sentence !== null && hasWords(sentence))
                found.push([sentence,
                    `${path}:${text.slice(0, call.index).split("\n").length}`]);
        }
    }
    return found;
}

const files = execFileSync("git", ["ls-files", "src", "include", "web"],
    { cwd: root, encoding: "utf8" }).trim().split("\n")
    .filter((path) => !path.includes("/vendor/"));
const said = files.flatMap((path) => {
    if (/\.[ch]$/.test(path)) {
        const statuses = path.endsWith("include/doughwright/base.h");
        const { X, ...calls } = SAID.c;
        return sentencesOf(path, statuses ? { ...calls, X } : calls);
    }
    return path.endsWith(".js") ? sentencesOf(path, SAID.js) : [];
});

// [sentence, its Spanish] of a catalogue as written.
function entriesOf(path) {
    const text = "((?:\\s*\"(?:[^\"\\\\\\n]|\\\\.)*\")+)";
    const entry = new RegExp(`^msgid${text}\\s*^msgstr${text}`, "gm");
    return [...read(path).matchAll(entry)]
        .map(([, id, said]) => [literal(id), literal(said)])
        .filter(([id]) => id !== "");
}

const spanish = JSON.parse(read("build/po/es.json"));
const sentences = new Map(said.reverse());
let wrong = 0;
const written = new Map();
const catalogues = execFileSync("git", ["ls-files", "po/es"],
    { cwd: root, encoding: "utf8" }).trim().split("\n");
for (const path of catalogues) {
    for (const [sentence, translation] of entriesOf(path)) {
        const before = written.get(sentence);
        if (before && before.translation !== translation) {
            wrong++;
            console.log(`${path}: ${JSON.stringify(sentence)} is ${
                JSON.stringify(translation)} here, ${
                JSON.stringify(before.translation)} in ${before.path}`);
        }
        if (values(sentence).join() !== values(translation).join()) {
            wrong++;
            console.log(`${path}: other values in the Spanish of ${
                JSON.stringify(sentence)}`);
        }
        written.set(sentence, { translation, path });
    }
}
for (const [sentence, where] of sentences) {
    const translation = spanish[sentence];
    if (translation !== undefined &&
        values(sentence).join() === values(translation).join())
        continue;
    wrong++;
    console.log(translation === undefined
        ? `${where}: no Spanish for ${JSON.stringify(sentence)}`
        : `${where}: other values in the Spanish of ${JSON.stringify(sentence)}`);
}
console.log(`${sentences.size + written.size - wrong} passed, ${wrong} failed`);
process.exit(wrong ? 1 : 0);
