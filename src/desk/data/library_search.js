// Compounds found by name, mass, substructure or system while one types, and the systems of the library.
import { h, button, field, settled, say } from '/dom.js';
import { librarySystems, resultsOf, runVerb } from '/api.js';
import { isDone } from '/answer.js';
import { compoundAddress, compoundLink, systemLink } from '/library_words.js';
import { inPageWords } from '/option_words.js';
import { messageLines } from '/faults.js';
import { heldCompound } from '/structure_preview.js';
import { addCompound } from '/add_compound.js';

const kPage = 200; // compounds that are asked for at once, systems that are shown
const kRemembered = 'cospot library search'; // in this tab only

const counted = (count, one, many = `${one}s`) => `${count.toLocaleString('en')} ${count === 1 ? one : many}`;

function table(headings, body) {
  return h('div', { class: 'wide', role: 'region', tabindex: '0', 'aria-label': headings[0] }, h('table', {},
    h('thead', {}, h('tr', {}, headings.map((text) => h('th', { scope: 'col', class: /^(Values|Systems|Compounds|Monoiso)/.test(text) ? 'number' : null }, text)))),
    body));
}

function compoundRow(one) {
  return h('tr', {}, h('th', { scope: 'row' }, compoundLink(one.compound), one.retired ? h('small', {}, ' withdrawn') : null),
    h('td', {}, one.formula ?? ''), h('td', { class: 'number' }, one.monoisotopic_mass?.toFixed(4) ?? ''),
    h('td', { class: 'number' }, String(one.values)), h('td', { class: 'number' }, String(one.systems)));
}

function systemRow(one) {
  return h('tr', {}, h('th', { scope: 'row' }, systemLink(one.system), one.retired ? h('small', {}, ' withdrawn') : null),
    h('td', {}, one.technique), h('td', {}, one.stationary_phase), h('td', {}, [one.mobile_phase, one.programme].filter(Boolean).join('; ')),
    h('td', { class: 'number' }, String(one.values)), h('td', { class: 'number' }, String(one.compounds)));
}

class CompoundSearch {
  constructor() {
    this.wanted = JSON.parse(sessionStorage.getItem(kRemembered) ?? '{}');
    this.found = h('div', { class: 'found' });
    this.further = h('p', { hidden: true }, button('', () => this.showMore()));
    this.count = h('p', { class: 'count-found', role: 'status' }, 'looking …');
    this.fault = h('small', { class: 'fault', role: 'alert' });
    this.soon = settled(() => this.search(), 150);
    this.systems = h('select', { onchange: () => this.enter('system', this.systems.value) }, h('option', { value: '' }, 'any'));
    this.element = h('form', { class: 'given', role: 'search', onsubmit: (event) => event.preventDefault(),
      onkeydown: (event) => event.key === 'Enter' && this.open() },
      field('part of a name', this.input('name', { type: 'search', size: '22' })),
      field('mass from, Da', this.input('low', { inputmode: 'decimal', size: '8' })),
      field('to, Da', this.input('high', { inputmode: 'decimal', size: '8' })),
      field('substructure (SMARTS)', this.input('substructure', { size: '16', spellcheck: 'false' })),
      field('measured on', this.systems), this.fault);
  }

  input(name, properties) {
    const input = h('input', { autocomplete: 'off', value: this.wanted[name] ?? '', ...properties, oninput: () => this.enter(name, input.value.trim()) });
    return input;
  }

  enter(name, value) {
    this.wanted[name] = value;
    sessionStorage.setItem(kRemembered, JSON.stringify(this.wanted));
    this.soon();
  }

  offerSystems(all) {
    this.systems.append(...all.map((one) => h('option', { value: one.system, selected: one.system === this.wanted.system }, one.system)));
  }

  options() {
    const { name, low, high, substructure, system } = this.wanted;
    const mass = low || high ? `${low ?? ''}:${high ?? ''}`.replaceAll(',', '.') : '';
    return Object.fromEntries(Object.entries({ name, mass, substructure, system }).filter(([, value]) => value));
  }

