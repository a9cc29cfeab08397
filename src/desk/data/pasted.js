// Tables as they come, pasted, dropped or chosen: which of their columns is which, and what is wrong in them.
//   const tables = new PastedTables({ sheet, kinds: ['plate', 'chromatogram'], onchange, several: true });
//   place.append(tables.element); await tables.load();
//   ask(place, { verb, arguments: tables.files, options: { ...tables.options } }) ...; tables.mark(answer.messages)
import { h, button, choice, field, say } from '/dom.js';
import { upload } from '/api.js';
import { decoded, firstRecords, parsed, withField } from '/text_table.js';
import { columnTitle, headerScore, names, proposals, splitUnit, stemOf, tableKinds, unitOf } from '/table_kinds.js';
import { faultsIn } from '/faults.js';
import { safeName } from '/file_entry.js';
import { PastedGrid } from '/pasted_grid.js';
import { RememberedSheets } from '/remembered_sheets.js';

const kTables = /\.(csv|tsv|txt|tab)$/i;
const kRoleWords = ['standard', 'std', 'reference', 'ref', 'sample', 'unknown', 'cospot', 'co-spot', ''];
const kYesWords = ['yes', 'y', 'true', '1', 'x', '+', 'no', 'n', 'false', '0', '-', '–', '—', ''];
const meanings = { role: [['', 'choose'], ['sample', 'sample'], ['standard', 'standard'], ['cospot', 'sample and standard together']],
  uv254: [['', 'choose'], ['yes', 'yes'], ['no', 'no']], stained: [['', 'choose'], ['yes', 'yes'], ['no', 'no']] };

export class PastedTables {
  /// `kinds`: of table_kinds.js, that these may be; `at`: where the sheet keeps what was entered;
  /// `mapOption`: the option of the verb that names columns; `label` of the field to paste into.
  constructor({ sheet, kinds, onchange, several = false, at = 'pasted', mapOption = 'map', label = 'Paste a table here' }) {
    Object.assign(this, { sheet, kinds, onchange, several, at, mapOption, label, grids: [], names: [] });
    sheet.entered[at] = { files: [], kind: '', columns: {}, units: {}, words: {}, as: '', corrected: [], ...sheet.entered[at] };
    this.state = sheet.entered[at];
    this.facts = h('ul', { class: 'files' });
    this.choices = h('div', { class: 'given' });
    this.corrections = h('ul', { class: 'small' });
    this.places = h('div', {});
    this.remembered = new RememberedSheets({ use: (name) => this.useNamed(name), changed: (all) => {
      this.names = all;
      if (!this.tables) return;
      this.drawChoices();
      for (const grid of this.grids) grid.drawHead();
      this.drawWords();
    } });
    this.rest = h('p', { class: 'fault', role: 'status' });
    this.element = h('div', { class: 'pasted-tables', ondragover: (event) => event.preventDefault(), ondrop: (event) => {
      event.preventDefault();
      this.takeFiles([...event.dataTransfer.files]);
    } }, this.entry(), this.facts, this.choices, this.remembered.element, this.corrections, this.rest, this.places);
  }

  /// Reads what the sheet holds.
  async load() {
    this.naming = this.mapOption === 'map' ? this.remembered.load() : null;
    await this.naming;
    await this.read();
  }

  /// What the library remembers under the name is how the table is read.
  async useNamed(name) {
    Object.assign(this.state, { as: name, columns: {}, words: {} });
    await this.read();
    this.changed();
  }

  async read() {
    const files = await Promise.all(this.state.files.map(async (name) => {
      const answer = await fetch(this.sheet.file(name));
      return answer.ok ? { name, ...decoded(await answer.arrayBuffer()) } : null;
    }));
    const texts = files.filter((file) => file && kTables.test(file.name));
    this.toldKind = this.kindOf(texts);
    this.tables = texts.map((file) => ({ ...file, ...parsed(file.text, (fields) => this.score(fields)) })).filter((table) => table.header);
    this.draw();
  }

  kindOf(texts) {
    const records = texts.flatMap((file) => firstRecords(file.text));
    const best = (kind) => Math.max(0, ...records.map((record) => headerScore(record.fields, kind)));
    const scores = new Map(this.kinds.map((kind) => [kind, best(kind)]));
    return this.kinds.reduce((a, b) => (scores.get(b) > scores.get(a) ? b : a));
  }

  /// What was chosen for a header counts as its name.
  score(fields) {
    return headerScore(fields, this.kind) + fields.filter((name) => this.state.columns[name]).length * 20;
  }

  get kind() { return this.state.kind || this.toldKind || this.kinds[0]; }
  get files() { return this.state.files; }
  get isEmpty() { return this.state.files.length === 0; }
  get headers() { return [...new Set((this.tables ?? []).flatMap((table) => table.header.fields))].filter((name) => name.trim() !== ''); }
  has(column) { return this.headers.some((header) => this.columnOf(header).column.split('+').includes(column)); }

