import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { graded } from "./graded.js";

const vendor = new URL("../../web/vendor/", import.meta.url);

graded("each library is the file that VENDOR.md names, byte for byte", "limit",
    "sha384 of the file", () => {
        const said = new Map([...readFileSync(new URL("VENDOR.md", vendor),
            "utf8").matchAll(/^\| (\S+) \|.*`([^`]+)` \|$/gm)]
            .map(([, file, hash]) => [file, hash]));
        const carried = readdirSync(vendor)
            .filter((name) => /\.(js|woff2)$/.test(name));
        assert.deepEqual([...said.keys()].sort(), carried.sort());
        for (const name of carried) {
            const hash = createHash("sha384")
                .update(readFileSync(new URL(name, vendor))).digest("base64");
            assert.equal(hash, said.get(name), name);
        }
    });
