// Elements of drawings.

export const svg = (name, attributes, text) => {
    const element = document.createElementNS('http://www.w3.org/2000/svg', name);
    for (const [key, value] of Object.entries(attributes)) {
        element.setAttribute(key, value);
    }
    if (text !== undefined) {
        element.textContent = text;
    }
    return element;
};
