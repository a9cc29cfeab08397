// Peaks changed by hand: each change with its reason, listed, and undone one by one.
import { h, button, choice, field, number, say } from '/dom.js';
import { refusal } from '/answer.js';
import { compoundInput } from '/compound_field.js';
import { tellAt } from '/placed_faults.js';

/// Finer than traces are recorded.
const rounded = (value) => Number(value.toFixed(4));
const minutes = (value) => `${rounded(value)} min`;

const inWords = {
  add: ({ at }) => `peak added at ${minutes(at)}`,
  drop: ({ at }) => `peak at ${minutes(at)} dropped`,
  split: ({ at }) => `peak split at ${minutes(at)}`,
  move: ({ at, to }) => `border at ${minutes(at)} moved to ${minutes(to)}`,
  name: ({ at, name }) => `peak at ${minutes(at)} named ${name}`,
};

const wanted = {
  add: ({ at }) => `Add a peak at ${minutes(at)}.`,
  drop: ({ at }) => `Drop the peak at ${minutes(at)}.`,
  split: ({ at }) => `Split the peak at ${minutes(at)}.`,
  move: ({ at, to }, isChoosing) => (isChoosing ? `Move a border to ${minutes(to)}.` : `Move the border at ${minutes(at)} to ${minutes(to)}.`),
  name: ({ at }) => `Name the peak at ${minutes(at)}.`,
};

/// The options of these changes.
export function changeOptions(changes) {
  const of = (kind, text) => changes.filter((one) => one.kind === kind).map(text);
  const given = { 'add-peak': of('add', ({ at }) => String(at)), 'drop-peak': of('drop', ({ at }) => String(at)),
    'split-peak': of('split', ({ at }) => String(at)), 'move-border': of('move', ({ at, to }) => `${at}:${to}`),
    'peak-name': of('name', ({ at, name }) => `${at}=${name}`) };
  const used = Object.entries(given).filter(([, values]) => values.length > 0);
  if (used.length === 0) return {};
  // One text for all: each with the time that it is about, where there are several.
  const reason = changes.length === 1 ? changes[0].reason : changes.map((one) => `at ${minutes(one.at)}: ${one.reason}`).join('; ');
  return { ...Object.fromEntries(used), reason };
}

/// The peak whose borders hold this time.
export const peakAt = (peaks, at) => peaks.filter((one) => at >= one.start && at <= one.end)
  .sort((a, b) => Math.abs(a.tR - at) - Math.abs(b.tR - at))[0];

/// `changes` is kept by the sheet. `tried(changes)` says what the program answers to them: '' where they can
/// be made, else the refusal. `on.time(minutes)` hears which time is typed, `on.changed()` of each change.
export class PeakChanges {
  constructor(changes, { tried, time, changed }) {
    Object.assign(this, { changes, tried, timed: time, changed });
    this.peaks = [];
    this.at = NaN;
    this.time = h('input', { size: '8', inputmode: 'decimal', onchange: () => this.typed() });
    this.timeField = field('time, min', this.time);
    this.buttons = h('div', { class: 'change-buttons' });
    this.form = h('div', {});
    this.list = h('ol', { class: 'changes' });
    this.element = h('section', { class: 'changes-by-hand', 'aria-label': 'changes by hand' },
      h('div', { class: 'given' }, this.timeField, this.buttons), this.form, this.list);
    this.offer();
    this.show();
  }

  typed() {
    const at = number(this.time.value);
    const isTime = at >= 0;
    tellAt(this.timeField, isTime || this.time.value.trim() === '' ? '' : `found “${this.time.value}”; expected a time in min`);
    this.setTime(isTime ? at : NaN, { isTyped: true });
    this.timed(this.at);
  }

  /// A place of the trace is meant.
  setTime(at, { isTyped = false } = {}) {
    this.at = at;
    if (!isTyped) {
      this.time.value = Number.isFinite(at) ? String(rounded(at)) : '';
      tellAt(this.timeField, '');
    }
    this.form.replaceChildren();
    this.offer();
  }

