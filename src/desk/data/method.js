// How a run was made and is read: its system, its ladder, its hold-up time, and the settings for traces.
import { h, button } from '/dom.js';
import { systemChooser } from '/systems.js';
import { ColumnWords } from '/column_words.js';
import { Ladder } from '/ladder.js';
import { OptionFields } from '/option_fields.js';
import { placeFaults } from '/placed_faults.js';

const runFields = [
  { option: 'hold-up', label: 'hold-up time, min', kind: 'number', placeholder: 'as found' },
];
const moreFields = [
  { option: 'reference-peak', label: 'peak of the reference compound', kind: 'text', hint: 'Where the system names one: number or name of its peak.' },
  { option: 'time-error-min', label: 'error of a time, min', kind: 'number', placeholder: '0.005' },
  { option: 'ladder-gaps', label: 'members of the ladder may be missing', kind: 'flag' },
  { option: 'extrapolate', label: 'indices outside the ladder, too', kind: 'flag' },
];
const traceFields = [
  { option: 'overlaps', label: 'areas of overlapping peaks', kind: [['', 'parted by a perpendicular'], ['skim', 'riders by a tangent'], ['fit', 'fitted tailing Gaussians']] },
  { option: 'peak-threshold', label: 'least height of a peak, standard deviations of the noise', kind: 'number', placeholder: '4.5' },
  { option: 'narrowest-half-width', label: 'narrowest half width, min', kind: 'number', placeholder: 'as found' },
  { option: 'baseline-period', label: 'waves of the baseline, min', kind: 'number', placeholder: 'as found' },
  { option: 'smoothing-period', label: 'waves of the noise, min', kind: 'number', placeholder: 'as found' },
  { option: 'no-shoulders', label: 'only peaks with a maximum of their own', kind: 'flag' },
  { option: 'stored-peaks', label: 'the peaks of the table in the file itself', kind: 'flag' },
];
/// Shown once the program asks for them.
const askedFields = [
  { option: 'time-unit', label: 'unit of the times', kind: [['', 'choose'], ['s', 'seconds'], ['min', 'minutes']] },
  { option: 'trace', label: 'which trace of the file, name or number', kind: 'text' },
];

const grouped = (summary, fields) => h('details', {}, h('summary', {}, summary), h('div', { class: 'given from-top' }, ...fields.elements.values()));

export class Method {
  constructor({ sheet, entered, changed, tables }) {
    entered.method ??= {};
    entered.ladder ??= {};
    entered.words ??= {};
    this.entered = entered;
    const values = entered.method;
    this.asked = new OptionFields(askedFields, values, changed);
    for (const [option, element] of this.asked.elements) element.hidden = values[option] === undefined;
    this.traces = h('span', { class: 'change-buttons' });
    this.run = new OptionFields(runFields, values, changed);
    this.more = new OptionFields(moreFields, values, changed);
    this.reading = new OptionFields(traceFields, values, changed);
    this.ladder = new Ladder({ sheet, held: entered.ladder, changed, taken: () => tables() });
    this.words = new ColumnWords({ sheet, held: entered.words, files: tables, changed });
    const system = h('div', {});
    systemChooser(system, { sheet, planar: false, chosen: entered.system, onchange: (name) => { entered.system = name; changed(); } });
    this.element = h('div', { class: 'method' },
      h('div', { class: 'given from-top' }, system, ...this.run.elements.values(), ...this.asked.elements.values(), this.traces),
      h('div', { class: 'folded' }, grouped('more of the run', this.more), this.readingGroup = grouped('how a trace is read', this.reading)),
      this.words.element);
  }

  /// The options that `peaks` takes as well.
  readingOptions() { return { ...this.asked.options(), ...this.reading.options() }; }

  /// Options and texts of a call that compares with the library.
  call() {
    const ladder = this.ladder.call();
    return { options: { system: this.entered.system, ...this.run.options(), ...this.more.options(), ...this.readingOptions(), ...this.words.options(), ...ladder.options },
      files: ladder.files };
  }

  /// The traces that the program named are one press away.
  offerTraces(messages) {
    const listed = /trace/.test(messages) ? [...messages.matchAll(/(\d+) "([^"]*)"([^,;]*)/g)] : [];
    const take = (number) => this.asked.take('trace', number);
    this.traces.replaceChildren(...listed.map(([, number, name, kind]) => button(`${name}${kind}`, () => take(number))));
  }

  /// Tells faults at their places, with those of the view's own; returns the lines that have none.
  tell(messages, { options = [], files = [] } = {}) {
    this.offerTraces(messages);
    const groups = [this.asked, this.run, this.more, this.reading, this.words];
    return placeFaults(messages, {
      options: new Map([...groups.flatMap((group) => group.places()), ...this.ladder.optionPlaces(), ...options]),
      files: new Map([...files, ...this.ladder.filePlaces()]) });
  }
}
