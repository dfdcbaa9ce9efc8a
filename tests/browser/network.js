/* The shop's network: the server at an address of its own, over HTTPS with the
 * shop's certificate installed in the browser, behind the shop's password.
 *
 * As root the server gets a network namespace with a pair of virtual cards to
 * it, so that cutting the network is pulling the cable. Else it listens on an
 * address of this machine and the browser is told to be offline. */

import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { dataIn, startServer } from "./stage.js";

export const PASSWORD = "flour on the hands";

const ip = (...words) => execFileSync("ip", words,
    { stdio: ["ignore", "ignore", "pipe"] });

/* A /30 of 10/8 for this process, so that two runs do not meet. */
function namespace() {
    const name = `dough${process.pid}`;
    const [near, far] = [`${name}n`, `${name}f`];
    const net = `10.231.${process.pid % 256}`;
    ip("netns", "add", name);
    try {
        ip("link", "add", near, "type", "veth", "peer", "name", far, "netns",
            name);
        ip("addr", "add", `${net}.1/30`, "dev", near);
        ip("-n", name, "addr", "add", `${net}.2/30`, "dev", far);
        ip("-n", name, "link", "set", far, "up");
        ip("link", "set", near, "up");
    } catch (error) {
        ip("netns", "del", name);
        throw error;
    }
    return { address: `${net}.2`, within: ["ip", "netns", "exec", name],
        close: () => ip("netns", "del", name),
        cut: async () => ip("link", "set", near, "down"),
        mend: async () => ip("link", "set", near, "up") };
}

function ownAddress() {
    const { address } = Object.values(networkInterfaces()).flat()
        .find((one) => one.family === "IPv4" && !one.internal);
    return { address, within: [], close: () => undefined,
        cut: (context) => context.setOffline(true),
        mend: (context) => context.setOffline(false) };
}

function reach() {
    try {
        return namespace();
    } catch (error) {
        console.log(`no network namespace (${error.message.trim()}); ` +
            "on an address of this machine");
        return ownAddress();
    }
}

/* A home whose browsers trust the certificate, as one installs it by hand. */
function trusting(folder, certificate) {
    const home = join(folder, "home");
    for (const place of [".pki/nssdb", ".local/share/pki/nssdb"]) {
        const store = join(home, place);
        mkdirSync(store, { recursive: true });
        execFileSync("certutil", ["-d", `sql:${store}`, "-N",
            "--empty-password"]);
        execFileSync("certutil", ["-d", `sql:${store}`, "-A", "-t", "C,,",
            "-n", "shop", "-i", certificate]);
    }
    return home;
}

/* A place for runAll. The server is started once to make its certificate. */
export async function openNetwork(folder) {
    const there = reach();
    const secret = join(folder, "password");
    writeFileSync(secret, PASSWORD, { mode: 0o600 });
    const place = { ...there,
        flags: ["--listen", there.address, "--password-file", secret] };
    try {
        await (await startServer(folder, place)).stop();
        const home = trusting(folder, `${dataIn(folder)}.shop.pem`);
        return { ...place, env: { ...process.env, HOME: home } };
    } catch (error) {
        there.close();
        throw error;
    }
}
