// From the shelf to the panel: things are pulled out of drawers, artwork is chosen.

const dragPx = 6;

export function fromShelf({ panel, width, height, pxPerMm, on }, program) {
    let thing;
    on(document, 'pointerdown', event => {
        const from = event.target.closest?.('.thing[data-what]');
        if (from && event.button === 0) {
            thing = { what: from.dataset.what, x: event.clientX, y: event.clientY, drawing: from.querySelector('svg'), pointer: event.pointerId };
        }
    });
    on(document, 'pointermove', event => {
        if (!thing || event.pointerId !== thing.pointer) {
            return;
        }
        if (!thing.copy && Math.hypot(event.clientX - thing.x, event.clientY - thing.y) > dragPx) {
            thing.copy = thing.drawing.cloneNode(true);
            thing.copy.classList.add('carried');
            document.body.append(thing.copy);
            tellPrice(thing);
        }
        if (thing.copy) {
            thing.copy.style.left = `${event.clientX}px`;
            thing.copy.style.top = `${event.clientY}px`;
            place(thing);
        }
    });

    const letGo = () => {
        const put = thing;
        thing = undefined;
        put?.copy?.remove();
        put?.price?.remove();
        return put;
    };

    // A finger that pushes the drawer along has nothing in hand any more.
    on(document, 'pointercancel', event => event.pointerId === thing?.pointer && letGo());
    on(document, 'pointerup', event => {
        const put = letGo();
        if (!put?.copy) {
            return;
        }
        const place = panel.getBoundingClientRect();
        const [x, y] = [(event.clientX - place.left) / pxPerMm(), height - (event.clientY - place.top) / pxPerMm()];
        if (x > 0 && y > 0 && x < width && y < height) {
            program.invokeMethodAsync('PutAt', put.what, Math.round(x * 2) / 2, Math.round(y * 2) / 2);
        }
    });

    // What it costs at the bench hangs below it, as soon as that is known.
    async function tellPrice(carried) {
        const words = await program.invokeMethodAsync('PriceOfPut', carried.what);
        if (words && thing === carried) {
            carried.price = Object.assign(document.createElement('p'), { className: 'carried-price costs', textContent: words });
            document.body.append(carried.price);
            place(carried);
        }
    }

    function place(carried) {
        if (carried.price) {
            carried.price.style.left = carried.copy.style.left;
            carried.price.style.top = `${parseFloat(carried.copy.style.top) + carried.copy.getBoundingClientRect().height / 2 + 6}px`;
        }
    }

    on(document, 'change', async event => {
        if (event.target.id !== 'artwork-file' || !event.target.files[0]) {
            return;
        }
        const file = event.target.files[0];
        event.target.value = '';
        const problem = await window.lampblackSend('artwork', file);
        await program.invokeMethodAsync(problem ? 'Complain' : 'PutAt', problem || `art:${window.lampblackNameOf(file)}`, ...(problem ? [] : [Math.max(2, width / 2 - 20), Math.max(2, height / 2 - 15)]));
    });
}
