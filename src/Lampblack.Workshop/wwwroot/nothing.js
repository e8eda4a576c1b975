// What is answered for a panel that left the page before its script came.
export const nothing = Object.fromEntries(['whole', 'patch', 'lamp', 'settle', 'focusItem', 'stop'].map(name => [name, () => { }]));
