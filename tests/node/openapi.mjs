/* The OpenAPI page against the specification, and what the program answers
 * against the page: every golden example's request and reply, and an error.
 *     node tests/node/openapi.mjs       (needs a build and npm ci in tests) */

import { Validator } from "@seriousme/openapi-schema-validator";
import Ajv from "ajv/dist/2020.js";
import { spawnSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const golden = `${root}/tests/golden`;

function program(words, input = "") {
    const ran = spawnSync(`${root}/build/doughwright`, words,
        { input, encoding: "utf8", maxBuffer: 1 << 26 });
    return { status: ran.status, out: ran.stdout, err: ran.stderr };
}

const tally = { passed: 0, failed: 0 };

function check(what, right, why) {
    tally[right ? "passed" : "failed"]++;
    if (!right)
        console.log(`FAILED ${what}\n  ${JSON.stringify(why)}`);
}

const api = JSON.parse(program(["api"]).out);
const judged = await new Validator().validate(structuredClone(api));
check("the page is OpenAPI 3.1", judged.valid, judged.errors);

const ajv = new Ajv({ allErrors: true });
ajv.addVocabulary(["x-unit", "components"]);
ajv.addSchema({ $id: "api", components: api.components });

function fits(what, shape, value) {
    const valid = ajv.compile({ $ref: `api#/components/schemas/${shape}` });
    check(`${what} fits ${shape}`, valid(value), valid.errors);
}

const shapeOf = (content) =>
    content["application/json"].schema.$ref.split("/").pop();

for (const file of readdirSync(golden).filter((name) => /\.json$/.test(name))) {
    const example = JSON.parse(readFileSync(`${golden}/${file}`, "utf8"));
    const { post } = api.paths[`/api/v1/${example.op}`];
    const ran = program(["call", example.op], JSON.stringify(example.request));
    if (example.error) {
        fits(`${file}: its error`, "error", JSON.parse(ran.err));
        continue;
    }
    fits(`${file}: its request`, shapeOf(post.requestBody.content),
        example.request);
    fits(`${file}: its reply`, shapeOf(post.responses[200].content),
        JSON.parse(ran.out));
}

const refused = program(["call", "program.about"], "{\"x\":1}");
check("a refusal is status 2", refused.status === 2, refused);
fits("a refusal", "error", JSON.parse(refused.err));

console.log(`${tally.passed} passed, ${tally.failed} failed`);
process.exitCode = tally.failed ? 1 : 0;
