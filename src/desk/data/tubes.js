// From the tubes to the flask: what the plates of the fractions showed, typed or pasted.
import { h, button, choice, field, number, say } from '/dom.js';
import { csv } from '/systems.js';
import { EntryRows, faultsOfRows } from '/entry_rows.js';
import { PastedTables } from '/pasted.js';

const kFile = 'tubes.csv';
const whats = [['', 'tube'], ['standard', 'standard']];
const settings = [['target', 'what is wanted', 'letter, Rf or compound', 'text'], ['tolerance', 'spots of one component differ by up to, Rf', 'as they scatter', 'decimal'],
  ['loaded-mg', 'loaded, mg', 'as planned', 'decimal']];
const ofTraces = [['fraction-ml', 'fraction, mL', '', 'decimal'], ['baseline', 'nothing at or below a signal of', '2 % of the largest', 'decimal']];
const nothing = ['-', '–', '—', 'none'];
const orders = [['', 'the highest Rf first'], ['open', 'in any order']];

export class Tubes {
  /// `plan`: the ColumnPlan of the sheet.
  constructor(sheet, plan, changed) {
    Object.assign(this, { sheet, plan, changed });
    sheet.entered.tubes = { rows: [], ...sheet.entered.tubes };
    this.tubes = sheet.entered.tubes;
    this.tubes.options ??= {};
    this.rows = new EntryRows({ named: 'row', rows: this.tubes.rows, changed,
      columns: [{ name: 'what', label: 'Lane of a', options: whats }, { name: 'tube', label: 'Tube, or name of the standard', size: 14 },
        { name: 'spots', label: 'Spots', size: 22, hint: 'not spotted yet' }, { name: 'plate', label: 'Plate', size: 6 }, { name: 'mass', label: 'Mass, mg', size: 6 }] });
    this.pasted = new PastedTables({ sheet, kinds: ['fractions'], at: 'fractions', onchange: () => { this.drawGiven(); changed(); }, label: 'Paste a table of fractions, or a trace' });
    this.front = h('input', { value: this.tubes.front ?? '', size: '6', inputmode: 'decimal', placeholder: 'typed as Rf', onchange: () => {
      this.tubes.front = this.front.value.trim();
      changed();
    } });
    this.given = h('div', { class: 'given' });
    this.typed = h('div', {}, h('p', { class: 'hint' }, 'A lane a row: its spots apart by blanks, such as 0.52 0.31, or - where none was seen. A standard on each plate lays the plates over each other.'),
      h('div', { class: 'given' }, field('front, mm (spots typed in mm)', this.front), button('put the planned tubes below', () => this.addPlanned())), this.rows.element);
    this.element = h('div', {}, this.typed, h('details', { class: 'ladder', open: (sheet.entered.fractions?.files ?? []).length > 0 },
      h('summary', {}, 'From a table instead'), this.pasted.element), this.given);
  }

  async load() {
    await this.pasted.load();
    this.drawGiven();
  }

  drawGiven() {
    const list = this.pasted.has('signal') ? [...settings, ...ofTraces] : settings;
    this.typed.hidden = !this.pasted.isEmpty;
    this.given.replaceChildren(...list.map(([name, label, placeholder, inputmode]) => {
      const input = h('input', { value: this.tubes.options[name] ?? '', placeholder, inputmode, size: '18', onchange: () => { this.tubes.options[name] = input.value.trim(); this.changed(); } });
      return field(label, input);
    }), field('components leave', choice(orders, this.tubes.options.order ?? '', (value) => { this.tubes.options.order = value; this.changed(); })));
  }

  async addPlanned() {
    const there = this.rows.filled.map((row) => row.tube);
    const planned = (await this.plan.tubes()).filter((tube) => !there.includes(String(tube)));
    if (planned.length === 0) say('The plan names no further tubes.');
    else this.rows.add(planned.map((tube) => ({ tube: String(tube), spots: '' })));
  }

  /// Rows whose lane was looked at: of the others nothing is known.
  get looked() { return this.rows.filled.filter((row) => row.spots); }
  get isEmpty() { return this.pasted.isEmpty && this.looked.length === 0; }

  options() {
    const given = Object.entries(this.tubes.options).filter(([name, value]) => value && (this.pasted.has('signal') || !ofTraces.some(([one]) => one === name)));
    const options = Object.fromEntries(given.map(([name, value]) => [name, ['order', 'target'].includes(name) ? value : value.replace(',', '.')]));
    if (/^\d+,\d+$/.test(options.target ?? '')) options.target = options.target.replace(',', '.');
    const load = this.plan.plan.sizes['load-mg'];
    if (!options['loaded-mg'] && load) options['loaded-mg'] = load.replace(',', '.');
    if (this.plan.plan.system) options.system = this.plan.plan.system;
    return options;
  }

  /// The call of pool; nothing where nothing was entered.
  call() {
    this.lines = [];
    if (this.isEmpty) return null;
    if (!this.pasted.isEmpty) return { verb: 'pool', arguments: this.pasted.files, options: { ...this.options(), ...this.pasted.options } };
    return { verb: 'pool', arguments: [kFile], options: this.options(), files: { [kFile]: this.table() } };
  }

  /// What was typed, a row a spot.
  table() {
    const front = number(this.tubes.front ?? '');
    const place = front > 0 ? 'distance_mm' : 'Rf';
    const rows = [];
    for (const row of this.looked) {
      row.spots.split(/(?:;|,\s|\s)\s*/).filter((word) => word !== '').forEach((word, i) => {
        const isStandard = row.what === 'standard';
        rows.push([isStandard ? '' : row.tube, nothing.includes(word) ? '' : word.replace(',', '.'), ...(front > 0 ? [front] : []), row.plate, isStandard ? 'standard' : '',
          isStandard ? row.tube : '', i === 0 && !isStandard ? (row.mass ?? '').replace(',', '.') : '']);
        this.lines.push(row);
      });
    }
    return csv(['fraction', place, ...(front > 0 ? ['front_mm'] : []), 'plate', 'role', 'label', 'mass_mg'], rows);
  }

  mark(messages) {
    if (!this.pasted.isEmpty) return this.pasted.mark(messages);
    const columns = { fraction: 'tube', label: 'tube', Rf: 'spots', distance_mm: 'spots', plate: 'plate', mass_mg: 'mass' };
    const { faults, rest } = faultsOfRows(messages, kFile, this.lines);
    this.rows.mark(faults.map((one) => ({ ...one, column: columns[one.column] ?? '' })));
    return rest;
  }
}
