// Corrections of the library: each opens a line that asks why, calls a verb and shows what it did.
import { h, button, field, say } from '/dom.js';
import { ask, isDone } from '/answer.js';

/// `actions`: {label, what, fields: [{name, label, value, below}], call(entered, reason), done(entered)};
/// `what` says what will be, `below` is shown below a field and hears what is typed (onentered).
/// Returns the buttons and the place where the line opens and where it is said what was done.
export class Corrections {
  constructor(actions, outcome = h('div', { class: 'outcome' })) {
    this.outcome = outcome;
    this.line = h('div', {});
    this.buttons = h('p', { class: 'buttons' }, actions.map((action) => button(action.label, () => this.open(action), { disabled: action.disabled })));
    this.element = h('div', { class: 'corrections' }, this.buttons, this.line);
  }

  /// Opens the line, in `line`.
  open(action, opener = document.activeElement, line = this.line) {
    const close = () => { line.replaceChildren(); opener?.focus(); };
    const reason = h('input', { size: '40', required: true, name: 'reason', autocomplete: 'off' });
    const inputs = (action.fields ?? []).map((one) => [one, h('input', { size: one.size ?? '30', value: one.value ?? '', required: true,
      name: one.name, autocomplete: 'off', spellcheck: 'false', oninput: () => one.onentered?.(inputOf(one).value) })]);
    const inputOf = (field) => inputs.find(([one]) => one === field)[1];
    const submit = async (event) => {
      event.preventDefault();
      const entered = Object.fromEntries(inputs.map(([one, input]) => [one.name, input.value.trim()]));
      const answer = await ask(this.outcome, action.call(entered, reason.value.trim()), { slot: 'correction' });
      if (!answer || !isDone(answer)) return; // what was entered stays, to be mended
      line.replaceChildren();
      this.outcome.scrollIntoView({ block: 'nearest' });
      say(this.outcome.querySelector('main p')?.textContent ?? 'Done.');
      action.done(entered);
    };
    const form = h('form', { class: 'small-form', onsubmit: submit, onkeydown: (event) => { if (event.key === 'Escape') close(); } },
      h('p', { class: 'what' }, action.what), inputs.map(([one, input]) => h('div', {}, field(one.label, input), one.below ?? null)),
      field('why? It stays in the library', reason),
      h('p', {}, h('button', { type: 'submit', class: 'main' }, action.label), ' ', button('cancel', close)));
    line.replaceChildren(form);
    form.querySelector('input').focus();
  }
}
