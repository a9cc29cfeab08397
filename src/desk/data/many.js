// Many at once: a class of plates, batches or runs from one file or several, the doubtful first.
import { h, field, settled } from '/dom.js';
import { ask, isDone, refusal } from '/answer.js';
import { sheetFrame } from '/sheet.js';
import { systemChooser } from '/systems.js';
import { PastedTables } from '/pasted.js';
import { Overview } from '/overview.js';

const kinds = ['plate', 'chromatogram', 'features'];
const texts = [['standards', 'labels of lanes that are standards', 'vanillin, anisole', ['plate']],
  ['hold-up', 'hold-up time, min', 'from the ladder', ['chromatogram']],
  ['reference-peak', 'peak of the reference', 'as the table says', ['chromatogram']]];
const ticks = [['partial', 'leave out lanes, runs and samples with faulty rows'], ['explain', 'say why, and what to measure next']];

class ManySheet {
  constructor(view, sheet) {
    this.sheet = sheet;
    this.given = sheet.entered;
    this.given.options ??= {};
    this.given.seen ??= [];
    const { frame, work } = sheetFrame(sheet, () => this.pageCall());
    this.tables = new PastedTables({ sheet, kinds, several: true, onchange: () => this.changed(), label: 'Paste a table of plates, peaks or samples' });
    this.ladder = new PastedTables({ sheet, kinds: ['ladder'], at: 'ladder', mapOption: 'ladder-map', label: 'Paste the ladder', onchange: () => this.changed() });
    this.about = h('div', { class: 'given' });
    this.outcome = h('div', { class: 'as-printed', 'aria-label': 'the samples', role: 'region' });
    work.append(this.tables.element, this.about, this.outcome);
    view.replaceChildren(frame);
    this.answerSoon = settled(() => this.answer(), 200);
  }

  async load() {
    await Promise.all([this.tables.load(), this.ladder.load()]);
    this.changed({ isLoaded: true });
  }

  changed({ isLoaded = false } = {}) {
    if (!isLoaded) this.sheet.changed();
    const kind = this.tables.isEmpty ? '' : this.tables.kind;
    if (this.about.dataset.kind !== kind) this.drawAbout(kind);
    this.answerSoon();
  }

  drawAbout(kind) {
    this.about.dataset.kind = kind;
    if (kind === '') {
      this.about.replaceChildren();
      return;
    }
    const system = h('div', {});
    if (kind !== 'features') {
      systemChooser(system, { sheet: this.sheet, planar: kind === 'plate', chosen: this.given.system ?? '',
        onchange: (name) => { this.given.system = name; this.changed(); } });
    }
    const own = texts.filter(([, , , of]) => of.includes(kind)).map(([name, label, placeholder]) => {
      const input = h('input', { value: this.given.options[name] ?? '', placeholder, onchange: () => this.set(name, input.value.trim()) });
      return field(label, input);
    });
    const boxes = ticks.map(([name, label]) => {
      const box = h('input', { type: 'checkbox', checked: this.given.options[name] === true, onchange: () => this.set(name, box.checked) });
      return h('label', { class: 'tick-box' }, box, ' ', label);
    });
    const ladder = kind !== 'chromatogram' ? [] : [h('details', { class: 'ladder', open: !this.ladder.isEmpty },
      h('summary', {}, 'The ladder run with them'), this.ladder.element)];
    this.about.replaceChildren(...(kind === 'features' ? [] : [system]), ...own, h('div', { class: 'ticks' }, boxes), ...ladder);
  }

  set(name, value) {
    this.given.options[name] = value;
    this.changed();
  }

  /// The call of identify; nothing where something is still to be entered.
  call() {
    const { kind, isEmpty } = this.tables;
    if (isEmpty || (kind !== 'features' && !this.given.system && !this.tables.has('system'))) return null;
    const names = [...texts.filter(([, , , of]) => of.includes(kind)), ...ticks].map(([name]) => name);
    const options = Object.fromEntries(names.map((name) => [name, this.given.options[name]]).filter(([, value]) => value));
    if (kind !== 'features' && this.given.system) options.system = this.given.system;
    if (kind === 'chromatogram' && !this.ladder.isEmpty) Object.assign(options, { ladder: this.ladder.files[0] }, this.ladder.options);
    return { verb: 'identify', arguments: this.tables.files, options: { ...options, ...this.tables.options } };
  }

  /// All sheets in one page.
  pageCall() {
    const call = this.call();
    return call ? { ...call, options: { ...call.options, sheets: true } } : null;
  }

  async answer() {
    const call = this.call();
    if (!call) {
      this.outcome.replaceChildren(h('p', { class: 'faint' }, this.tables.isEmpty ? 'Paste or drop the tables of your plates, runs or samples; one file or several.'
        : 'Choose the system on which they were run.'));
      return;
    }
    const answer = await ask(this.outcome, call, { sheet: this.sheet.id, slot: 'many' });
    if (!answer) return;
    const rest = this.ladder.mark(this.tables.mark(answer.messages).join('\n'));
    if (!isDone(answer)) {
      this.outcome.replaceChildren(rest.length ? refusal(rest.join('\n')) : '');
      return;
    }
    this.overview = new Overview(this.outcome.querySelector('.answer'), { seen: this.given.seen, changed: () => this.sheet.changed() });
  }
}

export async function showMany(view, sheet) {
  const work = new ManySheet(view, sheet);
  await work.load();
  return () => work.sheet.isDirty && work.sheet.save();
}
