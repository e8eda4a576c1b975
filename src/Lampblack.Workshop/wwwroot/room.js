// The room, from noon to midnight: mixes day and lit picture in linear light, and gives the page the same light.

const listeners = new Set();
let mixing = { reflectance: 0.81, transmittance: 0.116, night: 0.002, open: 0.95 };
let lamp = [255, 180, 110];
let hour = 0;
let slider;

// sRGB (IEC 61966-2-1): 256 codes to linear light in 65535ths, and back.
const linear = new Uint16Array(256);
const codes = new Uint8ClampedArray(65536);
for (let code = 0; code < 256; code++) {
    const stored = code / 255;
    linear[code] = Math.round((stored <= 0.04045 ? stored / 12.92 : ((stored + 0.055) / 1.055) ** 2.4) * 65535);
}
for (let light = 0; light < 65536; light++) {
    const share = light / 65535;
    codes[light] = Math.round((share <= 0.0031308 ? share * 12.92 : 1.055 * share ** (1 / 2.4) - 0.055) * 255);
}

// The room's light as a share of the lamps' light behind the paper: from a hundred times as much at noon to the night room of the lit picture.
const mostLight = 4.7;
const roomShare = () => mixing.night * 10 ** (mostLight * (1 - hour));
const exposure = share => mixing.open / (mixing.transmittance + share * mixing.reflectance);

// Every room's picture is a sum of the day picture (the face in room light) and the lit one (exposure x (what passed + night share x face)).
export function shares() {
    if (hour <= 0) {
        return { day: 1, lit: 0 };
    }
    const share = roomShare();
    const dim = mixing.reflectance / mixing.open + (1 - mixing.reflectance / mixing.open) * hour;
    return {
        day: Math.max(0, exposure(share) * (share - mixing.night)) * dim,
        lit: exposure(share) / exposure(mixing.night) * dim,
    };
}

export const toLinear = linear;

// Day and lit as linear light, three numbers a dot; gives the codes of the room's picture.
export function mix(day, lit, rgba, from = 0, to = day.length / 3) {
    const { day: d, lit: l } = shares();
    for (let dot = from, source = from * 3, target = from * 4; dot < to; dot++, source += 3, target += 4) {
        rgba[target] = codes[Math.min(65535, day[source] * d + lit[source] * l) | 0];
        rgba[target + 1] = codes[Math.min(65535, day[source + 1] * d + lit[source + 1] * l) | 0];
        rgba[target + 2] = codes[Math.min(65535, day[source + 2] * d + lit[source + 2] * l) | 0];
        rgba[target + 3] = 255;
    }
}

export function onRoom(listener) {
    listeners.add(listener);
    return () => listeners.delete(listener);
}

export const now = () => hour;

// In which unit lengths are told, as it was chosen last in this browser.
export const unit = () => localStorage.getItem('lampblack.unit');

export function light(colour, reflectance, transmittance, night, open) {
    lamp = [1, 3, 5].map(at => parseInt(colour.slice(at, at + 2), 16));
    mixing = { reflectance, transmittance, night, open };
    if (!slider) {
        attach();
    }
    show();
}

function attach() {
    document.getElementById('opening')?.remove();
    slider = document.getElementById('room');
    const kept = Number(localStorage.getItem('lampblack.room') ?? 0);
    slider.value = Number.isFinite(kept) ? kept : 0;
    hour = slider.value / 100;
    slider.addEventListener('input', () => go(slider.value / 100));
    document.addEventListener('keydown', event => {
        if (event.ctrlKey || event.metaKey || event.altKey || event.target.closest?.('input, textarea, select')) {
            return;
        }
        const step = { n: -0.05, m: 0.05 }[event.key.toLowerCase()];
        if (step) {
            event.preventDefault();
            go(hour + step);
        }
    });
}

export function go(to) {
    hour = Math.min(1, Math.max(0, to));
    slider.value = Math.round(hour * 100);
    localStorage.setItem('lampblack.room', slider.value);
    show();
}

function show() {
    const words = hour < 0.02 ? 'noon' : hour < 0.3 ? 'afternoon' : hour < 0.55 ? 'evening, lamps in the room' : hour < 0.8 ? 'dusk' : hour < 0.98 ? 'night' : 'midnight, only the panel glows';
    slider.setAttribute('aria-valuetext', words);
    const root = document.documentElement.style;
    const { day, lit } = shares();
    const face = Math.min(1, day + lit * exposure(mixing.night) * mixing.night);

    // The page is paper in the same room: tinted like drawing paper, as bright as the room makes it.
    const paper = [0.87, 0.81, 0.70].map(share => codes[Math.min(65535, share * face * 65535) | 0]);
    const brighter = [0.95, 0.90, 0.80].map(share => codes[Math.min(65535, share * face * 65535) | 0]);
    const luminance = 0.2126 * linear[paper[0]] / 65535 + 0.7152 * linear[paper[1]] / 65535 + 0.0722 * linear[paper[2]] / 65535;
    const isDark = luminance < 0.179;
    root.setProperty('--paper', css(paper));
    root.setProperty('--slip', css(brighter));
    root.setProperty('--ink', isDark ? (luminance > 0.06 ? '#ffffff' : '#f1e6d2') : luminance < 0.35 ? '#000000' : '#1d1b17');
    root.setProperty('--faint', isDark ? 'rgba(255, 240, 215, 0.34)' : 'rgba(40, 34, 22, 0.34)');
    root.setProperty('--lamp', css(lamp));
    root.setProperty('--hour', hour);
    document.documentElement.classList.toggle('night', isDark);
    for (const listener of listeners) {
        listener(hour);
    }
}

const css = colour => `rgb(${colour.join(' ')})`;
