// The card of a system: what it is, the line on which its compounds stand, its values, who changed what.
import { h, choice, field, settled } from '/dom.js';
import { librarySystems, resultsOf, runVerb, stopVerb } from '/api.js';
import { ask, isDone, refusal } from '/answer.js';
import { Corrections } from '/corrections.js';
import { forgetFindings, showContradictions } from '/contradictions.js';
import { linkNames, systemAddress } from '/library_words.js';
import { SystemLine, quantitiesOf } from '/system_line.js';
import { ValueChoice } from '/value_choice.js';

const kMostListed = 2000; // values in a table at once
const kNoneOfThem = { from: '9999-01-01' }; // the system itself, without its values

let cards = 0; // a card that is left does not stop the work of the next

class SystemCard {
  constructor(view, name) {
    this.slot = `system-${cards += 1}`;
    this.name = name;
    this.title = h('h1', {}, name);
    this.doing = h('div', {});
    this.outcome = h('div', { class: 'outcome' });
    this.line = h('div', {}, h('p', { class: 'waiting' }, 'reading its values …'));
    this.narrowing = h('div', { class: 'given' });
    this.held = h('div', { class: 'held' });
    this.against = h('div', {});
    this.history = h('div', { class: 'history-of' });
    this.found = h('p', { class: 'small', role: 'status' });
    this.narrow = { name: '', from: '', to: '' };
    this.lineOfAll = h('section', {}, h('h2', {}, 'The line on which its compounds stand'), this.line);
    this.below = h('div', { hidden: true }, h('h2', {}, 'What contradicts'), this.against, h('h2', {}, 'Who changed what'), this.history);
    view.replaceChildren(h('article', { class: 'card' }, this.title, this.doing, this.outcome, this.narrowing, this.held, this.below));
  }

  async load() {
    const system = (await librarySystems()).find((one) => one.system === this.name);
    this.isLarge = (system?.values ?? 0) > kMostListed;
    if (this.isLarge) this.offerNarrowing(system.values);
    await this.list();
    if (!this.held.querySelector('.answer')) return;
    document.title = `${this.name} – cospot`;
    this.title.replaceChildren(this.name, this.isRetired ? h('small', {}, ' withdrawn') : '');
    this.below.hidden = false;
    ask(this.history, { verb: 'history', arguments: [this.name], options: { system: true } }, { slot: `${this.slot}-history` });
    showContradictions(this.against, (finding) => finding.rows.some((row) => row.system === this.name) || finding.subject === this.name, () => {}).catch(() => {});
    await this.drawLine();
  }

  offerNarrowing(count) {
    const soon = settled(() => this.list(), 300);
    const input = (name, properties) => {
      const one = h('input', { ...properties, value: this.narrow[name], oninput: () => { this.narrow[name] = one.value.trim(); soon(); } });
      return one;
    };
    this.narrowing.replaceChildren(h('p', { class: 'what' }, `${count.toLocaleString('en')} values are too many to list: which are to be seen?`),
      field('of compounds whose name holds', input('name', { type: 'search' })), field('from', input('from', { type: 'date' })), field('to', input('to', { type: 'date' })), this.found);
  }

  /// The system, and the values that are looked at where these can be read at once.
  async list() {
    const wanted = Object.fromEntries(Object.entries(this.narrow).filter(([, text]) => text !== ''));
    const isNarrow = !this.isLarge || Object.keys(wanted).length > 0;
    const call = { verb: 'show', arguments: [this.name], options: { all: true, ...(isNarrow ? wanted : kNoneOfThem) } };
    const told = await runVerb(call, { slot: `${this.slot}-values` }).catch((error) => ({ code: 2, messages: error.message }));
    if (told.stopped) return;
    if (!isDone(told)) {
      (this.isLarge ? this.found : this.held).replaceChildren(refusal(told.messages));
      return;
    }
    const [system, ...values] = resultsOf(told);
    const isListed = isNarrow && values.length <= kMostListed;
    if (isNarrow && !isListed && !this.isLarge) { // found by an old name, or withdrawn
      this.isLarge = true;
      this.offerNarrowing(values.length);
    }
    this.isRetired = system.retired;
    this.found.textContent = isNarrow && this.isLarge ? `${values.length.toLocaleString('en')} values.${isListed ? '' : ' Narrow them further.'}` : '';
    const shown = await ask(this.held, isListed ? call : { ...call, options: { all: true, ...kNoneOfThem } }, { slot: this.slot });
    if (!shown || !isDone(shown)) return;
    this.name = system.system ?? this.name;
    if (!isListed) this.held.querySelector('.verdict')?.remove(); // that none of them stand here is meant
    this.held.querySelector('main > section').after(this.lineOfAll);
    linkNames(this.held);
    const corrections = new Corrections(this.actions(system), this.outcome);
    this.doing.replaceChildren(corrections.element);
    if (isListed) this.chosen = new ValueChoice(this.held, values, corrections, () => this.changed());
  }

  async drawLine() {
    const answer = await runVerb({ verb: 'show', arguments: [this.name], options: this.isRetired ? { all: true } : {} }, { slot: `${this.slot}-line` }).catch(() => null);
    if (!answer || answer.stopped || !isDone(answer)) return;
    const values = resultsOf(answer).slice(1).map((one) => ({ ...one, state: this.isRetired ? 'held' : one.state }));
    const quantities = quantitiesOf(values);
    const place = h('div', {});
    const draw = (quantity) => place.replaceChildren(new SystemLine(values, quantity).element);
    this.line.replaceChildren(quantities.length > 1 ? field('quantity', choice(quantities.map((one) => [one, one]), quantities[0], draw)) : '', place);
    if (quantities.length > 0) draw(quantities[0]);
    else place.replaceChildren(h('p', { class: 'faint' }, 'No compound stands here yet.'));
  }

  actions(system) {
    const { name } = this;
    return [
      { label: 'rename', what: `Another name for ${name}; the old one still finds it.`,
        fields: [{ name: 'name', label: 'new name', value: name }],
        call: (entered, reason) => ({ verb: 'rename', arguments: [name, entered.name], options: { system: true, reason } }),
        done: (entered) => this.changed(entered.name) },
      system.retired
        ? { label: 'let it count again', what: `${name} and its values count again.`,
          call: (_, reason) => ({ verb: 'retire', options: { system: name, reason, undo: true } }), done: () => this.changed() }
        : { label: 'withdraw the system', what: `None of the values of ${name} count any more; all stay readable.`,
          call: (_, reason) => ({ verb: 'retire', options: { system: name, reason } }), done: () => this.changed() },
    ];
  }

  changed(name = this.name) {
    this.name = name;
    this.doing.replaceChildren(); // until it is there nothing is begun that it would sweep away
    forgetFindings();
    history.replaceState(null, '', systemAddress(name));
    this.load();
  }
}

export function showSystem(view, name) {
  const card = new SystemCard(view, name);
  card.load().catch((error) => card.line.replaceChildren(h('p', { class: 'fault' }, error.message)));
  return () => stopVerb({ slot: `${card.slot}-line` }).catch(() => {});
}
