import assert from "node:assert/strict";
import { afterEach } from "node:test";
import { readdirSync, readFileSync } from "node:fs";
import { graded } from "./graded.js";
import { t, tn, useCatalogue } from "../../web/lib/say.js";

afterEach(() => useCatalogue("en", {}));

graded("a sentence without a translation is said in English", "practice",
    "common practice, no source", () => {
        useCatalogue("es", {});
        assert.equal(t("Close stack {name}", { name: 7 }), "Close stack 7");
    });

graded("values go where the translation wants them", "practice",
    "common practice, no source", () => {
        useCatalogue("es", { "{a} before {b}": "{b} después de {a}" });
        assert.equal(t("{a} before {b}", { a: "sal", b: "aceite" }),
            "aceite después de sal");
    });

graded("a value is not searched for braces of its own", "limit",
    "no input may write a message", () => {
        assert.equal(t("{a} {b}", { a: "{b}", b: "x" }), "{b} x");
    });

graded("a name without a value stays visible", "limit",
    "a mistake must be seen", () => {
        assert.equal(t("{a} and {b}", { a: 1 }), "1 and {b}");
    });

graded("one and many are told apart, none is many", "practice",
    "English and Spanish grammar", () => {
        const say = (n) => tn("{n} ball", "{n} balls", n);
        assert.deepEqual([say(0), say(1), say(2)],
            ["0 balls", "1 ball", "2 balls"]);
        useCatalogue("es", { "{n} ball": "{n} bola", "{n} balls": "{n} bolas" });
        assert.deepEqual([say(1), say(5)], ["1 bola", "5 bolas"]);
    });

/* --- the sentences of the pages ------------------------------------------ */

const web = new URL("../../web/", import.meta.url);

function pageFiles(folder = web) {
    return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
        const at = new URL(entry.name + (entry.isDirectory() ? "/" : ""),
            folder);
        if (entry.isDirectory())
            return entry.name === "vendor" ? [] : pageFiles(at);
        return entry.name.endsWith(".js") ? [at] : [];
    });
}

/* The literal after each t( and tn(, pieces joined; null where it is none. */
function sentencesOf(code) {
    const literal = String.raw`"(?:[^"\\]|\\.)*"`;
    const joined = `${literal}(?:\\s*\\+\\s*${literal})*`;
    const calls = code.matchAll(new RegExp(
        String.raw`(?<![\w.])(tn?)\(\s*(${joined})?(?:,\s*(${joined}))?`, "g"));
    return [...calls].flatMap(([, name, one, many]) =>
        name === "tn" ? [one, many] : [one])
        .map((text) => text && [...text.matchAll(new RegExp(literal, "g"))]
            .map(([piece]) => JSON.parse(piece)).join(""));
}

graded("every sentence of the pages is a literal the catalogue can find",
    "limit", "a sentence made at run time cannot be translated", () => {
        const found = pageFiles().filter((at) => !at.href.endsWith("/say.js"))
            .flatMap((at) => sentencesOf(readFileSync(at, "utf8"))
                .map((sentence) => ({ at: at.pathname, sentence })));
        assert.ok(found.length > 20);
        assert.deepEqual(found.filter((one) => !one.sentence), []);
    });
