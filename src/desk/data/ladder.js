// The ladder of a run: a file, or typed members with their times.
import { h, number } from '/dom.js';
import { csv } from '/systems.js';
import { FileEntry } from '/file_entry.js';
import { OptionFields } from '/option_fields.js';

const kTyped = 'ladder typed.csv';

/// `held` keeps {names, rows, first}; `changed()` is called after each change.
export class Ladder {
  constructor({ sheet, held, changed, taken, label = 'The ladder run with it', option = 'ladder' }) {
    held.names ??= [];
    held.rows ??= [];
    held.options ??= {};
    this.held = held;
    this.option = option;
    this.changed = () => { this.show(); changed(); };
    this.files = new FileEntry({ sheet, label, names: held.names, pastedName: option, changed: this.changed, taken });
    this.first = new OptionFields([{ option: 'ladder-first', label: 'carbon number of its first homologue', kind: 'number' }], held.options, this.changed);
    const [first] = this.first.elements.values();
    first.hidden = held.options['ladder-first'] === undefined;
    this.rows = h('tbody', {});
    this.typing = h('details', { class: 'typed-ladder', open: held.rows.length > 0 }, h('summary', {}, 'or type it'),
      h('table', { class: 'entry narrow' }, h('thead', {}, h('tr', {}, ['carbon number or name', 'minutes'].map((text) => h('th', { scope: 'col' }, text)))), this.rows));
    this.files.element.append(this.typing, first);
    this.element = this.files.element;
    this.listRows();
    this.show();
  }

  /// A typed ladder counts where no file is chosen.
  show() { this.typing.hidden = this.held.names.length > 0; }

  listRows() {
    const { rows } = this.held;
    this.rows.replaceChildren(...[...rows, ['', '']].map((row, i) => this.row(row, i)));
  }

  /// One more row is always there to be typed into.
  row(row, i) {
    const { rows } = this.held;
    const cell = (column, name) => {
      const input = h('input', { value: row[column], 'aria-label': `${name}, row ${i + 1}`, inputmode: column === 1 ? 'decimal' : null,
        onchange: () => {
          row[column] = input.value.trim();
          const isWrong = column === 1 && row[1] !== '' && !(number(row[1]) > 0);
          input.classList.toggle('faulty', isWrong);
          if (!rows.includes(row)) {
            rows.push(row);
            this.rows.append(this.row(['', ''], rows.length));
          }
          this.changed();
        } });
      return h('td', {}, input);
    };
    return h('tr', {}, cell(0, 'carbon number or name'), cell(1, 'minutes'));
  }

  complete() {
    return this.held.rows.filter(([member, minutes]) => member !== '' && number(minutes) > 0);
  }

  /// Options and texts for the call.
  call() {
    const [name] = this.held.names;
    const typed = this.complete();
    if (name) return { options: { [this.option]: name, ...(this.option === 'ladder' ? this.first.options() : {}) }, files: {} };
    if (typed.length === 0) return { options: {}, files: {} };
    const isCarbon = typed.every(([member]) => /^\d+$/.test(member));
    return { options: { [this.option]: kTyped },
      files: { [kTyped]: csv([isCarbon ? 'carbon' : 'standard', 'tR'], typed.map(([member, minutes]) => [member, number(minutes)])) } };
  }

  /// Where faults of the ladder are told.
  optionPlaces() { return [...this.first.places(), [this.option, (lines) => this.files.tellOf('', lines)]]; }
  filePlaces() { return [...this.files.places(), [kTyped, (lines) => this.files.tellOf(kTyped, lines)]]; }
}
