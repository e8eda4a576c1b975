// The panel under the hand: taking items up, moving, turning, writing in place. The program sees what came of it; the text of the desk file is the truth.

import { face } from './picture.js';
import { lampView } from './lamp.js';
import { linesOf, nearest, snapped } from './snap.js';
import { carried } from './carried.js';
import { fromShelf } from './shelf.js';
import { pointing } from './pointing.js';
import { sizes } from './sizes.js';
import { nothing } from './nothing.js';
import { placeTags } from './tags.js';
import { wordsInPlace } from './writing.js';

const dragPx = 3, reachPx = 6, restMs = 260;
const isCalm = matchMedia('(prefers-reduced-motion: reduce)');

export function start(stage, program) {
    if (!stage) {
        return nothing;
    }
    const panel = stage.querySelector('.panel'), canvas = stage.querySelector('canvas.face'), over = stage.querySelector('svg.over');
    const grips = over.querySelector('.items'), guides = over.querySelector('.guides'), thread = over.querySelector('.thread');
    const [width, height] = [Number(stage.dataset.width), Number(stage.dataset.height)];
    const ends = new AbortController();
    const on = (target, name, act, options) => target.addEventListener(name, act, { signal: ends.signal, ...options });
    let picture, lamp, drag, bare, burst, focused, pressed, isInside = false;

    const itemOf = grip => ({
        id: grip.dataset.id, table: grip.dataset.table, words: grip.dataset.words, kind: grip.dataset.kind, grip,
        box: grip.dataset.box.split(' ').map(Number), anchor: grip.dataset.anchor.split(' ').map(Number),
    });
    const all = () => [...grips.querySelectorAll('.item')].map(itemOf);
    const gripOf = id => grips.querySelector(`.item[data-id="${CSS.escape(id)}"]`);
    const held = () => [...grips.querySelectorAll('.item.held')].map(itemOf);
    const pxPerMm = () => panel.clientWidth / width;
    const view = { stage, panel, canvas, over, grips, guides, thread, width, height, pxPerMm, held, gripOf, on };
    const sized = sizes(view);
    view.length = sized.length;
    const { lift, carry, drop, guide, isLifted } = carried(view);
    const write = wordsInPlace(view, program);
    fromShelf(view, program);
    const take = ids => program.invokeMethodAsync('Take', ids);

    // ---- by hand
    // Nothing scrolls away under a finger that takes an item. Browsers do not heed touch-action on the shapes of a drawing.
    on(over, 'touchstart', event => event.target.closest('.item') && event.preventDefault(), { passive: false });
    on(over, 'pointerdown', event => {
        const grip = event.target.closest('.item');
        if (lamp || event.button !== 0 || view.writing) {
            return;
        }
        if (!grip) {
            if (held().length > 0 && !event.shiftKey) {
                // A finger that comes to scroll lets go of nothing.
                if (event.pointerType === 'touch') {
                    bare = event.pointerId;
                } else {
                    take([]);
                }
            }
            return;
        }
        event.preventDefault();
        flush();
        const item = itemOf(grip), before = held();
        const isHeld = before.some(one => one.id === item.id);
        const ids = event.shiftKey ? (isHeld ? before.filter(one => one.id !== item.id) : [...before, item]).map(one => one.id) : isHeld ? before.map(one => one.id) : [item.id];
        look(grip);
        drag = { pointer: event.pointerId, x: event.clientX, y: event.clientY, item, ids, isShift: event.shiftKey, isTaken: isHeld && !event.shiftKey };
        over.setPointerCapture(event.pointerId);
        if (!drag.isTaken) {
            take(ids);
        }
    });

    on(over, 'pointermove', event => {
        if (!drag || event.pointerId !== drag.pointer || drag.isShift) {
            return;
        }
        const px = pxPerMm();
        const [dx, dy] = [(event.clientX - drag.x) / px, -(event.clientY - drag.y) / px];
        if (!drag.lines) {
            if (Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < dragPx) {
                return;
            }
            const items = all(), moving = items.filter(item => drag.ids.includes(item.id));

            // Of a row all copies move, whichever one is under the hand.
            drag.moving = items.filter(item => moving.some(one => one.table === item.table));
            drag.lines = linesOf(items.filter(item => !drag.moving.some(one => one.id === item.id)));
            lift(drag.moving);
            stage.classList.add('dragging');
            tellPrice(drag);
        }
        drag.result = snapped(drag.item, dx, dy, drag.lines, reachPx / px, event.altKey);
        drag.turnedAt = event.timeStamp;
        carry(drag.result.dx, drag.result.dy);
        guide(drag.item, drag.result, drag.price);
    });

    // What it costs comes while it is carried: the hand waits for nothing.
    async function tellPrice(carriedNow) {
        carriedNow.price = await program.invokeMethodAsync('PriceOfMove', carriedNow.ids);
        if (drag === carriedNow && drag.result) {
            guide(drag.item, drag.result, drag.price);
        }
    }

    const release = async event => {
        if (bare === event.pointerId) {
            bare = undefined;
            if (event.type === 'pointerup') {
                take([]);
            }
        }
        if (!drag || event.pointerId !== drag.pointer) {
            return;
        }
        const { result, ids, item, isShift } = drag;
        drag = undefined;
        stage.classList.remove('dragging');
        guides.replaceChildren();
        if (event.type === 'pointerup' && result && (Math.abs(result.dx) > 1e-4 || Math.abs(result.dy) > 1e-4)) {
            stage.dataset.letGo = performance.now();
            if (!await program.invokeMethodAsync('Move', ids, result.dx, result.dy)) {
                delete stage.dataset.letGo;
                drop();
            }
        } else {
            drop();

            // Pressed twice in the same place. (The hand is held by the whole panel, so that the browser's own double press names no item.)
            if (event.type === 'pointerup' && !isShift && pressed?.id === item.id && event.timeStamp - pressed.at < 450) {
                pressed = undefined;
                write(itemOf(gripOf(item.id) ?? item.grip));
            } else {
                pressed = { id: item.id, at: event.timeStamp };
            }
        }
    };
    on(over, 'pointerup', release);
    on(over, 'pointercancel', release);

    // ---- by keyboard
    function look(grip) {
        for (const one of grips.querySelectorAll('.item[tabindex="0"]')) {
            one.setAttribute('tabindex', '-1');
        }
        grip.setAttribute('tabindex', '0');
        grip.focus({ preventScroll: false });
        focused = grip.dataset.id;
    }

    function flush() {
        if (burst) {
            clearTimeout(burst.timer);
            const { ids, dx, dy, turn } = burst;
            burst = undefined;
            if (turn) {
                program.invokeMethodAsync('TurnBy', ids, turn);
            } else if (Math.abs(dx) > 1e-4 || Math.abs(dy) > 1e-4) {
                program.invokeMethodAsync('Move', ids, dx, dy).then(isDone => isDone || drop());
            } else {
                drop();
            }
        }
    }

    // Presses in quick succession are one step.
    function push(ids, dx, dy, turn) {
        if (burst && (burst.ids.join() !== ids.join() || !!burst.turn !== !!turn)) {
            flush();
        }
        if (!burst) {
            burst = { ids, dx: 0, dy: 0, turn: 0 };
            if (!turn) {
                const items = all(), moving = items.filter(item => ids.includes(item.id));
                lift(items.filter(item => moving.some(one => one.table === item.table)));
            }
        }
        burst.dx = Math.round((burst.dx + dx) * 1e4) / 1e4;
        burst.dy = Math.round((burst.dy + dy) * 1e4) / 1e4;
        burst.turn += turn;
        if (!turn && isLifted()) {
            carry(burst.dx, burst.dy);
        }
        clearTimeout(burst.timer);
        burst.timer = setTimeout(flush, restMs);
    }

    on(over, 'keydown', event => {
        const grip = event.target.closest('.item');
        if (!grip || lamp || event.ctrlKey || event.metaKey) {
            return;
        }
        const item = itemOf(grip), ids = held().map(one => one.id), isHeld = ids.includes(item.id);
        const act = {
            ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1],
        }[event.key];
        const done = () => {
            event.preventDefault();
            event.stopPropagation();
        };
        if (act && isHeld) {
            done();
            const step = event.shiftKey ? 0.1 : event.altKey ? 10 : 1;
            push(ids, act[0] * step, act[1] * step, 0);
        } else if (act) {
            done();
            const next = nearest(all(), item, event.key);
            if (next) {
                look(next.grip);
            }
        } else if (event.key === 'Enter') {
            done();
            flush();
            take(isHeld ? ids.filter(id => id !== item.id) : [item.id]);
        } else if (event.key === ' ') {
            done();
            flush();
            take(isHeld ? ids.filter(id => id !== item.id) : [...ids, item.id]);
        } else if (event.key === 'Escape') {
            done();
            if (burst) {
                clearTimeout(burst.timer);
                burst = undefined;
                drop();
            } else {
                take([]);
            }
        } else if ((event.key === '.' || event.key === ',' || event.key === ':' || event.key === ';') && isHeld) {
            done();
            push(ids, 0, 0, (event.key === '.' || event.key === ':' ? 1 : -1) * (event.shiftKey ? 1 : 15));
        } else if (event.key.toLowerCase() === 'e') {
            done();
            flush();
            write(item);
        } else if (event.key.toLowerCase() === 'c') {
            done();
            flush();
            program.invokeMethodAsync('Copy', isHeld ? ids : [item.id]);
        } else if (event.key === 'Delete' || event.key === 'Backspace') {
            done();
            flush();
            program.invokeMethodAsync('Remove', isHeld ? ids : [item.id]);
        }
    });
    on(document, 'focusin', event => {
        const grip = event.target.closest?.('.item');
        isInside = !!grip;
        if (grip) {
            focused = grip.dataset.id;
        }
    });

    // A key that comes in the moment in which its item is put elsewhere among the others still belongs to it.
    on(document, 'keydown', event => {
        const grip = isInside && !view.writing && event.isTrusted && document.activeElement === document.body && focused && gripOf(focused);
        if (grip) {
            const { key, shiftKey, altKey, ctrlKey, metaKey } = event;
            grip.focus();
            if (!grip.dispatchEvent(new KeyboardEvent('keydown', { key, shiftKey, altKey, ctrlKey, metaKey, bubbles: true, cancelable: true }))) {
                event.preventDefault();
            }
        }
    }, { capture: true });
    on(document, 'pointerdown', event => isInside &&= !!event.target.closest?.('.over'));
    on(document, 'keydown', event => {
        if (!(event.ctrlKey || event.metaKey) || event.target.closest?.('input, textarea, select')) {
            return;
        }
        const key = event.key.toLowerCase();
        if (key === 'z' || key === 'y') {
            event.preventDefault();
            flush();
            program.invokeMethodAsync(key === 'y' || event.shiftKey ? 'DoAgain' : 'TakeBack');
        }
    });

    pointing(view);
    return {
        async whole(address, w, h) {
            picture ??= face(canvas);
            await picture.whole(address, w, h);
            drop();
            this.settle();
        },
        async patch(...window) {
            await picture?.patch(...window);
            drop();
            if (stage.dataset.letGo) {
                stage.dataset.settled = performance.now() - Number(stage.dataset.letGo);
                delete stage.dataset.letGo;
            }
        },
        async lamp(address, mmPerDot) {
            lamp ??= lampView(canvas, stage);
            await lamp?.show(address, mmPerDot);
        },
        // After every drawing of the page: tags to their places, one way in for the keyboard.
        settle() {
            if (!drag && !burst && isLifted() && !stage.dataset.letGo) {
                drop();
            }
            if (!grips.querySelector('.item[tabindex="0"]')) {
                ((focused && gripOf(focused)) ?? grips.querySelector('.item'))?.setAttribute('tabindex', '0');
            }

            // An item that changed its size changed its place among the others, and lost the keyboard on the way.
            if (isInside && focused && !view.writing && document.activeElement === document.body) {
                gripOf(focused)?.focus();
            }
            requestAnimationFrame(() => placeTags(view));
        },
        focusItem(id) {
            const grip = gripOf(id);
            if (grip) {
                look(grip);
                grip.scrollIntoView({ block: 'nearest', inline: 'nearest', behavior: isCalm.matches ? 'auto' : 'smooth' });
            }
        },
        stop() {
            flush();
            drop();
            sized.stop();
            ends.abort();
            picture?.stop();
            lamp?.stop();
        },
    };
}
