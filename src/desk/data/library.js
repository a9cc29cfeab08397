export function showLibrary(view) { view.replaceChildren('library'); }
