// Values chosen in the table of an answer, to be withdrawn or to count again.
import { h, button } from '/dom.js';

export class ValueChoice {
  /// `answer`: the answer of `show --all`, whose rows begin with the number of a value; `values`: the
  /// same as JSON; `corrections` ask why; `done` is called when something was changed.
  constructor(answer, values, corrections, done) {
    this.states = new Map(values.map((one) => [one.id, one.state]));
    this.rows = new Map();
    this.chosen = new Set();
    this.corrections = corrections;
    this.done = done;
    this.marks = new Map(); // of the drawing
    this.withdrawing = button('', () => this.withdraw());
    this.takingBack = button('', () => this.takeBack());
    for (const table of answer.querySelectorAll('table')) {
      if (table.tHead?.rows[0].cells[0].textContent === 'No.') this.add(table);
    }
    this.line = h('div', {});
    this.element = h('div', { class: 'chosen-values' }, h('p', { class: 'buttons' }, this.withdrawing, this.takingBack), this.line);
    this.table?.closest('.wide').after(this.element);
    this.tell();
  }

  add(table) {
    this.table ??= table;
    for (const row of table.tBodies[0].rows) {
      const id = Number(row.cells[0].dataset.value);
      const state = this.states.get(id);
      if (state === undefined) continue;
      const box = h('input', { type: 'checkbox', 'aria-label': `choose value ${id}`, disabled: state === 'superseded',
        onchange: () => this.choose(id, box.checked) });
      row.cells[0].prepend(box, ' ');
      row.classList.toggle('former', state !== 'held');
      row.addEventListener('mouseenter', () => this.light(id, true));
      row.addEventListener('mouseleave', () => this.light(id, false));
      this.rows.set(id, { row, box });
    }
  }

  /// A mark of a drawing stands for a value: both light up together, and a click chooses it.
  tie(id, mark) {
    this.marks.set(id, mark);
    for (const [event, isLit] of [['mouseenter', true], ['mouseleave', false], ['focus', true], ['blur', false]]) {
      mark.addEventListener(event, () => this.light(id, isLit));
    }
    const choose = () => this.rows.has(id) && !this.rows.get(id).box.disabled && this.choose(id, !this.chosen.has(id));
    mark.addEventListener('click', choose);
    mark.addEventListener('keydown', (event) => {
      if (event.key !== 'Enter' && event.key !== ' ') return;
      event.preventDefault();
      choose();
    });
    mark.classList.toggle('chosen', this.chosen.has(id));
  }

  light(id, isLit) {
    this.rows.get(id)?.row.classList.toggle('lit', isLit);
    this.marks.get(id)?.classList.toggle('lit', isLit);
  }

  choose(id, isChosen) {
    if (isChosen) this.chosen.add(id);
    else this.chosen.delete(id);
    this.rows.get(id).box.checked = isChosen;
    this.marks.get(id)?.classList.toggle('chosen', isChosen);
    this.tell();
  }

  withState(state) {
    return [...this.chosen].filter((id) => this.states.get(id) === state).sort((a, b) => a - b).map(String);
  }

  tell() {
    const values = (count) => `${count} chosen ${count === 1 ? 'value' : 'values'}`;
    const [held, retired] = [this.withState('held').length, this.withState('retired').length];
    this.withdrawing.textContent = held ? `withdraw ${values(held)}` : 'withdraw values: choose them first';
    this.withdrawing.disabled = held === 0;
    this.takingBack.textContent = `let ${values(retired)} count again`;
    this.takingBack.hidden = retired === 0;
  }

  withdraw() {
    const value = this.withState('held');
    this.corrections.open({ label: 'withdraw', what: `Withdraw ${value.length === 1 ? 'value' : 'values'} ${value.map((id) => `#${id}`).join(', ')}: no longer counted, still readable.`,
      call: (_, reason) => ({ verb: 'retire', options: { value, reason } }), done: this.done }, this.withdrawing, this.line);
  }

  takeBack() {
    const value = this.withState('retired');
    this.corrections.open({ label: 'count again', what: `Let ${value.length === 1 ? 'value' : 'values'} ${value.map((id) => `#${id}`).join(', ')} count again.`,
      call: (_, reason) => ({ verb: 'retire', options: { value, reason, undo: true } }), done: this.done }, this.takingBack, this.line);
  }
}
