// A small table that is typed: there is always an empty row below, and rows can be pasted into it.
import { h, button, choice } from '/dom.js';
import { faultsIn } from '/faults.js';
import { parsed } from '/text_table.js';

export class EntryRows {
  /// `columns`: [{name, label, options, list, size, hint}], with options a choice, else typed, with the
  /// id of a list of proposals; `rows`: objects of texts, which this changes; `named`: what a row is called.
  constructor({ columns, rows, named, changed }) {
    Object.assign(this, { columns, rows, named, changed });
    this.body = h('tbody', {});
    this.element = h('div', { class: 'wide' }, h('table', { class: 'entry typed' },
      h('thead', {}, h('tr', {}, [...columns.map((column) => column.label), ''].map((text) => h('th', { scope: 'col' }, text)))), this.body));
    this.draw();
  }

  isEmpty(row) { return this.columns.every(({ name, options }) => options || !row[name]); }
  get filled() { return this.rows.filter((row) => !this.isEmpty(row)); }

  add(rows) {
    this.rows.splice(0, this.rows.length, ...this.filled, ...rows);
    this.draw();
    this.changed();
  }

  draw() {
    if (this.rows.length === 0 || !this.isEmpty(this.rows.at(-1))) this.rows.push({});
    this.body.replaceChildren(...this.rows.map((row, i) => this.rowOf(row, i)));
  }

  rowOf(row, i) {
    const drop = button('remove', () => {
      this.rows.splice(this.rows.indexOf(row), 1);
      this.draw();
      this.changed();
    }, { 'aria-label': `remove ${this.named} ${i + 1}`, class: 'quiet' });
    const cells = this.columns.map((column) => h('td', {}, this.cellOf(row, column, i)));
    const last = h('td', {}, this.isEmpty(row) ? '' : drop);
    return h('tr', {}, cells, last);
  }

  cellOf(row, column, i) {
    const label = `${column.label}, ${this.named} ${i + 1}`;
    if (column.options) {
      const select = choice(column.options, row[column.name] ?? '', (value) => {
        row[column.name] = value;
        this.changed();
      });
      select.setAttribute('aria-label', label);
      return select;
    }
    const input = h('input', { value: row[column.name] ?? '', 'aria-label': label, size: String(column.size ?? 8), list: column.list,
      placeholder: column.hint, 'data-column': column.name,
      onpaste: (event) => this.pasteAt(event, row, column),
      onchange: () => {
        row[column.name] = input.value.trim();
        this.grow(input);
        this.changed();
      } });
    return input;
  }

  /// The next empty row appears while the hand goes on in this one.
  grow(input) {
    if (!this.isEmpty(this.rows.at(-1))) {
      this.rows.push({});
      this.body.append(this.rowOf(this.rows.at(-1), this.rows.length - 1));
    }
    const place = input.closest('tr').lastElementChild;
    const row = this.rows[[...this.body.children].indexOf(input.closest('tr'))];
    if (row && !this.isEmpty(row) && !place.querySelector('button')) place.replaceWith(this.rowOf(row, this.rows.indexOf(row)).lastElementChild);
  }

  /// Several cells at once: lines and columns from this cell on.
  pasteAt(event, row, column) {
    const text = event.clipboardData?.getData('text/plain') ?? '';
    if (!/[\n\t]/.test(text.trim())) return;
    event.preventDefault();
    const { header, rows } = parsed(text, () => 1);
    const typed = this.columns.filter((one) => !one.options).map((one) => one.name);
    const from = typed.indexOf(column.name);
    let at = this.rows.indexOf(row);
    for (const line of [header, ...rows]) {
      this.rows[at] ??= {};
      line.fields.slice(0, typed.length - from).forEach((field, i) => { this.rows[at][typed[from + i]] = field.trim(); });
      at += 1;
    }
    this.draw();
    this.changed();
  }

  /// Marks cells, or where a fault is of no one cell the first: [{row, column, text}]; those before are
  /// taken away.
  mark(faults) {
    for (const before of this.body.querySelectorAll('.fault')) before.remove();
    [...this.body.children].forEach((element, i) => {
      const own = faults.filter((one) => one.row === this.rows[i]);
      const inputs = [...element.querySelectorAll('input')];
      for (const input of inputs) {
        const texts = own.filter((one) => (inputs.find((other) => other.dataset.column === one.column) ?? inputs[0]) === input).map((one) => one.text);
        input.classList.toggle('faulty', texts.length > 0);
        if (texts.length) input.after(h('small', { class: 'fault', role: 'alert' }, texts.join('; ')));
      }
    });
  }
}

/// Messages about a table made here: faults of its rows, and the other lines; `rows` holds, from line 2
/// on, the row that a line was made of.
export function faultsOfRows(messages, file, rows) {
  const { marks, rest } = faultsIn(messages, [file]);
  const faults = marks.filter((one) => rows[one.line - 2]).map((one) => ({ row: rows[one.line - 2], column: one.column, text: one.text }));
  return { faults, rest: [...rest, ...marks.filter((one) => !rows[one.line - 2]).map((one) => one.text)] };
}
