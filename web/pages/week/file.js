/* Files of people: their letters, and a list of rows to take home. */

/* Older registers write Windows letters. */
export async function textOf(file) {
    const bytes = await file.arrayBuffer();
    try {
        return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
        return new TextDecoder("windows-1252").decode(bytes);
    }
}

/* RFC 4180; a spreadsheet runs what begins with = + - @ as a formula. */
function cell(value) {
    const text = String(value ?? "");
    const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
    return /[",\r\n]/.test(safe) ? `"${safe.replaceAll("\"", "\"\"")}"` : safe;
}

export function asCsv(rows) {
    const names = Object.keys(rows[0]);
    return [names, ...rows.map((row) => names.map((name) => row[name]))]
        .map((line) => line.map(cell).join(",")).join("\r\n") + "\r\n";
}
