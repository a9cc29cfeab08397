// The index card of a compound: structure and names, its values, what contradicts, who changed what.
import { h, button } from '/dom.js';
import { resultsOf, runVerb } from '/api.js';
import { ask, isDone } from '/answer.js';
import { Corrections } from '/corrections.js';
import { showContradictions } from '/contradictions.js';
import { compoundAddress, linkNames } from '/library_words.js';
import { StructurePreview } from '/structure_preview.js';
import { ValueChoice } from '/value_choice.js';
import { ValueLines } from '/value_lines.js';

const kMostListed = 2000; // values, unless all are asked for

let cards = 0; // a card that is left does not stop the work of the next

class CompoundCard {
  constructor(view, name) {
    this.slot = `compound-${cards += 1}`;
    this.name = name;
    this.title = h('h1', {}, name);
    this.doing = h('div', {});
    this.outcome = h('div', { class: 'outcome' });
    this.held = h('div', { class: 'held' });
    this.against = h('div', {});
    this.history = h('div', { class: 'history-of' });
    this.below = h('div', { hidden: true }, h('h2', {}, 'What contradicts'), this.against, h('h2', {}, 'Who changed what'), this.history);
    view.replaceChildren(h('article', { class: 'card' }, this.title, this.doing, this.outcome, this.held, this.below));
  }

  async load() {
    const call = { verb: 'show', arguments: [this.name], options: { all: true, ...(this.listsAll ? {} : { top: String(kMostListed) }) } };
    const [shown, told] = await Promise.all([ask(this.held, call, { slot: this.slot }),
      runVerb(call, { slot: `${this.slot}-values` }).catch(() => null)]);
    if (!shown || !isDone(shown) || !told || told.stopped || !isDone(told)) return;
    const [compound, ...values] = resultsOf(told);
    this.name = compound.compound ?? this.name;
    this.title.textContent = this.name;
    document.title = `${this.name} – cospot`;
    this.title.append(compound.retired ? h('small', {}, ' withdrawn') : '');
    const corrections = new Corrections(this.actions(compound), this.outcome);
    this.doing.replaceChildren(corrections.element);
    linkNames(this.held);
    this.drawValues(values, corrections);
    this.offerAll(compound.values_asked_for, values.length);
    this.below.hidden = false;
    ask(this.history, { verb: 'history', arguments: [this.name] }, { slot: `${this.slot}-history` });
    showContradictions(this.against, { compound: compound.inchikey }, (ids) => this.lines?.mark(ids));
  }

  /// A compound with very many values is read to its end only when that is asked for.
  offerAll(all, listed) {
    if (listed >= all) return;
    const more = button(`list all ${all.toLocaleString('en')} values`, () => { this.listsAll = true; this.load(); });
    this.held.querySelector('.chosen-values .buttons')?.prepend(more);
  }

  drawValues(values, corrections) {
    this.lines?.leave();
    this.lines = null;
    const choice = new ValueChoice(this.held, values, corrections, () => this.changed());
    if (!choice.table) return;
    this.lines = new ValueLines(values, (id, mark) => choice.tie(id, mark));
    choice.table.closest('.wide').before(this.lines.element);
    this.lines.draw();
  }

  actions(compound) {
    const { name } = this;
    const preview = new StructurePreview();
    const below = h('div', {}, preview.fault, preview.place);
    return [
      { label: 'rename', what: `Another name for ${name}; the old one still finds it.`,
        fields: [{ name: 'name', label: 'new name', value: name }],
        call: (entered, reason) => ({ verb: 'rename', arguments: [name, entered.name], options: { reason } }),
        done: (entered) => this.changed(entered.name) },
      { label: 'correct the structure', what: `The right structure of ${name}; its values stay, the old structure stays readable.`,
        fields: [{ name: 'smiles', label: 'structure (SMILES)', value: compound.smiles, size: '40', below, onentered: (smiles) => preview.draw(smiles) }],
        call: (entered, reason) => ({ verb: 'rename', arguments: [name], options: { smiles: entered.smiles, reason } }),
        done: () => this.changed() },
      compound.retired
        ? { label: 'let it count again', what: `${name} and its values count again.`,
          call: (_, reason) => ({ verb: 'retire', options: { compound: name, reason, undo: true } }), done: () => this.changed() }
        : { label: 'withdraw the compound', what: `${name} is no candidate any more, and none of its values count; all stay readable.`,
          call: (_, reason) => ({ verb: 'retire', options: { compound: name, reason } }), done: () => this.changed() },
    ];
  }

  /// The card again, after a change; what was done stays said.
  changed(name = this.name) {
    this.name = name;
    this.doing.replaceChildren(); // until it is there nothing is begun that it would sweep away
    history.replaceState(null, '', compoundAddress(name));
    this.load();
  }
}

export function showCompound(view, name) {
  const card = new CompoundCard(view, name);
  card.load();
  return () => card.lines?.leave();
}
