// Tags hang on what is held by a thread: beside the panel where there is room, so that they cover nothing.

import { svg } from './drawing.js';

export function placeTags({ stage, panel, thread, height, width, held, pxPerMm }) {
    const tags = stage.querySelector('.tags');
    const items = held();
    thread.replaceChildren();
    const px = pxPerMm();

    // A panel that has just left the page has no size.
    if (!tags || items.length === 0 || px === 0) {
        return;
    }
    const item = items.at(-1);
    const [left, bottom, w, h] = item.box;
    const y = panel.offsetTop + (height - bottom - h / 2) * px;
    const edge = panel.offsetLeft + panel.offsetWidth;
    const room = { width: tags.offsetWidth, height: tags.offsetHeight };
    const isBeside = stage.clientWidth - edge >= room.width + 10;
    const isRight = left + w / 2 < width / 2;
    const at = isBeside ? edge + 14 : panel.offsetLeft + (isRight ? (left + w) * px + 22 : left * px - room.width - 22);
    const x = Math.max(stage.scrollLeft + 4, Math.min(stage.scrollLeft + stage.clientWidth - room.width - 4, at));
    const top = Math.max(stage.scrollTop + 4, Math.min(stage.scrollTop + stage.clientHeight - room.height - 4, y - 14));
    tags.style.left = `${x}px`;
    tags.style.top = `${top}px`;
    const toMm = (cssX, cssY) => `${(cssX - panel.offsetLeft) / px} ${(cssY - panel.offsetTop) / px}`;
    const end = isBeside || isRight ? x : x + room.width;
    const start = isBeside || isRight ? left + w : left;
    thread.append(svg('path', { d: `M${start} ${height - bottom - h / 2}L${toMm(end, top + 13)}`, 'stroke-width': 1.4 / px }));
}
