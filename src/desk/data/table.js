// A table for the library: checked while it is looked at, stored when it is kept.
import { h, button, choice, field, settled, say } from '/dom.js';
import { ask, isDone, refusal, show } from '/answer.js';
import { sheetFrame } from '/sheet.js';
import { inPageWords } from '/option_words.js';
import { systemChooser } from '/systems.js';
import { PastedTables } from '/pasted.js';

const kinds = ['values', 'compounds', 'systems', 'plate', 'chromatogram', 'responses', 'runs'];
const quantities = ['', 'Rf', 'k', 'RI', 'tR', 'RRT', 'r'].map((one) => [one, one || 'as the table says']);
const texts = [['run', 'name of the run', 'the file’s name'], ['date', 'date', '2026-03-02'], ['operator', 'who ran it', ''],
  ['instrument', 'on what', ''], ['source', 'source', '']];
const ticks = [['create-systems', 'create systems that rows name and the library lacks', ['values', 'responses']],
  ['partial', 'keep the good rows, leave out the faulty', kinds], ['accept', 'keep also what seems wrong', kinds],
  ['correct', 'a row replaces what the library says otherwise', ['values']]];

class TableSheet {
  constructor(view, sheet) {
    this.sheet = sheet;
    this.given = sheet.entered;
    this.given.options ??= {};
    const { frame, work } = sheetFrame(sheet, null);
    this.table = new PastedTables({ sheet, kinds, onchange: () => this.changed() });
    this.ladder = new PastedTables({ sheet, kinds: ['ladder'], at: 'ladder', mapOption: 'ladder-map', label: 'Paste the ladder here', onchange: () => this.changed() });
    this.about = h('div', { class: 'given' });
    this.keeping = button('keep in the library', () => this.keep(), { class: 'main', disabled: true });
    this.outcome = h('div', { 'aria-live': 'polite', class: 'as-printed' });
    work.append(this.table.element, this.about, h('p', {}, this.keeping), this.outcome);
    view.replaceChildren(frame);
    this.entries = 0; // how often something was entered: only the check of the last one counts
    this.checkSoon = settled(() => this.check(), 150);
  }

  async load() {
    await Promise.all([this.table.load(), this.ladder.load()]);
    this.changed({ isLoaded: true });
  }

  /// What was entered is other than it was.
  changed({ isLoaded = false } = {}) {
    if (!isLoaded) this.sheet.changed();
    this.keeping.disabled = true;
    this.entries += 1;
    if (this.about.dataset.kind !== this.table.kind || this.table.isEmpty !== (this.about.childElementCount === 0)) this.drawAbout();
    this.checkSoon();
  }

  get isRun() { return ['plate', 'chromatogram'].includes(this.table.kind); }

  drawAbout() {
    const { kind } = this.table;
    this.about.dataset.kind = kind;
    if (this.table.isEmpty) {
      this.about.replaceChildren();
      return;
    }
    const system = h('div', {});
    if (this.isRun) {
      systemChooser(system, { sheet: this.sheet, planar: kind === 'plate', chosen: this.given.system ?? '',
        onchange: (name) => { this.given.system = name; this.changed(); } });
    }
    const boxes = ticks.filter(([, , of]) => of.includes(kind)).map(([name, label]) => this.tick(name, label));
    this.about.replaceChildren(...(this.isRun ? [system, ...texts.map((one) => this.text(...one))] : []),
      kind === 'plate' ? this.text('standards', 'labels of lanes that are standards', 'as the table says') : '',
      kind === 'values' ? field('quantity', choice(quantities, this.given.options.quantity ?? '', (value) => this.set('quantity', value))) : '',
      kind === 'chromatogram' ? h('details', { class: 'ladder', open: !this.ladder.isEmpty }, h('summary', {}, 'The ladder run with it'), this.ladder.element,
        this.text('hold-up', 'hold-up time, min', 'from the ladder')) : '',
      h('div', { class: 'ticks' }, boxes));
  }

  set(name, value) {
    this.given.options[name] = value;
    this.changed();
  }

