// Fields for the options of a verb: what was entered is kept under their names.
import { h, choice, field, number } from '/dom.js';
import { tellAt } from '/placed_faults.js';

/// A number with the point that the program expects, or a fault.
function typedNumber(text) {
  const value = number(text);
  return Number.isFinite(value) ? { value: String(value) } : { fault: `found “${text}”; expected a number` };
}

/// The fields of `specs`: {option, label, kind: 'number', 'text', 'flag', 'lines' or a list of choices,
/// hint}. Values are kept in `values`; `changed()` is called after each change.
export class OptionFields {
  constructor(specs, values, changed) {
    this.specs = specs;
    this.values = values;
    this.changed = changed;
    this.elements = new Map(specs.map((spec) => [spec.option, this.fieldOf(spec)]));
  }

  set(spec, value) {
    if (value === '' || value === false) delete this.values[spec.option];
    else this.values[spec.option] = value;
    this.changed();
  }

  /// Takes a value for the field of `option` as if it was typed.
  take(option, value) {
    const element = this.elements.get(option);
    element.hidden = false;
    element.querySelector('input, select').value = value;
    tellAt(element, '');
    this.set(this.specs.find((spec) => spec.option === option), value);
  }

  fieldOf(spec) {
    const held = this.values[spec.option];
    if (Array.isArray(spec.kind)) {
      return field(spec.label, choice(spec.kind, held ?? '', (value) => this.set(spec, value)), spec.hint);
    }
    if (spec.kind === 'flag') {
      const box = h('input', { type: 'checkbox', checked: Boolean(held), onchange: () => this.set(spec, box.checked) });
      return h('label', { class: 'flag' }, box, ' ', spec.label);
    }
    if (spec.kind === 'lines') {
      const area = h('textarea', { rows: 3, cols: 28, onchange: () => this.set(spec, area.value.trim()) });
      area.value = held ?? '';
      return field(spec.label, area, spec.hint);
    }
    const input = h('input', { value: held ?? '', size: spec.kind === 'number' ? '10' : '18', placeholder: spec.placeholder,
      inputmode: spec.kind === 'number' ? 'decimal' : null, onchange: () => this.typed(spec, element, input) });
    const element = field(spec.label, input, spec.hint);
    return element;
  }

  typed(spec, element, input) {
    const text = input.value.trim();
    const { value, fault } = spec.kind === 'number' && text !== '' ? typedNumber(text) : { value: text };
    tellAt(element, fault ?? '');
    if (!fault) this.set(spec, value);
  }

  /// The options as the program takes them.
  options() {
    const given = {};
    for (const spec of this.specs) {
      const held = this.values[spec.option];
      if (held === undefined) continue;
      given[spec.option] = spec.kind === 'lines'
        ? held.split('\n').map((line) => line.trim()).filter((line) => line !== '') : held;
    }
    return given;
  }

  /// Where faults of these options are told; a field that is folded away is unfolded for it.
  places() {
    return [...this.elements].map(([option, element]) => [option, (lines) => {
      tellAt(element, lines.join(' '));
      if (lines.length === 0) return;
      element.hidden = false;
      const folded = element.closest('details');
      if (folded) folded.open = true;
    }]);
  }
}
