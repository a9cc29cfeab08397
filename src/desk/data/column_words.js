// What a table of peaks, or its ladder, calls its columns, where it has words of its own.
import { h, button, field } from '/dom.js';
import { textOf } from '/file_entry.js';
import { rememberedSheets } from '/remembered_sheets.js';
import { columnInWords, headerScore, names, proposals, tableKinds } from '/table_kinds.js';
import { parsed } from '/text_table.js';

const kind = 'chromatogram';
const columns = [...tableKinds[kind].columns, 'carbon'];

let count = 0;

/// `held` keeps {map: {column: heading}, as}; `files()` names the tables.
export class ColumnWords {
  constructor({ sheet, held, files, changed }) {
    held.map ??= {};
    Object.assign(this, { sheet, held, files, changed });
    count += 1;
    this.headings = h('datalist', { id: `headings-${count}` });
    this.remembered = h('datalist', { id: `remembered-${count}` });
    this.proposed = h('p', {});
    this.fields = h('div', { class: 'given from-top' });
    this.element = h('details', { class: 'column-words', hidden: Object.keys(held.map).length === 0 && !held.as,
      ontoggle: () => this.element.open && this.read() },
    h('summary', {}, 'what the table calls its columns'), this.headings, this.remembered, this.proposed, this.fields);
    this.list();
  }

  list() {
    const input = (value, list, take) => {
      const one = h('input', { value, size: '16', onchange: () => { take(one.value.trim()); this.changed(); } });
      one.setAttribute('list', list.id);
      return one;
    };
    const named = columns.map((column) => field(columnInWords(column), input(this.held.map[column] ?? '', this.headings, (text) => this.set(column, text))));
    const as = input(this.held.as ?? '', this.remembered, (text) => { this.held.as = text; });
    this.fields.replaceChildren(...named, field('remember these words as', as, 'A name such as “class sheet”; next time the name alone will do.'));
  }

  set(column, heading) {
    if (heading === '') delete this.held.map[column];
    else this.held.map[column] = heading;
  }

  /// Headings of the table and names of sheets to choose from; which heading is likely to be which column.
  async read() {
    const option = (value) => h('option', { value });
    this.remembered.replaceChildren(...(await rememberedSheets()).map((one) => option(one.sheet)));
    const [name] = this.files();
    const text = name ? await textOf(this.sheet, name) : null;
    const headings = text ? (parsed(text, (fields) => headerScore(fields, kind)).header?.fields ?? []).map((one) => one.trim()).filter(Boolean) : [];
    this.headings.replaceChildren(...headings.map(option));
    const unread = headings.filter((heading) => !columns.some((column) => names(heading, column)) && !Object.values(this.held.map).includes(heading));
    this.propose(proposals(unread, kind, Object.keys(this.held.map)));
  }

  propose(likely) {
    this.likely?.remove();
    this.likely = h('span', {}, [...likely].map(([heading, column]) => button(`“${heading}” is ${column}`, () => {
      this.set(column, heading);
      this.list();
      this.likely.remove();
      this.changed();
    })));
    this.proposed.append(this.likely);
  }

  options() {
    const map = Object.entries(this.held.map).map(([column, heading]) => `${column}=${heading}`);
    return { ...(map.length > 0 ? { map } : {}), ...(this.held.as ? { as: this.held.as } : {}) };
  }

  /// Unfolds where the program asks what columns are called; what is likely is one press away.
  places() {
    const asked = (lines) => {
      this.proposed.replaceChildren();
      if (lines.length === 0) return;
      this.proposed.append(h('span', { class: 'fault', role: 'alert' }, lines.join(' ')), ' ');
      this.element.hidden = false;
      if (this.element.open) this.read();
      this.element.open = true; // which reads
    };
    return [['map', asked], ['as', asked]];
  }
}
