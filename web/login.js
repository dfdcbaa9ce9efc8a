/* Signing in with the shop's password. */

import { applyTheme, person } from "./lib/person.js";
import { loadLanguage, t } from "./lib/say.js";

const at = (id) => document.getElementById(id);

/* A path of ours, as the page that sent us here left it behind the hash. */
function back() {
    const path = decodeURIComponent(location.hash.slice(1));
    return /^\/(?![/\\])/.test(path) ? path : "/";
}

async function signIn(password) {
    const answer = await fetch("/api/login", {
        method: "POST",
        headers: { "Content-Type": "application/json",
            "Accept-Language": person().lang },
        body: JSON.stringify({ password }),
    });
    if (answer.ok)
        return location.replace(back());
    const { error } = await answer.json();
    at("refusal").textContent = answer.status === 401
        ? t("That is not the shop's password.") : error.message;
}

async function send(event) {
    event.preventDefault();
    at("button").disabled = true;
    at("refusal").textContent = "";
    try {
        await signIn(at("password").value);
    } catch {
        at("refusal").textContent = t("The shop's computer cannot be reached.");
    }
    at("button").disabled = false;
    at("password").select();
}

applyTheme();
await loadLanguage(person().lang);
at("label").textContent = t("Shop password");
at("button").textContent = t("Sign in");
at("certificate").textContent =
    t("The shop's certificate, to be installed once on this tablet");
at("form").addEventListener("submit", send);
at("password").focus();
