// Photos dropped on the station Printer go straight to the program.

export function start(station, program) {
    const ends = new AbortController();
    const on = (name, act) => station?.addEventListener(name, act, { signal: ends.signal });
    const area = event => event.target.closest?.('#photo-drop');
    const send = async files => {
        let problem = '';
        for (const file of files) {
            problem ||= await window.lampblackSend('photo', file);
        }
        await program.invokeMethodAsync('Dropped', problem);
    };
    on('dragover', event => {
        if (area(event)) {
            event.preventDefault();
            area(event).classList.add('over');
        }
    });
    on('dragleave', event => area(event)?.classList.remove('over'));
    on('drop', event => {
        if (area(event)) {
            event.preventDefault();
            area(event).classList.remove('over');
            send([...event.dataTransfer.files]);
        }
    });
    on('change', event => {
        if (event.target.id === 'photo-files' && event.target.files.length > 0) {
            const files = [...event.target.files];
            event.target.value = '';
            send(files);
        }
    });

    // A photo that misses the place must not make the browser leave the page.
    for (const name of ['dragover', 'drop']) {
        document.addEventListener(name, event => event.preventDefault(), { signal: ends.signal });
    }
    return { stop: () => ends.abort() };
}
