// What the library remembers of sheets: under which names, what their columns are called, and how to forget one.
import { h, button } from '/dom.js';
import { about, resultsOf, runVerb } from '/api.js';
import { isDone } from '/answer.js';
import { Corrections } from '/corrections.js';
import { columnTitle } from '/table_kinds.js';

let calls = 0;

/// {sheet, columns: [{column, header}], who, at} of each.
export async function rememberedSheets() {
  const answer = await runVerb({ verb: 'list', arguments: ['sheets'] }, { slot: `sheets-${calls += 1}` }).catch(() => null);
  return answer && !answer.stopped && isDone(answer) ? resultsOf(answer) : [];
}

const words = ({ column, header }) => `“${header}” is ${columnTitle(column.replace(/^ladder:/, 'ladder, '))}`;

export class RememberedSheets {
  /// `use(name)` takes what is remembered for the table that is looked at; `changed(names)` hears of the
  /// names whenever they are read.
  constructor({ use, changed }) {
    Object.assign(this, { use, changed, sheets: [] });
    this.outcome = h('div', { class: 'outcome' });
    this.forgetting = new Corrections([], this.outcome);
    this.list = h('ul', { class: 'remembered' });
    this.element = h('details', { hidden: true }, h('summary', {}, 'columns that the library remembers'), this.list, this.forgetting.line, this.outcome);
  }

  get names() { return this.sheets.map((one) => one.sheet); }

  async load() {
    this.sheets = await rememberedSheets();
    this.element.hidden = this.sheets.length === 0 && this.outcome.childElementCount === 0;
    this.list.replaceChildren(...this.sheets.map((one) => this.item(one)));
    this.changed(this.names);
  }

  item({ sheet, columns, who, at }) {
    const forget = { label: 'forget', what: `The library forgets what “${sheet}” calls its columns; values stay as they are.`,
      call: (_, reason) => ({ verb: 'retire', options: { sheet, reason } }), done: () => this.load() };
    return h('li', {}, h('b', {}, sheet), ` (${at.slice(0, 10)}, ${who}): ${columns.map(words).join(', ')}`,
      h('p', { class: 'buttons' }, button('read the table so', () => this.use(sheet), { 'aria-label': `read the table as ${sheet}` }),
        about.role === 'visitor' ? '' : button('forget', () => this.forgetting.open(forget), { 'aria-label': `forget ${sheet}` })));
  }
}