  text(name, label, placeholder) {
    const input = h('input', { value: this.given.options[name] ?? '', placeholder, size: '14', onchange: () => this.set(name, input.value.trim()) });
    return field(label, input);
  }

  tick(name, label) {
    const box = h('input', { type: 'checkbox', checked: this.given.options[name] === true, onchange: () => this.set(name, box.checked) });
    return h('label', { class: 'tick-box' }, box, ' ', label);
  }

  /// The call of learn; `more` options beside what was entered.
  call(more = {}) {
    const { kind, files } = this.table;
    const ownTicks = ticks.filter(([, , of]) => of.includes(kind)).map(([name]) => name);
    const own = [...ownTicks, ...(this.isRun ? texts.map(([name]) => name) : []), ...(kind === 'values' ? ['quantity'] : []), ...(kind === 'plate' ? ['standards'] : []), ...(kind === 'chromatogram' ? ['hold-up'] : [])];
    const options = Object.fromEntries(own.map((name) => [name, this.given.options[name]]).filter(([, value]) => value));
    if (this.isRun && this.given.system) options.system = this.given.system;
    if (kind === 'chromatogram' && !this.ladder.isEmpty) Object.assign(options, { ladder: this.ladder.files[0] }, this.ladder.options);
    if (kind === 'systems') options.systems = files[0];
    return { verb: 'learn', arguments: kind === 'systems' ? [] : files, options: { ...options, ...this.table.options, ...more } };
  }

  /// What the library would learn: every fault first, then, if faulty rows may be left out, the rest.
  async check() {
    if (this.table.isEmpty) {
      this.outcome.replaceChildren();
      return;
    }
    const { entries } = this;
    const dry = async (more) => {
      const answer = await ask(this.outcome, this.call({ 'dry-run': true, ...more }), { sheet: this.sheet.id, slot: 'check' });
      return entries === this.entries ? answer : null;
    };
    const answer = await dry({ partial: false });
    if (!answer) return;
    const rest = this.mark(answer.messages);
    const partial = !isDone(answer) && this.given.options.partial ? await dry({}) : answer;
    if (!partial) return;
    this.keeping.disabled = !isDone(partial);
    if (!isDone(partial)) {
      this.outcome.replaceChildren(rest.length ? refusal(rest.join('\n')) : h('p', { class: 'faint' }, 'Nothing is stored until the faults are corrected, or left out.'));
      return;
    }
    this.showLearned(partial, partial === answer ? rest : partial.messages.split('\n').filter((line) => line.includes('would be refused')));
  }

  mark(messages) {
    return this.ladder.mark(this.table.mark(messages).join('\n'));
  }

  /// The answer of learn, and what it said beside it.
  showLearned(answer, said) {
    show(this.outcome, answer);
    if (said.length) this.outcome.append(h('ul', { class: 'notes' }, said.map((line) => h('li', {}, inPageWords(line)))));
  }

  async keep() {
    this.keeping.disabled = true;
    const answer = await ask(this.outcome, this.call(), { sheet: this.sheet.id, slot: 'learn' });
    if (!answer) return;
    const said = this.mark(answer.messages);
    if (!isDone(answer)) return;
    this.showLearned(answer, said);
    this.table.remembered.load();
    const leftOut = /see (.*\.refused\.csv)/.exec(answer.messages);
    this.sheet.data.state = 'kept';
    this.sheet.isDirty = true;
    await this.sheet.save();
    say('The library holds it now.');
    if (leftOut) await this.goOnWith(leftOut[1]);
  }

  /// The rows that were left out, to be corrected; what was learned stays to be seen until then.
  async goOnWith(file) {
    this.given.options.partial = false;
    await this.table.showInstead(file);
    this.drawAbout();
    this.outcome.append(h('p', {}, 'The rows that were left out are shown above, each with its fault in the column “refused”: ',
      button('check them again', () => this.check())));
  }
}

export async function showTable(view, sheet) {
  const work = new TableSheet(view, sheet);
  await work.load();
  return () => work.sheet.isDirty && work.sheet.save();
}
