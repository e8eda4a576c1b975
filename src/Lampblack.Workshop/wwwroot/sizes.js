// How large the panel is shown, and in which unit its lengths are told.

import { placeTags } from './tags.js';

export function sizes(view) {
    const { stage, panel, width, height, on } = view;
    let unit = localStorage.getItem('lampblack.unit') === 'in' ? 'in' : 'mm';
    let scale = localStorage.getItem('lampblack.scale') ?? 'fit';

    function size() {
        const room = { width: stage.clientWidth, height: stage.clientHeight };
        const cssMm = 96 / 25.4 * Number(localStorage.getItem('lampblack.screen') ?? 1);
        const px = scale === 'fit' ? wholeScale(room) : scale === 'true' ? cssMm : Number(scale) * cssMm;
        panel.style.width = `${Math.max(60, width * px)}px`;
        panel.style.height = `${Math.max(40, height * px)}px`;
        panel.style.setProperty('--corner', `${Number(stage.dataset.corner) * px}px`);
        for (const button of document.querySelectorAll('[data-scale]')) {
            button.setAttribute('aria-pressed', button.dataset.scale === scale);
        }
        for (const button of document.querySelectorAll('[data-unit]')) {
            button.setAttribute('aria-pressed', button.dataset.unit === unit);
        }
        placeTags(view);
    }

    // All of it in sight, with room for tags beside it where that costs little.
    function wholeScale(room) {
        const high = (room.height - 14) / height, wide = (room.width - 14) / width, beside = (room.width - 285) / width;
        return Math.min(high, beside >= 0.72 * Math.min(wide, high) ? beside : wide);
    }

    const seen = new ResizeObserver(size);
    seen.observe(stage);
    for (const button of document.querySelectorAll('[data-scale]')) {
        on(button, 'click', () => {
            scale = button.dataset.scale;
            localStorage.setItem('lampblack.scale', scale);
            size();
        });
    }
    for (const button of document.querySelectorAll('[data-unit]')) {
        on(button, 'click', () => {
            unit = button.dataset.unit;
            localStorage.setItem('lampblack.unit', unit);
            size();
        });
    }
    size();
    return {
        length: mm => unit === 'in' ? `${(mm / 25.4).toFixed(3)} in` : `${Math.round(mm * 100) / 100} mm`,
        stop: () => seen.disconnect(),
    };
}
