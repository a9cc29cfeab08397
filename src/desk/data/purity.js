export function showPurity(view) { view.replaceChildren('purity'); }
