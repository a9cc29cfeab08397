// What needs a look in the library, how far it can be trusted, and who changed what.
import { h, button, choice, field } from '/dom.js';
import { librarySystems } from '/api.js';
import { ask } from '/answer.js';
import { compoundLink, linkNames, systemLink } from '/library_words.js';

/// Long work goes on while other pages are looked at: its place is kept, with its answer.
const lasting = new Map();

function lastingPlace(what) {
  if (!lasting.has(what)) lasting.set(what, { place: h('div', { class: 'told' }), begun: h('p', { class: 'small' }) });
  return lasting.get(what);
}

/// The headings of findings, "COMPOUND on SYSTEM" or "SYSTEM", lead to the cards.
async function linkFindings(root) {
  const systems = (await librarySystems()).map((one) => one.system);
  for (const { firstChild: subject } of root.querySelectorAll('article > h3')) {
    const words = subject.data.trim();
    const system = systems.find((one) => words === one || words.endsWith(` on ${one}`));
    if (system === undefined) continue;
    const compound = words.slice(0, -` on ${system}`.length);
    subject.replaceWith(...(words === system ? [] : [compoundLink(compound), ' on ']), systemLink(system), ' ');
  }
}

async function work(what, call) {
  const { place, begun } = lastingPlace(what);
  begun.textContent = `Begun at ${new Date().toTimeString().slice(0, 5)}. Other pages can be looked at meanwhile.`;
  if (await ask(place, call, { slot: what })) {
    begun.textContent = `As of ${new Date().toTimeString().slice(0, 5)}.`;
    linkNames(place);
    if (what === 'audit') linkFindings(place).catch(() => {}); // names without links are names still
  }
}

export function showAudit(view) {
  const known = lasting.has('audit');
  const { place, begun } = lastingPlace('audit');
  const look = () => work('audit', { verb: 'audit' });
  view.replaceChildren(h('h1', {}, 'What needs a look'),
    h('p', { class: 'lead' }, 'Replicates that disagree, drift, values that cannot be, names and structures in conflict. Nothing is changed by looking.'),
    h('p', {}, button('look again', look)), begun, place);
  if (!known) look();
}

export function showTrust(view) {
  const { place, begun } = lastingPlace('trust');
  view.replaceChildren(h('h1', {}, 'How far to trust it'),
    h('p', { class: 'lead' }, 'The library is asked for its own values: whole runs, days and compounds are left out, and what it then calls probable is held against what it is.'),
    h('p', {}, 'A large library takes minutes. What is stored is a correction of the stated probabilities, where one does better; ',
      h('i', {}, 'identify'), ' uses it from then on.'),
    h('p', { class: 'buttons' }, button('ask, and store nothing', () => work('trust', { verb: 'prove', options: { 'dry-run': true } }), { class: 'main' }), ' ',
      button('ask, and store the correction', () => work('trust', { verb: 'prove' }))), begun, place);
}

export function showHistory(view) {
  const place = h('div', { class: 'told' });
  const run = h('input', { size: '16', onchange: () => list() });
  let top = '50';
  async function list() {
    const options = run.value.trim() ? { top, run: run.value.trim() } : { top };
    await ask(place, { verb: 'history', options }, { slot: 'history' });
  }
  view.replaceChildren(h('h1', {}, 'Who changed what'),
    h('div', { class: 'given' }, field('of one run only', run),
      field('at most', choice([['50', '50 changes'], ['500', '500 changes'], ['5000', '5000 changes']], top, (value) => { top = value; list(); }))),
    place);
  list();
}
