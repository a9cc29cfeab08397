// A column: from the plate to the rack of tubes, and from the tubes to the flask.
import { h, button, settled } from '/dom.js';
import { ask, isDone, refusal } from '/answer.js';
import { sheetFrame } from '/sheet.js';
import { ColumnPlan } from '/column_plan.js';
import { Tubes } from '/tubes.js';

const parts = [['plan', 'From the plate to the rack'], ['tubes', 'From the tubes to the flask']];

class ColumnSheet {
  constructor(view, sheet) {
    this.sheet = sheet;
    const { frame, work } = sheetFrame(sheet, () => this.part.call());
    this.answerSoon = settled(() => this.answer(), 200);
    const changed = () => { sheet.changed(); this.answerSoon(); };
    this.plan = new ColumnPlan(sheet, changed);
    this.tubes = new Tubes(sheet, this.plan, changed);
    this.tabs = h('p', { class: 'filters', role: 'group', 'aria-label': 'parts of the work' });
    this.outcome = h('div', { class: 'as-printed', role: 'region', 'aria-label': 'the answer' });
    work.append(this.tabs, this.plan.element, this.tubes.element, this.outcome);
    view.replaceChildren(frame);
    this.showPart();
  }

  async load() {
    await Promise.all([this.plan.load(), this.tubes.load()]);
    this.answerSoon();
  }

  get part() { return this.sheet.entered.part === 'tubes' ? this.tubes : this.plan; }

  /// The part that is shown is the one that is kept and printed.
  showPart() {
    this.tabs.replaceChildren(...parts.map(([name, text]) => button(text, () => {
      this.sheet.entered.part = name;
      this.sheet.changed();
      this.showPart();
      this.tabs.querySelector('[aria-pressed="true"]').focus();
      this.answerSoon();
    }, { class: 'filter', 'aria-pressed': String(this[name] === this.part) })));
    this.plan.element.hidden = this.part !== this.plan;
    this.tubes.element.hidden = this.part !== this.tubes;
    this.outcome.replaceChildren();
  }

  async answer() {
    const { part } = this;
    const call = part.call();
    if (!call) {
      this.outcome.replaceChildren(h('p', { class: 'faint' }, part === this.plan ? part.missing : 'Say what the plates of the tubes showed.'));
      return;
    }
    const answer = await ask(this.outcome, call, { sheet: this.sheet.id, slot: 'column' });
    if (!answer || part !== this.part) return;
    const rest = part.mark(answer.messages);
    if (!isDone(answer)) this.outcome.replaceChildren(rest.length ? refusal(rest.join('\n')) : '');
  }
}

export async function showColumn(view, sheet) {
  const work = new ColumnSheet(view, sheet);
  await work.load();
  return () => work.sheet.isDirty && work.sheet.save();
}
