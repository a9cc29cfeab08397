export function showMany(view) { view.replaceChildren('many'); }
