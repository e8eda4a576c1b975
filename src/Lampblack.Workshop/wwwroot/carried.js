// What is moved is shown moving: a piece of the picture itself under the hand, and the lines that it comes to rest on.

import { svg } from './drawing.js';

export function carried({ panel, canvas, grips, guides, width, height, pxPerMm, length }) {
    let ghost;

    function lift(items) {
        drop();
        const boxes = items.map(item => item.box);
        const left = Math.min(...boxes.map(b => b[0])) - 1, bottom = Math.min(...boxes.map(b => b[1])) - 1;
        const right = Math.max(...boxes.map(b => b[0] + b[2])) + 1, top = Math.max(...boxes.map(b => b[1] + b[3])) + 1;
        const px = canvas.width / width;
        const copy = document.createElement('canvas');
        copy.className = 'ghost';
        copy.width = Math.max(1, Math.round((right - left) * px));
        copy.height = Math.max(1, Math.round((top - bottom) * px));
        const to = copy.getContext('2d');
        to.setTransform(px, 0, 0, px, -left * px, -(height - top) * px);
        const clip = new Path2D();
        for (const item of items) {
            clip.addPath(new Path2D(item.grip.getAttribute('d')));
        }
        to.clip(clip, 'nonzero');
        to.drawImage(canvas, 0, 0, width, height);
        const css = pxPerMm();
        copy.style.width = `${(right - left) * css}px`;
        copy.style.height = `${(top - bottom) * css}px`;
        copy.style.left = `${left * css}px`;
        copy.style.top = `${(height - top) * css}px`;
        panel.append(copy);
        ghost = { copy, items };
        for (const item of items) {
            item.grip.classList.add('lifted');
        }
    }

    function carry(dx, dy) {
        const css = pxPerMm();
        ghost.copy.style.transform = `translate(${dx * css}px, ${-dy * css}px)`;
        for (const item of ghost.items) {
            item.grip.setAttribute('transform', `translate(${dx} ${-dy})`);
        }
        panel.dataset.carried = `${dx.toFixed(3)} ${dy.toFixed(3)}`;
    }

    function drop() {
        if (ghost) {
            ghost.copy.remove();
            for (const grip of grips.querySelectorAll('.item')) {
                grip.removeAttribute('transform');
                grip.classList.remove('lifted');
            }
            ghost = undefined;
        }
        guides.replaceChildren();
    }

    // Lines it holds to, with the way to what offers them; how far it has come, and what that costs at the bench.
    function guide(moving, result, price) {
        guides.replaceChildren();
        const px = 1 / pxPerMm();
        for (const line of result.held) {
            const isX = line.axis === 'x';
            guides.append(svg('path', { class: 'guide', d: isX ? `M${line.at} 0V${height}` : `M0 ${height - line.at}H${width}`, 'stroke-width': 1.2 * px }));
            const [own, other] = isX ? [moving.anchor[1] + result.dy, line.item.anchor[1]] : [moving.anchor[0] + result.dx, line.item.anchor[0]];
            const far = Math.abs(own - other);
            if (far > 0.05) {
                const middle = (own + other) / 2;
                guides.append(svg('text', { class: 'way', 'font-size': 13 * px, x: isX ? line.at + 4 * px : middle, y: isX ? height - middle : height - line.at - 4 * px }, length(far)));
            }
        }
        const [x, y] = [moving.box[0] + moving.box[2] + result.dx, moving.box[1] + result.dy];
        guides.append(svg('text', { class: 'way', 'font-size': 13 * px, x: Math.min(x + 4 * px, width - 90 * px), y: Math.min(height - y + 16 * px, height - 4 * px) }, `${length(result.dx)}, ${length(result.dy)}`));
        if (price) {
            guides.append(svg('text', { class: 'way costs', 'font-size': 13 * px, x: Math.min(x + 4 * px, width - 200 * px), y: Math.min(height - y + 33 * px, height - 21 * px) }, price));
        }
    }

    return { lift, carry, drop, guide, isLifted: () => !!ghost };
}
