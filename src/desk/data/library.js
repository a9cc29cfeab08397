// The library: its compounds and systems, the card of each, what needs a look, how far to trust it.
import { h } from '/dom.js';
import { get } from '/api.js';
import { showAudit, showHistory, showTrust } from '/library_checks.js';
import { showSearch } from '/library_search.js';
import { showCompound } from '/compound_card.js';
import { showSystem } from '/system_card.js';

const places = [['', 'Compounds and systems', showSearch], ['audit', 'What needs a look', showAudit],
  ['trust', 'How far to trust it', showTrust], ['history', 'Who changed what', showHistory]];
const cards = { compound: showCompound, system: showSystem };

function contents(what) {
  return h('nav', { class: 'contents', 'aria-label': 'parts of the library' }, places.map(([place, text]) =>
    h('a', { href: `#/library${place ? '/' : ''}${place}`, 'aria-current': place === what ? 'page' : null }, text)));
}

/// `path`: what stands behind #/library in the address. Returns what is to be done when it is left.
export function showLibrary(view, path) {
  const [what = '', name = ''] = path;
  const part = h('div', { class: 'library' });
  view.replaceChildren(contents(what), part);
  get('/api/library').then((library) => {
    if (!library.exists) part.replaceChildren(h('p', {}, 'There is no library here yet: ', h('a', { href: '#/' }, 'begin it on the bench'), '.'));
  }, () => {});
  if (name && cards[what]) return cards[what](part, name);
  const place = places.find(([one]) => one === what) ?? places[0];
  return place[2](part);
}