  /// The options of a verb that say which column is which.
  get options() {
    const map = this.headers.flatMap((header) => this.mapsOf(header));
    for (const [word, meaning] of Object.entries(this.state.words)) if (meaning) map.push(`${meaning}=${word}`);
    const isNamed = this.state.as !== '' && (map.length > 0 || this.names.includes(this.state.as));
    return { ...(map.length ? { [this.mapOption]: map } : {}), ...(isNamed ? { as: this.state.as } : {}) };
  }

  mapsOf(header) {
    const { column, how } = this.columnOf(header);
    if (column === '' || how === 'own') return [];
    return column.split('+').map((one) => {
      const unit = unitOf(one);
      const given = unit && splitUnit(header).unit === '' ? this.unitOfHeader(header, unit) : unit;
      return `${given === unit ? one : `${stemOf(one)} (${given})`}=${header.trim()}`;
    });
  }

  /// Which column a header is, and why: its own name, chosen, proposed, or as the library remembers.
  columnOf(header) {
    const chosen = this.state.columns[header];
    if (chosen !== undefined && (chosen === '' || tableKinds[this.kind].columns.includes(chosen))) return { column: chosen, how: 'chosen' };
    const own = tableKinds[this.kind].columns.find((column) => names(header, column));
    if (own) return { column: own, how: 'own' };
    if (this.names.includes(this.state.as)) return { column: '', how: 'remembered' };
    const table = this.tables?.find((one) => one.header.fields.includes(header));
    const taken = Object.values(this.state.columns).flatMap((column) => column.split('+'));
    const free = (table?.header.fields ?? []).filter((one) => this.state.columns[one] === undefined);
    const proposed = proposals(free, this.kind, taken).get(header);
    return { column: proposed ?? '', how: proposed ? 'proposed' : '' };
  }

  unitOfHeader(header, own) { return this.state.units[header] ?? own; }

  choose(header, column) {
    this.state.columns[header] = column;
    this.changed();
  }

  /// What is proposed counts as chosen: it is to be remembered.
  settle() {
    for (const header of this.headers) {
      const { column, how } = this.columnOf(header);
      if (how === 'proposed') this.state.columns[header] = column;
    }
  }

  chooseUnit(header, unit) {
    this.state.units[header] = unit;
    this.changed();
  }

  changed() {
    this.sheet.changed();
    for (const grid of this.grids) grid.drawHead();
    this.drawWords();
    this.onchange();
  }

  // Files

  entry() {
    const pasted = h('textarea', { rows: '2', class: 'paste', spellcheck: 'false',
      onpaste: (event) => {
        const text = event.clipboardData?.getData('text/plain') ?? '';
        if (text.trim() === '') return;
        event.preventDefault();
        this.takeText(text);
      },
      onchange: () => {
        if (pasted.value.trim() !== '') this.takeText(pasted.value);
        pasted.value = '';
      } });
    const chosen = h('input', { type: 'file', multiple: this.several, onchange: () => this.takeFiles([...chosen.files]) });
    return h('div', { class: 'drop' }, field(this.label, pasted, 'Or drop the file anywhere on this part.'),
      field(this.several ? 'or choose files' : 'or choose a file', chosen));
  }

  free(name) {
    let free = name;
    for (let i = 2; this.several && this.state.files.includes(free); i += 1) free = name.replace(/(\.[^.]*)?$/, `-${i}$1`);
    return free;
  }

  takeText(text) {
    return this.take([{ name: this.free(`${this.at}.csv`), bytes: new Blob([text]) }]);
  }

  takeFiles(files) {
    return files.length ? this.take(files.map((file) => ({ name: safeName(file.name), bytes: file }))) : null;
  }

  async take(files) {
    const taken = this.several ? files : files.slice(0, 1);
    for (const { name, bytes } of taken) await upload(this.sheet.file(name), bytes);
    this.state.files = this.several ? [...new Set([...this.state.files, ...taken.map((one) => one.name)])] : [taken[0].name];
    this.state.corrected = this.state.corrected.filter((one) => !taken.some((file) => file.name === one.file));
    this.sheet.changed();
    await this.read();
    say(`${taken.map((one) => one.name).join(', ')}: shown below.`);
    this.onchange();
  }

  /// Shows another file of the sheet.
  async showInstead(name) {
    this.state.files = [name];
    this.sheet.changed();
    await this.read();
  }

  drop(name) {
    this.state.files = this.state.files.filter((one) => one !== name);
    this.state.corrected = this.state.corrected.filter((one) => one.file !== name);
    this.sheet.changed();
    this.read().then(() => this.onchange());
  }

  // What is shown

