// The card of a system: what it is, the line on which its compounds stand, its values, who changed what.
import { h, button, choice, field, settled } from '/dom.js';
import { resultsOf, runVerb, stopVerb } from '/api.js';
import { ask, isDone, refusal } from '/answer.js';
import { Corrections } from '/corrections.js';
import { showContradictions } from '/contradictions.js';
import { linkNames, systemAddress } from '/library_words.js';
import { SystemLine, quantitiesOf } from '/system_line.js';
import { ValueChoice } from '/value_choice.js';

const kMostListed = 2000; // values in a table at once
const kMostDrawn = 50000; // values; the line of more is drawn only when that is asked for

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
    await this.list();
    if (!this.held.querySelector('.answer')) return;
    document.title = `${this.name} – cospot`;
    this.title.replaceChildren(this.name, this.isRetired ? h('small', {}, ' withdrawn') : '');
    this.below.hidden = false;
    ask(this.history, { verb: 'history', arguments: [this.name], options: { system: true } }, { slot: `${this.slot}-history` });
    showContradictions(this.against, { system: this.name });
    await this.offerLine();
  }

  offerNarrowing(count) {
    const soon = settled(() => this.list(), 300);
    const input = (name, properties) => {
      const one = h('input', { ...properties, value: this.narrow[name], oninput: () => { this.narrow[name] = one.value.trim(); soon(); } });
      return one;
    };
    this.narrowing.replaceChildren(h('p', { class: 'what' }, `${count.toLocaleString('en')} values: the first ${kMostListed.toLocaleString('en')} are listed. Which are to be seen?`),
      field('of compounds whose name holds', input('name', { type: 'search' })), field('from', input('from', { type: 'date' })), field('to', input('to', { type: 'date' })), this.found);
  }

  /// The system, and the first of the values that are looked at.
  async list() {
    const wanted = Object.fromEntries(Object.entries(this.narrow).filter(([, text]) => text !== ''));
    const call = { verb: 'show', arguments: [this.name], options: { all: true, top: String(kMostListed), ...wanted } };
    const told = await runVerb(call, { slot: `${this.slot}-values` }).catch((error) => ({ code: 2, messages: error.message }));
    if (told.stopped) return;
    const isNarrow = Object.keys(wanted).length > 0;
    if (!isDone(told)) {
      (isNarrow ? this.found : this.held).replaceChildren(refusal(told.messages));
      return;
    }
    const [system, ...values] = resultsOf(told);
    const all = system.values_asked_for;
    if (all > values.length && this.narrowing.childElementCount === 0) this.offerNarrowing(all);
    this.isRetired = system.retired;
    this.count = system.values;
    this.found.textContent = isNarrow ? `${all.toLocaleString('en')} values.${all > values.length ? ' Narrow them further.' : ''}` : '';
    const shown = await ask(this.held, call, { slot: this.slot });
    if (!shown || !isDone(shown)) return;
    this.name = system.system ?? this.name;
    this.held.querySelector('main > section').after(this.lineOfAll);
    linkNames(this.held);
    const corrections = new Corrections(this.actions(system), this.outcome);
    this.doing.replaceChildren(corrections.element);
    this.chosen = new ValueChoice(this.held, values, corrections, () => this.changed());
  }

  async offerLine() {
    if (this.count <= kMostDrawn) {
      await this.drawLine();
      return;
    }
    this.line.replaceChildren(button(`draw the line of ${this.count.toLocaleString('en')} values`, () => {
      this.line.replaceChildren(h('p', { class: 'waiting' }, 'reading its values …'));
      this.drawLine();
    }));
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
    history.replaceState(null, '', systemAddress(name));
    this.load();
  }
}

export function showSystem(view, name) {
  const card = new SystemCard(view, name);
  card.load().catch((error) => card.line.replaceChildren(h('p', { class: 'fault' }, error.message)));
  return () => stopVerb({ slot: `${card.slot}-line` }).catch(() => {});
}