  setPeaks(peaks) {
    this.peaks = peaks;
    this.offer();
  }

  /// What can be done at this time.
  offer() {
    const { at } = this;
    const peak = Number.isFinite(at) ? peakAt(this.peaks, at) : null;
    const none = !Number.isFinite(at);
    const name = peak ? `peak ${peak.peak}` : 'a peak';
    this.buttons.replaceChildren(
      button(peak ? 'add another peak here' : 'add a peak here', () => this.ask({ kind: 'add', at }), { disabled: none }),
      button(`drop ${name}`, () => this.ask({ kind: 'drop', at: rounded(peak.tR) }), { disabled: !peak }),
      button(`split ${name} here`, () => this.ask({ kind: 'split', at }), { disabled: !peak }),
      button('move a border here', () => this.askBorder(at), { disabled: none || this.peaks.length === 0 }),
      button(`name ${name}`, () => this.ask({ kind: 'name', at: rounded(peak.tR) }), { disabled: !peak }));
  }

  /// Which border moves: one of the nearest.
  askBorder(at) {
    const borders = this.peaks.flatMap((peak) => [[peak.start, `start of peak ${peak.peak}`], [peak.end, `end of peak ${peak.peak}`]])
      .sort((a, b) => Math.abs(a[0] - at) - Math.abs(b[0] - at)).slice(0, 6);
    const change = { kind: 'move', at: borders[0][0], to: at };
    this.ask(change, field('border', choice(borders.map(([where, words]) => [String(where), `${words}, ${minutes(where)}`]), String(borders[0][0]),
      (where) => { change.at = Number(where); })));
  }

  /// A change is made once its reason is given.
  ask(change, choosing = null) {
    const words = wanted[change.kind](change, choosing);
    const reason = h('input', { required: true, size: '34' });
    const named = change.kind === 'name' ? compoundInput({ required: true, size: '24' }) : null;
    const outcome = h('div', {});
    const submit = async (event) => {
      event.preventDefault();
      const made = { ...change, reason: reason.value.trim(), ...(named ? { name: named.input.value.trim() } : {}) };
      if (made.reason === '' || this.isTrying) return;
      this.isTrying = true; // a second press of Enter asks for nothing more
      const trouble = await this.tried([...this.changes, made]).finally(() => { this.isTrying = false; });
      if (trouble) outcome.replaceChildren(refusal(trouble));
      else this.make(made);
    };
    this.form.replaceChildren(h('form', { class: 'small-form', onsubmit: submit }, h('p', {}, words), choosing,
      named ? [field('compound', named.input), named.proposed] : null, field('reason', reason),
      h('p', {}, h('button', { type: 'submit', class: 'main' }, 'change'), ' ', button('leave as it is', () => { this.form.replaceChildren(); this.changed({ isRedrawn: true }); })), outcome));
    (choosing?.querySelector('select') ?? named?.input ?? reason).focus();
  }

  /// Other changes, as those of another trace.
  replace(changes) {
    this.changes.splice(0, this.changes.length, ...changes);
    this.show();
  }

  make(change) {
    this.changes.push(change);
    this.form.replaceChildren();
    this.show();
    say(`Done: ${inWords[change.kind](change)}.`);
    this.changed();
    this.time.focus({ preventScroll: true });
  }

  undo(change) {
    this.changes.splice(this.changes.indexOf(change), 1);
    this.show();
    say(`Undone: ${inWords[change.kind](change)}.`);
    this.changed();
  }

  show() {
    this.list.hidden = this.changes.length === 0;
    this.list.replaceChildren(...this.changes.map((change) => h('li', {}, inWords[change.kind](change), ': ', h('i', {}, change.reason), ' ',
      button('undo', () => this.undo(change), { 'aria-label': `undo: ${inWords[change.kind](change)}` }))));
  }
}
