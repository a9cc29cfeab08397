export function showRun(view) { view.replaceChildren('run'); }
