export function showTable(view) { view.replaceChildren('table'); }
