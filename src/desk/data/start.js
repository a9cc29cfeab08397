// The bench: what there is to do, and the sheets that were worked on last.
import { h, button, settled, field } from '/dom.js';
import { askAbout, get, post, runVerb } from '/api.js';
import { Sheet, kinds } from '/sheet.js';
import { isDone, refusal } from '/answer.js';

const forVisitors = ['plate', 'run'];
const beginnings = [
  ['plate', 'A plate', 'Spots from a photo, or drawn and typed: what may each be?'],
  ['run', 'A run', 'A recorded trace or a list of peaks, with its ladder.'],
  ['many', 'Many at once', 'A class of plates or several batches: the doubtful first.'],
  ['purity', 'Purity', 'Is a sample what it is declared to be, and what else is in it?'],
  ['column', 'A column', 'From the plate to the tubes, and from the tubes to the flask.'],
  ['table', 'A table', 'Standards, values, compounds or systems for the library.'],
];

async function begin(kind, name) {
  const sheet = await Sheet.create(kind, `${name}, ${new Date().toISOString().slice(0, 10)}`);
  location.hash = `#/sheet/${sheet.id}`;
}

function row(sheet) {
  return h('tr', {}, h('th', { scope: 'row' }, h('a', { href: `#/sheet/${sheet.id}` }, sheet.title || 'without a title')),
    h('td', {}, kinds[sheet.kind] ?? sheet.kind), h('td', {}, sheet.person ?? ''), h('td', {}, sheet.state),
    h('td', { class: 'nowrap' }, sheet.changed.slice(0, 16).replace('T', ' ')));
}

function stack(sheets, most) {
  if (sheets.length === 0) return h('p', { class: 'faint' }, 'No sheet yet.');
  return h('div', { class: 'wide' }, h('table', {},
    h('thead', {}, h('tr', {}, ['Sheet', 'Kind', 'By', 'State', 'Changed (UTC)'].map((text) => h('th', { scope: 'col' }, text)))),
    h('tbody', {}, sheets.slice(0, most).map(row))));
}

function emptyLibrary(view, library) {
  const outcome = h('div', {});
  async function create() {
    const answer = await runVerb({ verb: 'init' });
    if (isDone(answer)) showBench(view);
    else outcome.replaceChildren(refusal(answer.messages));
  }
  view.replaceChildren(h('h1', {}, 'There is no library here yet'),
    h('p', { class: 'lead' }, `It will be the file ${library.library}.`),
    h('ol', {}, h('li', {}, 'Begin the library.'),
      h('li', {}, 'Name your systems: the plates, columns and eluents that you run.'),
      h('li', {}, 'Learn your standards: a table, or a plate on which they run.')),
    button('begin the library', create, { class: 'main' }), outcome);
}

/// How others in the room come in, where the desk is open to them.
function classNote(library) {
  if (!library.class) return null;
  return h('p', { class: 'class-note' }, 'Others in the room open ', h('strong', {}, library.class.address), ' and enter the code ',
    h('strong', {}, library.class.code), '. They read the library and submit sheets of their own, which wait under Sheets.',
    library.class.encrypted ? '' : ' What they send is not encrypted: whoever shares the network can read it.');
}

/// Asks somebody in the room for the code of the class.
export function showEntry(view, entered) {
  const code = h('input', { required: true, autocomplete: 'off' });
  const name = h('input', { required: true, autocomplete: 'name' });
  const outcome = h('div', {});
  async function enter(event) {
    event.preventDefault();
    try {
      await post('/api/enter', { code: code.value, name: name.value });
      entered();
    } catch (error) {
      outcome.replaceChildren(refusal(error.message));
    }
  }
  view.replaceChildren(h('h1', {}, 'The desk of this class'),
    h('form', { class: 'small-form', onsubmit: enter }, field('the code that was told', code), field('your name', name),
      h('button', { type: 'submit', class: 'main' }, 'enter')), outcome,
    location.protocol === 'https:' ? '' : h('p', { class: 'hint' }, 'What you enter here is sent over the network of this room unencrypted.'));
  code.focus();
}

export async function showBench(view) {
  const library = await askAbout();
  if (!library.exists) {
    emptyLibrary(view, library);
    return;
  }
  const sheets = await get('/api/sheets');
  view.replaceChildren(h('h1', {}, 'What is on the bench?'),
    h('ul', { class: 'beginnings' }, beginnings.filter(([kind]) => library.role === 'owner' || forVisitors.includes(kind)).map(([kind, name, words]) =>
      h('li', {}, button(name, () => begin(kind, name)), h('p', {}, words)))), classNote(library),
    h('h2', {}, 'Last sheets'), stack(sheets, 12),
    h('p', { class: 'caution', role: 'note' }, 'Retention alone is no proof of identity: confirm with a reference standard and an independent method.'));
}

export async function showSheets(view) {
  const found = h('div', {});
  const words = h('input', { type: 'search', oninput: settled(search, 150) });
  async function search() {
    found.replaceChildren(stack(await get(`/api/sheets?words=${encodeURIComponent(words.value)}`), 500));
  }
  view.replaceChildren(h('h1', {}, 'Sheets'), field('Compound, system, person, day or title', words), found);
  await search();
}
