// From the plate to the rack: which compounds, how much, on which column.
import { h, choice, field, number } from '/dom.js';
import { resultsOf, runVerb } from '/api.js';
import { systemChooser, csv } from '/systems.js';
import { EntryRows, faultsOfRows } from '/entry_rows.js';

const kFile = 'sample.csv';
const roles = [['', ''], ['target', 'wanted'], ['impurity', 'not wanted']];
const sizes = [['load-mg', 'sample, mg', 'the sum'], ['diameter-mm', 'inner diameter, mm', 'by the table'], ['bed-mm', 'height of the silica, mm', '150'],
  ['silica-g', 'or a cartridge: silica, g', ''], ['fraction-ml', 'fraction, mL', 'by the table']];
const further = [['load-ml', 'loaded in, mL', 'dry'], ['discarded-ml', 'discarded before tube 1, mL', '0'], ['outside-ml', 'volume outside the bed, mL', 'assumed'],
  ['column-volume-ml', 'measured hold-up volume, mL', 'from the silica'], ['plates', 'plate number', 'one a mm of bed']];
const ownColumn = ['diameter-mm', 'bed-mm', 'silica-g', 'column-volume-ml', 'outside-ml'];

export class ColumnPlan {
  constructor(sheet, changed) {
    Object.assign(this, { sheet, changed });
    sheet.entered.plan = { rows: [], system: '', eluent: '', column: '', ...sheet.entered.plan };
    sheet.entered.plan.sizes ??= {};
    this.plan = sheet.entered.plan;
    this.known = h('datalist', { id: 'known-compounds' });
    this.rows = new EntryRows({ named: 'compound', rows: this.plan.rows, changed,
      columns: [{ name: 'compound', label: 'Compound', list: 'known-compounds', size: 24 }, { name: 'Rf', label: 'Rf', size: 6, hint: 'library' },
        { name: 'role', label: 'Is', options: roles }, { name: 'amount_mg', label: 'Amount, mg', size: 6 }] });
    this.system = h('div', {});
    this.given = h('div', { class: 'given' });
    this.element = h('div', {}, h('div', { class: 'given' }, this.system, this.eluentField()),
      h('p', { class: 'hint' }, 'Without an Rf the library’s is taken, on the system chosen above; give one for each compound or for none.'), this.known, this.rows.element, this.given);
  }

  async load() {
    systemChooser(this.system, { sheet: this.sheet, planar: true, chosen: this.plan.system, label: 'system of the plate',
      onchange: (name) => { this.plan.system = name; this.eluent.disabled = name !== ''; this.listCompounds(); this.changed(); } });
    const columns = resultsOf(await runVerb({ verb: 'list', arguments: ['columns'] }, { sheet: this.sheet.id, slot: 'columns' }));
    this.drawSizes(columns.map((one) => one.column));
    await this.listCompounds();
  }

  async listCompounds() {
    const options = this.plan.system ? { system: this.plan.system } : {};
    const answer = await runVerb({ verb: 'list', arguments: ['compounds'], options }, { sheet: this.sheet.id, slot: 'compounds' });
    if (!answer.stopped) this.known.replaceChildren(...resultsOf(answer).map((one) => h('option', { value: one.compound })));
  }

  eluentField() {
    this.eluent = h('input', { value: this.plan.eluent, placeholder: 'hexane:ethyl acetate 4:1', size: '26', disabled: this.plan.system !== '',
      onchange: () => { this.plan.eluent = this.eluent.value.trim(); this.changed(); } });
    return field('or only its eluent', this.eluent);
  }

  drawSizes(columns) {
    const own = columns.length === 0 ? [] : [field('a column of the library', choice([['', 'none'], ...columns.map((name) => [name, name])], this.plan.column, (name) => {
      this.plan.column = name;
      this.drawSizes(columns);
      this.changed();
    }))];
    const inputs = (list) => list.map(([name, label, placeholder]) => {
      const input = h('input', { value: this.plan.sizes[name] ?? '', placeholder, size: '10', inputmode: 'decimal', disabled: this.plan.column !== '' && ownColumn.includes(name),
        onchange: () => { this.plan.sizes[name] = input.value.trim(); this.changed(); } });
      return field(label, input);
    });
    this.given.replaceChildren(...inputs(sizes), ...own, h('details', { class: 'ladder', open: further.some(([name]) => this.plan.sizes[name]) },
      h('summary', {}, 'More of the column'), h('div', { class: 'given' }, inputs(further))));
  }

  /// The call of column; nothing where something is still to be entered.
  call() {
    const rows = this.rows.filled.filter((row) => row.compound);
    this.lines = rows;
    if (rows.length === 0) return null;
    const isKnown = rows.every((row) => !row.Rf);
    if (isKnown && !this.plan.system) return null;
    const options = this.sizeOptions(rows, isKnown);
    if (this.plan.system) options.system = this.plan.system;
    else if (this.plan.eluent) options.eluent = this.plan.eluent;
    if (this.plan.column) options.column = this.plan.column;
    if (isKnown) {
      const target = rows.find((row) => row.role === 'target');
      return { verb: 'column', options: { ...options, compounds: rows.map((row) => row.compound).join(';'), ...(target ? { target: target.compound } : {}) } };
    }
    const decimal = (text) => (text ? String(text).replace(',', '.') : '');
    const table = csv(['compound', 'Rf', 'role', 'amount_mg'], rows.map((row) => [row.compound, decimal(row.Rf), row.role, decimal(row.amount_mg)]));
    return { verb: 'column', arguments: [kFile], options, files: { [kFile]: table } };
  }

  sizeOptions(rows, isKnown) {
    const given = Object.entries(this.plan.sizes).filter(([name, value]) => value && !(this.plan.column && ownColumn.includes(name)));
    const options = Object.fromEntries(given.map(([name, value]) => [name, value.replace(',', '.')]));
    const sum = rows.reduce((all, row) => all + (number(row.amount_mg ?? '') || 0), 0);
    if (isKnown && !options['load-mg'] && sum > 0) options['load-mg'] = String(sum);
    return options;
  }

  /// Why there is no plan.
  get missing() {
    return this.rows.filled.length === 0 ? 'Name the compounds of the sample.' : 'Choose the system of the plate, or give each compound its Rf.';
  }

  /// Marks what messages are about; returns the others.
  mark(messages) {
    const { faults, rest } = faultsOfRows(messages, kFile, this.lines);
    this.rows.mark(faults);
    return rest;
  }

  /// The tubes in which the plan expects compounds.
  async tubes() {
    const call = this.call();
    const answer = call ? await runVerb({ ...call, form: 'json' }, { sheet: this.sheet.id, slot: 'tubes' }) : { code: 2 };
    if (answer.stopped || answer.code > 1) return [];
    const expected = resultsOf(answer).filter((one) => one.record === 'compound' && one.first_fraction);
    return [...new Set(expected.flatMap((one) => Array.from({ length: one.last_fraction - one.first_fraction + 1 }, (_, i) => one.first_fraction + i)))].sort((a, b) => a - b);
  }
}

