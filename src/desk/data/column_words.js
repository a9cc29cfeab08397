// What a table calls its columns, where it has words of its own.
import { h, button, field } from '/dom.js';
import { textOf } from '/file_entry.js';

const columns = [['tR', 'retention time'], ['peak', 'number or name of the peak'], ['area', 'area'], ['compound', 'compound'],
  ['role', 'sample or standard'], ['run', 'run'], ['date', 'date'], ['width_half', 'width at half height'], ['symmetry', 'symmetry factor'],
  ['ppm', 'amount, ppm'], ['carbon', 'carbon number (ladder)']];

let count = 0;

/// The headings of a table: the cells of its first row that has several.
function headingsOf(text) {
  const line = text.split(/\r?\n/).find((one) => /[;,\t]/.test(one)) ?? '';
  const divider = ['\t', ';', ','].find((sign) => line.includes(sign)) ?? ',';
  return line.split(divider).map((cell) => cell.trim().replace(/^"|"$/g, '')).filter((cell) => cell !== '');
}

/// `held` keeps {map: {column: heading}, as}; `files()` names the tables.
export class ColumnWords {
  constructor({ sheet, held, files, changed }) {
    held.map ??= {};
    Object.assign(this, { sheet, held, files, changed });
    count += 1;
    this.headings = h('datalist', { id: `headings-${count}` });
    this.proposed = h('p', {});
    this.fields = h('div', { class: 'given from-top' });
    this.element = h('details', { class: 'column-words', hidden: Object.keys(held.map).length === 0 && !held.as,
      ontoggle: () => this.element.open && this.readHeadings() },
    h('summary', {}, 'what the table calls its columns'), this.headings, this.proposed, this.fields);
    this.list();
  }

  list() {
    const input = (value, take, list) => h('input', { value, size: '16', list: null, onchange: (event) => { take(event.target.value.trim()); this.changed(); }, ...list });
    const named = columns.map(([column, words]) => {
      const one = input(this.held.map[column] ?? '', (text) => this.set(column, text));
      one.setAttribute('list', this.headings.id);
      return field(words, one);
    });
    const as = input(this.held.as ?? '', (text) => { this.held.as = text; });
    this.fields.replaceChildren(...named, field('remember these words as', as, 'A name such as “class sheet”; next time the name alone will do.'));
  }

  set(column, heading) {
    if (heading === '') delete this.held.map[column];
    else this.held.map[column] = heading;
  }

  async readHeadings() {
    const [name] = this.files();
    const text = name ? await textOf(this.sheet, name) : null;
    if (text) this.headings.replaceChildren(...headingsOf(text).map((value) => h('option', { value })));
  }

  options() {
    const map = Object.entries(this.held.map).map(([column, heading]) => `${column}=${heading}`);
    return { ...(map.length > 0 ? { map } : {}), ...(this.held.as ? { as: this.held.as } : {}) };
  }

  /// Unfolds where the program asks what columns are called; what it takes to be likely is one press away.
  places() {
    const asked = (lines) => {
      if (lines.length === 0) {
        this.proposed.replaceChildren();
        return;
      }
      this.element.hidden = false;
      this.element.open = true;
      const likely = [...lines.join(' ').matchAll(/“map” "?(\w+)=(?:"([^"]+)"|([^",;]+))/g)].filter(([, column]) => column !== 'COLUMN')
        .map(([, column, quoted, bare]) => [column, quoted ?? bare]);
      this.proposed.replaceChildren(h('span', { class: 'fault', role: 'alert' }, lines.map((line) => line.split('; “map” ')[0]).join(' ')),
        ...likely.map(([column, heading]) => button(`“${heading}” is ${column}`, () => { this.set(column, heading); this.list(); this.changed(); })));
    };
    return [['map', asked], ['as', asked]];
  }
}
