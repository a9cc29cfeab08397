export function showColumn(view) { view.replaceChildren('column'); }