  async search() {
    if (!this.element.isConnected) return;
    const options = this.options();
    const answer = await this.page(options, 0);
    if (answer.stopped) return; // a newer search is on its way
    if (!isDone(answer)) this.count.textContent = '';
    this.fault.textContent = isDone(answer) ? '' : messageLines(answer.messages).map(inPageWords).join(' ');
    this.found.classList.toggle('former', !isDone(answer));
    if (!isDone(answer)) return;
    this.compounds = resultsOf(answer);
    this.all = this.compounds[0]?.of ?? 0;
    if (this.compounds.length === 0 && Object.keys(options).join() === 'name') {
      const held = await heldCompound(options.name, 'search'); // a registry number or a key
      if (held) [this.compounds, this.all] = [[held], 1];
    }
    this.rows = h('tbody', {}, this.compounds.map(compoundRow));
    this.found.replaceChildren(this.all === 0 ? '' : table(['Compound', 'Formula', 'Monoisotopic, Da', 'Values', 'Systems'], this.rows), this.further);
    this.tell();
  }

  /// The compounds behind the first `skip` of those that are looked for.
  async page(options, skip) {
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => { this.count.textContent = 'looking …'; }, 300);
    const answer = await runVerb({ verb: 'list', arguments: ['compounds'], options: { ...options, top: String(kPage), skip: String(skip) } }, { slot: 'search' })
      .catch((error) => ({ code: 2, messages: error.message }));
    if (!answer.stopped) clearTimeout(this.waiting);
    return answer;
  }

  async showMore() {
    const first = this.compounds.length;
    const answer = await this.page(this.options(), first);
    if (answer.stopped) return;
    const more = isDone(answer) ? resultsOf(answer) : [];
    this.compounds.push(...more);
    this.rows.append(...more.map(compoundRow));
    this.tell();
    this.rows.rows[first]?.querySelector('a').focus({ preventScroll: true }); // the button may be gone
  }

  tell() {
    const left = this.all - this.compounds.length;
    const all = counted(this.all, 'compound');
    this.count.textContent = this.all === 0 ? 'No compound.' : `${left > 0 ? `${this.compounds.length.toLocaleString('en')} of ${all}` : all}.`;
    this.further.hidden = left <= 0;
    this.further.firstChild.textContent = `show ${Math.min(left, kPage)} more`;
  }

  /// Enter opens the card where only one is left.
  open() {
    if (this.all === 1) location.hash = compoundAddress(this.compounds[0].compound);
    else if (this.compounds) say(this.count.textContent);
  }
}

function systemList(all) {
  if (all.length === 0) return h('p', { class: 'faint' }, 'No system yet: a plate or a run asks for its system, or learn a table of systems.');
  const rows = h('div', {});
  const list = (words, most = kPage) => {
    const some = all.filter((one) => [one.system, one.technique, one.stationary_phase, one.mobile_phase].join(' ').toLowerCase().includes(words.toLowerCase()));
    const left = some.length - most;
    rows.replaceChildren(left > 0 ? h('p', { class: 'count-found' }, `${most} of ${counted(some.length, 'system')}.`) : '',
      table(['System', 'Technique', 'Stationary phase', 'Mobile phase', 'Values', 'Compounds'], h('tbody', {}, some.slice(0, most).map(systemRow))),
      left > 0 ? h('p', {}, button(`show ${Math.min(left, kPage)} more`, () => list(words, most + kPage))) : '');
  };
  list('');
  const filter = h('input', { type: 'search', oninput: () => list(filter.value.trim()) });
  return [all.length > 12 ? field('systems whose name or phase holds', filter) : '', rows];
}

export function showSearch(view) {
  const search = new CompoundSearch();
  const systems = h('div', {}, h('p', { class: 'faint' }, 'looking …'));
  const adding = addCompound(() => search.search());
  view.replaceChildren(h('h1', {}, 'The library'), search.element, search.count, search.found, adding.element,
    h('h2', { id: 'systems' }, 'Systems'), systems);
  search.search().then(librarySystems).then((all) => { // counting the values of all systems takes longer
    search.offerSystems(all);
    systems.replaceChildren(...[systemList(all)].flat());
  }).catch((error) => systems.replaceChildren(h('p', { class: 'fault' }, error.message)));
  return () => adding.leave();
}
