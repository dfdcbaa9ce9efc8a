import assert from "node:assert/strict";
import { afterEach } from "node:test";
import { graded, rowsOf } from "./graded.js";
import { useCatalogue } from "../../web/lib/say.js";
import { dimensions, readNumber, readQuantity, writeNumber, writeQuantity }
    from "../../web/lib/quantity.js";

afterEach(() => useCatalogue("en", {}));

/* Numbers and units part with a space that keeps them on one line. */
const written = (...args) =>
    writeQuantity(...args).replaceAll("\u00a0", " ");

const vectors = rowsOf("quantity_vectors.csv")
    .filter((row) => dimensions.includes(row.dimension));

graded("the pages read every quantity as the engine does", "derived",
    "quantity_vectors.csv, exact factors of the units", () => {
        assert.ok(vectors.length > 60);
        for (const row of vectors) {
            const read = () =>
                readQuantity(row.input, row.dimension, row.default_unit);
            if (row.error) {
                assert.throws(read, { code: row.error }, `“${row.input}”`);
                continue;
            }
            const want = Number(row.value);
            const got = read();
            assert.ok(Math.abs(got - want) <= 1e-12 * Math.max(1, want),
                `“${row.input}” is ${got}, not ${want}`);
        }
    });

graded("masses print with digits a shop can weigh", "derived",
    "by hand from 28.349523125 g an ounce", () => {
        assert.equal(written(0.017, "mass", "us"), "0.6 oz");
        assert.equal(written(0.5669904625, "mass", "us"), "1 lb 4 oz");
        assert.equal(written(0.4534, "mass", "us"), "1 lb");
        assert.equal(written(60, "mass", "us"), "132.3 lb");
        assert.equal(written(0.017, "mass", "metric"), "17 g");
        assert.equal(written(0.567, "mass", "metric"), "567 g");
        assert.equal(written(4.5359237, "mass", "metric"), "4.536 kg");
        assert.equal(written(12.3456, "mass", "metric"), "12.35 kg");
    });

graded("temperatures, percents, lengths and times print as people read them",
    "derived", "by hand", () => {
        assert.equal(written(26.6666667, "temperature", "us"), "80 °F");
        assert.equal(written(26.5, "temperature", "metric"), "26.5 °C");
        assert.equal(written(15, "difference", "us"), "27 °F");
        assert.equal(written(-5, "temperature", "metric"), "\u22125 °C");
        assert.equal(written(0.375, "percent", "us"), "0.375 %");
        assert.equal(written(0.0375, "percent", "us"), "0.0375 %");
        assert.equal(written(62, "percent", "us"), "62 %");
        assert.equal(written(0.4064, "length", "us"), "16 in");
        assert.equal(written(0.305, "length", "metric"), "30.5 cm");
        assert.equal(written(1.5, "time", "us"), "1 h 30 min");
        assert.equal(written(0.0125, "time", "us"), "45 s");
    });

graded("Spanish writes the point of kitchen scales and reads both marks",
    "practice", "common practice in the Americas, no source", () => {
        useCatalogue("es", {});
        assert.equal(written(0.375, "percent", "metric"), "0.375 %");
        assert.equal(writeNumber(1234.5), "1234.5");
        assert.equal(readNumber("0,375"), 0.375);
        assert.equal(readNumber("0.375"), 0.375);
        assert.equal(readQuantity("4,5 kg", "mass", "kg"), 4.5);
    });

/* From 100 lb a mass is rounded to 0.1 oz and then to 0.1 lb: half a digit and
 * a thirtieth. */
graded("what is printed reads back within half its last digit", "limit",
    "round trip", () => {
        for (let i = 1; i < 400; i++) {
            const kg = 0.00123 * 1.045 ** i % 90000;
            for (const units of ["us", "metric"]) {
                const back = readQuantity(writeQuantity(kg, "mass", units),
                    "mass", "kg");
                const digit = units === "us"
                    ? (kg < 0.0269 ? 0.0002835 : kg < 45 ? 0.002835 : 0.04536)
                    : (kg < 0.001 ? 1e-5 : kg < 0.1 ? 1e-4 : kg < 10 ? 1e-3
                        : kg < 100 ? 0.01 : 0.1);
                assert.ok(Math.abs(back - kg) <= digit * 0.54,
                    `${kg} ${units}`);
            }
        }
    });

graded("a plain number is a number and nothing else", "limit",
    "bad input changes nothing", () => {
        for (const text of ["", " ", "1e3", "0x10", "1.2.3", "abc", "1,2,3",
            "NaN"])
            assert.equal(readNumber(text), null, `“${text}”`);
        assert.equal(readNumber(" \u22123.5 "), -3.5);
    });