  draw() {
    this.grids = this.tables.map((table) => new PastedGrid(table, this));
    this.facts.replaceChildren(...this.state.files.map((name) => h('li', {}, this.factsOf(name), ' ',
      button('take away', () => this.drop(name), { 'aria-label': `take away ${name}`, class: 'quiet' }))));
    this.places.replaceChildren(...this.grids.map((grid, i) => this.placeOf(grid, i)));
    this.drawChoices();
    this.drawWords();
    this.drawCorrections();
    this.rest.textContent = '';
  }

  placeOf(grid, i) {
    if (this.grids.length === 1) return grid.element;
    return h('details', { open: i === 0 }, h('summary', {}, grid.table.name), grid.element);
  }

  factsOf(name) {
    const table = this.tables.find((one) => one.name === name);
    if (!table) return `${name}: read as it is`;
    const sign = { ',': 'commas', ';': 'semicolons', '\t': 'tabs' }[table.header.delimiter];
    return `${name}: ${table.rows.length} ${table.rows.length === 1 ? 'row' : 'rows'} divided by ${sign}, ${table.encoding}`;
  }

  drawChoices() {
    if (this.tables.length === 0) {
      this.choices.replaceChildren();
      return;
    }
    const told = tableKinds[this.toldKind].name;
    const kind = choice([['', `${told} (told by its header)`], ...this.kinds.map((one) => [one, tableKinds[one].name])], this.state.kind, (one) => {
      this.state.kind = one;
      this.sheet.changed();
      this.read().then(() => this.onchange());
    });
    const list = h('datalist', { id: `names-${this.at}` }, this.names.map((name) => h('option', { value: name })));
    const as = h('input', { value: this.state.as, list: list.id, size: '18', onchange: async () => {
      this.state.as = as.value.trim();
      await this.naming; // a table may be there before the names are
      if (!this.names.includes(this.state.as)) this.settle();
      this.changed();
    } });
    this.words = h('div', { class: 'given' });
    this.choices.replaceChildren(this.kinds.length > 1 ? field('what it holds', kind) : '',
      this.mapOption === 'map' ? field('remember the columns as', as, 'a name for sheets of this kind, such as class sheet') : '',
      list, this.words);
  }

  /// Words in the cells that the program does not know by themselves.
  unknownWords() {
    const found = [];
    for (const table of this.tables) {
      table.header.fields.forEach((header, i) => {
        const { column } = this.columnOf(header);
        if (!meanings[column]) return;
        const known = column === 'role' ? kRoleWords : kYesWords;
        const words = new Set(table.rows.map((row) => (row.fields[i] ?? '').trim()).filter((word) => !known.includes(word.toLowerCase())));
        for (const word of [...words].slice(0, 8)) if (!found.some((one) => one.word === word)) found.push({ word, column });
      });
    }
    return found;
  }

  drawWords() {
    this.words?.replaceChildren(...this.unknownWords().map(({ word, column }) =>
      field(`“${word}” (${columnTitle(column)}) means`, choice(meanings[column], this.state.words[word] ?? '', (meaning) => {
        this.state.words[word] = meaning;
        this.sheet.changed();
        this.onchange();
      }))));
  }

  /// A faulty cell typed anew. What came is kept beside it under another name.
  async correct(table, row, index, value) {
    const before = row.fields[index];
    if (value === before) return;
    if (!this.state.corrected.some((one) => one.file === table.name)) {
      await upload(this.sheet.file(`as it came ${table.name}`), await (await fetch(this.sheet.file(table.name))).blob());
    }
    await upload(this.sheet.file(table.name), new Blob([withField(table, row, index, value)]));
    this.state.corrected.push({ file: table.name, line: row.line, column: table.header.fields[index] ?? '', was: before, is: value });
    this.sheet.changed();
    const focused = { line: String(row.line), field: String(index) };
    const marks = new Map(this.grids.map((grid) => [grid.table.name, grid.marks]));
    await this.read();
    for (const grid of this.grids) grid.mark(marks.get(grid.table.name) ?? []);
    this.grids.find((grid) => grid.table.name === table.name)?.focusFault(focused);
    this.onchange();
  }

  drawCorrections() {
    this.corrections.replaceChildren(...this.state.corrected.map((one) =>
      h('li', {}, `Corrected here: ${one.file}, line ${one.line}, ${one.column}: “${one.was}” is now “${one.is}”.`)));
  }

  /// Marks the cells that messages of the program are about, and returns the messages about none.
  mark(messages) {
    const { marks, rest, all } = faultsIn(messages, this.grids.map((grid) => grid.table.name));
    for (const grid of this.grids) grid.mark(marks.filter((one) => one.file === grid.table.name));
    const faults = marks.filter((one) => one.isFault).length;
    const counted = `${faults} ${faults === 1 ? 'fault is' : 'faults are'} marked below${all > faults ? `, of ${all}` : ''}.`;
    this.rest.textContent = faults === 0 ? '' : `${counted} A ringed cell can be typed anew.`;
    return rest;
  }
}
