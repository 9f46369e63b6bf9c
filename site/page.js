(function (leaf) {
"use strict";
leaf.element = function (name, attributes, ...children) {
const element = document.createElement(name);
for (const [key, value] of Object.entries(attributes ?? {})) {
if (value === true) element.setAttribute(key, "");
else if (value !== false && value !== null && value !== undefined) element.setAttribute(key, value);
}
element.append(...children);
return element;
};
leaf.storage = {
read(key) {
try {
const text = globalThis.localStorage.getItem(key);
return text === null ? null : JSON.parse(text);
} catch {
return null;
}
},
write(key, value) {
try {
globalThis.localStorage.setItem(key, JSON.stringify(value));
return true;
} catch {
return false;
}
},
};
})((globalThis.leaf ??= {}));
