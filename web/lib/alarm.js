/* Sound for a timer that has run out: three short tones, made here. A browser
 * lets a page sound only after somebody touched it, so the first touch wakes
 * the sound. */

const KEPT = "doughwright.quiet";
let sound = null;

function wake() {
    sound ??= new AudioContext();
    sound.resume();
}

if (globalThis.AudioContext) {
    addEventListener("pointerdown", wake);
    addEventListener("keydown", wake);
}

export function isQuiet() {
    return localStorage.getItem(KEPT) === "yes";
}

export function setQuiet(quiet) {
    localStorage.setItem(KEPT, quiet ? "yes" : "no");
}

function tone(at) {
    const source = sound.createOscillator();
    const volume = sound.createGain();
    source.frequency.value = 880;
    volume.gain.setValueAtTime(0, at);
    volume.gain.linearRampToValueAtTime(0.6, at + 0.02);
    volume.gain.setValueAtTime(0.6, at + 0.25);
    volume.gain.linearRampToValueAtTime(0, at + 0.3);
    source.connect(volume).connect(sound.destination);
    source.start(at);
    source.stop(at + 0.32);
}

/* True when it could be heard. */
export function ring() {
    if (isQuiet() || sound?.state !== "running")
        return false;
    for (let i = 0; i < 3; i++)
        tone(sound.currentTime + i * 0.45);
    return true;
}
