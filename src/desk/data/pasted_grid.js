// One table as it was, as a grid: above each column which column it is, ringed what is faulty.
import { h, choice } from '/dom.js';
import { columnTitle, splitUnit, tableKinds, unitOf, unitsLike, names } from '/table_kinds.js';

const kMostRows = 200;

export class PastedGrid {
  /// `tables` is the PastedTables that it belongs to.
  constructor(table, tables) {
    Object.assign(this, { table, tables, marks: [] });
    this.head = h('tr', { class: 'naming' });
    this.body = h('tbody', {});
    this.more = h('p', { class: 'hint' });
    this.element = h('div', {}, h('div', { class: 'wide', role: 'region', tabindex: '0', 'aria-label': `${table.name} as it was` },
      h('table', { class: 'pasted' }, h('thead', {}, this.head), this.body)), this.more);
    this.drawHead();
    this.drawBody();
  }

  get headers() { return this.table.header.fields; }

  /// The choices above the columns; what is being chosen keeps the focus.
  drawHead() {
    const at = document.activeElement?.closest('.naming') === this.head ? document.activeElement.dataset.at : null;
    this.head.replaceChildren(h('th', { scope: 'col' }, h('span', { class: 'small' }, 'read as')),
      ...this.headers.map((header, i) => h('th', { scope: 'col' }, header.trim() === '' ? '' : this.naming(header, i))));
    if (at) this.head.querySelector(`[data-at="${at}"]`)?.focus();
  }

  naming(header, i) {
    const { column, how } = this.tables.columnOf(header);
    const options = tableKinds[this.tables.kind].columns.map((one) => [one, columnTitle(one)]);
    const isOwn = tableKinds[this.tables.kind].columns.some((one) => names(header, one));
    if (!isOwn) options.unshift(['', how === 'remembered' ? 'as remembered' : 'not read']);
    const select = choice(options, column, (chosen) => this.tables.choose(header, chosen));
    select.classList.add('pencilled', ...(column === '' ? ['unread'] : []));
    select.dataset.at = `column-${i}`;
    select.setAttribute('aria-label', `“${header.trim()}” is`);
    const twice = column !== '' && this.headers.some((other, j) => j !== i && this.tables.columnOf(other).column === column);
    return [select, this.unitChoice(header, column, i), how === 'proposed' ? h('small', {}, 'proposed') : null,
      twice ? h('small', { class: 'fault' }, 'chosen twice') : null];
  }

  /// A header without a unit over numbers of a unit: which one.
  unitChoice(header, column, i) {
    const own = unitOf(column);
    if (!own || splitUnit(header).unit !== '' || names(header, column)) return null;
    const select = choice(unitsLike(own).map((unit) => [unit, `in ${unit}`]), this.tables.unitOfHeader(header, own),
      (unit) => this.tables.chooseUnit(header, unit));
    select.classList.add('pencilled');
    select.dataset.at = `unit-${i}`;
    select.setAttribute('aria-label', `unit of “${header.trim()}”`);
    return select;
  }

  /// Where the column that a message names stands; -1 where it says none.
  fieldOf(column) {
    if (!column) return -1;
    const is = (text) => text.toLowerCase() === column.toLowerCase();
    const chosen = this.headers.findIndex((header) => this.tables.columnOf(header).column.split('+').some(is));
    if (chosen >= 0) return chosen;
    return this.headers.findIndex((header) => is(header.trim()) || is(splitUnit(header).stem));
  }

  /// Rings what messages are about: [{line, column, text, isFault}].
  mark(marks) {
    this.marks = marks.map((one) => ({ ...one, field: this.fieldOf(one.column) }));
    this.drawBody();
  }

  drawBody() {
    const focused = this.body.contains(document.activeElement) ? document.activeElement.dataset : null;
    const { above, header, rows } = this.table;
    const faulty = new Set(this.marks.map((one) => one.line));
    const shown = rows.slice(0, kMostRows);
    const later = rows.slice(kMostRows).filter((row) => faulty.has(row.line));
    this.body.replaceChildren(...above.map((row) => this.titleRow(row)), ...this.row(header, 'header'),
      ...shown.flatMap((row) => this.row(row)), ...later.flatMap((row) => this.row(row)));
    const hidden = rows.length - shown.length - later.length;
    this.more.textContent = hidden > 0 ? `${hidden} further rows are read, but not shown.` : '';
    if (focused) this.focusFault(focused);
  }

  /// The faulty cell that was looked at, or the next one.
  focusFault({ line, field }) {
    const cells = [...this.body.querySelectorAll('input[data-line]')];
    const after = cells.find((cell) => Number(cell.dataset.line) > Number(line) || (cell.dataset.line === line && Number(cell.dataset.field) >= Number(field)));
    (after ?? cells.at(-1))?.focus();
  }

  /// A line above the header, which is not read.
  titleRow(row) {
    return h('tr', { class: 'above' }, h('th', { scope: 'row', class: 'small' }, String(row.line)),
      h('td', { colspan: String(this.headers.length) }, this.table.text.slice(row.from, row.to)));
  }

  row(row, kind = '') {
    const marks = this.marks.filter((one) => one.line === row.line);
    const whole = marks.some((one) => one.field < 0 && one.isFault);
    const cells = row.fields.map((text, i) => this.cell(row, i, text, marks.filter((one) => one.field === i), kind));
    const classes = [kind, whole ? 'ringed' : ''].filter(Boolean).join(' ');
    const shown = h('tr', classes ? { class: classes } : {}, h('th', { scope: 'row', class: 'small' }, String(row.line)), cells);
    return [shown, ...marks.map((one, i) => this.sentence(row, one, i))];
  }

  cell(row, i, text, marks, kind) {
    if (marks.length === 0) return h(kind === 'header' ? 'th' : 'td', kind === 'header' ? { scope: 'col' } : {}, text);
    const about = marks.map((one) => this.idOf(row, this.marks.filter((mark) => mark.line === row.line).indexOf(one))).join(' ');
    if (kind === 'header' || !marks.some((one) => one.isFault)) {
      return h('td', { class: marks.some((one) => one.isFault) ? 'ringed' : 'doubted', 'aria-describedby': about }, text);
    }
    const input = h('input', { value: text, 'aria-invalid': 'true', 'aria-describedby': about, 'data-line': String(row.line), 'data-field': String(i),
      size: String(Math.max(4, Math.min(text.length, 24))), 'aria-label': `line ${row.line}, ${this.headers[i] ?? ''}`,
      onchange: () => this.tables.correct(this.table, row, i, input.value) });
    return h('td', { class: 'ringed' }, input);
  }

  idOf(row, i) { return `${this.table.name.replace(/\W/g, '-')}-${row.line}-${i}`; }

  sentence(row, mark, i) {
    const where = mark.column ? `${mark.column}: ` : '';
    return h('tr', { class: 'fault-row' }, h('td', {}), h('td', { colspan: String(this.headers.length) },
      h('span', { class: mark.isFault ? 'sentence fault' : 'sentence', id: this.idOf(row, i) }, where + mark.text)));
  }
}
