// Purity: is a sample what it is declared to be, what else is in it, and by which rule is that in order?
import { h, field, settled } from '/dom.js';
import { ask, isDone, refusal } from '/answer.js';
import { sheetFrame } from '/sheet.js';
import { compoundInput } from '/compound_field.js';
import { tellAt } from '/placed_faults.js';
import { FileEntry } from '/file_entry.js';
import { Method } from '/method.js';
import { OptionFields } from '/option_fields.js';

const others = [
  { option: 'expected', label: 'impurities that may be in it', kind: 'lines', hint: 'A name a line.' },
  { option: 'confirmed', label: 'confirmed in these samples', kind: 'lines', hint: 'By a reference standard or an independent method; a name a line. The report records that you stated it.' },
];
const limits = [
  { option: 'dose-mg-per-day', label: 'highest daily dose, mg', kind: 'number' },
  { option: 'for', label: 'guideline', kind: [['', 'impurities of new substances, ICH Q3A(R2)'], ['product', 'degradation in products, ICH Q3B(R2)']] },
  { option: 'residual-solvents', label: 'residual solvents instead, ICH Q3C (peaks with ppm)', kind: 'flag' },
];
const detection = [
  { option: 'detector', label: 'detector', kind: [['', 'not said'], ['uv', 'ultraviolet'], ['fid', 'flame ionisation'], ['tcd', 'thermal conductivity'],
    ['ecd', 'electron capture'], ['npd', 'nitrogen-phosphorus'], ['fpd', 'flame photometric'], ['ms-scan', 'mass spectrometer, full scan'], ['ms-sim', 'mass spectrometer, selected ions']] },
  { option: 'detection-limit-percent', label: 'detection limit, % of the area', kind: 'number' },
  { option: 'detection-limit-ppm', label: 'detection limit, ppm', kind: 'number' },
  { option: 'sample', label: 'only this sample of the file', kind: 'text' },
];
const blankFields = [{ option: 'blank-hold-up', label: 'its hold-up time, min', kind: 'number' }];

class PuritySheet {
  constructor(view, sheet) {
    this.sheet = sheet;
    sheet.data.entered = { system: '', files: [], rules: [], blank: [], blankLadder: [], declared: '', judged: {}, ...sheet.entered };
    this.entered = sheet.data.entered;
    const { entered } = this;
    const changed = () => this.changed();
    const { frame, work } = sheetFrame(sheet, () => this.keptCall());
    const all = () => [entered.files, entered.rules, entered.blank, entered.blankLadder, entered.ladder?.names ?? []];
    const entry = (names, label, pastedName, several = false) => new FileEntry({ sheet, label, names, pastedName, several, changed,
      taken: () => all().filter((one) => one !== names).flat() });
    this.files = entry(entered.files, 'The batches: traces or tables of peaks', 'batch', true);
    this.rules = entry(entered.rules, 'Rules of your own (JSON)', 'rules');
    this.blank = entry(entered.blank, 'What a blank shows on the same system', 'blank');
    this.blankLadder = entry(entered.blankLadder, 'The ladder run with the blank', 'blank ladder');
    this.method = new Method({ sheet, entered, changed, tables: () => entered.files });
    this.groups = [others, limits, detection, blankFields].map((specs) => new OptionFields(specs, entered.judged, changed));
    const [named, limited, seen, blanks] = this.groups.map((group) => h('div', { class: 'given from-top' }, ...group.elements.values()));
    this.declared = this.declaredField();
    this.notes = h('div', { class: 'notes-of-run' });
    this.printed = h('section', { class: 'as-printed', 'aria-label': 'the verdict, as it will print' });
    const part = (summary, isOpen, ...inside) => h('details', { class: 'part', open: isOpen }, h('summary', {}, summary), ...inside);
    const isSet = (specs) => specs.some(({ option }) => entered.judged[option] !== undefined);
    named.prepend(this.declared);
    work.append(h('div', { class: 'entries' }, this.files.element, this.method.ladder.element), this.method.element, named,
      part('Limits: a guideline or rules of your own', isSet(limits) || entered.rules.length > 0, limited, this.rules.element),
      part('Detector and detection limit', isSet(detection), seen),
      part('Blank', entered.blank.length > 0, h('div', { class: 'entries' }, this.blank.element, this.blankLadder.element), blanks),
      this.notes, this.printed);
    view.replaceChildren(frame);
    this.answerSoon = settled(() => this.answer(), 60);
    this.answerSoon();
  }

  declaredField() {
    const { input, proposed } = compoundInput({ value: this.entered.declared, size: '24', required: true,
      onchange: () => { this.entered.declared = input.value.trim(); this.changed(); } });
    const element = field('declared to be', input);
    element.append(proposed);
    return element;
  }

  changed() {
    this.sheet.changed();
    this.answerSoon();
  }

  call() {
    const { entered } = this;
    if (entered.files.length === 0 || entered.declared === '' || !entered.system) return null;
    const { options, files } = this.method.call();
    const named = { rules: entered.rules[0], blank: entered.blank[0], 'blank-ladder': entered.blankLadder[0] };
    return { verb: 'purity', arguments: entered.files, files,
      options: { ...options, ...Object.assign({}, ...this.groups.map((group) => group.options())),
        ...Object.fromEntries(Object.entries(named).filter(([, name]) => name)), declared: entered.declared } };
  }

  /// The page to sign has a sheet for each sample.
  keptCall() {
    const call = this.call();
    return call && { ...call, options: { ...call.options, sheets: true } };
  }

  missing() {
    if (this.entered.files.length === 0) return 'Choose, drop or paste the batches.';
    if (!this.entered.system) return 'Choose the system on which they were run.';
    return 'Say what the samples are declared to be.';
  }

  async answer() {
    const call = this.call();
    if (!call) {
      this.tell('');
      this.notes.replaceChildren(h('p', { class: 'faint' }, this.missing()));
      this.printed.replaceChildren();
      return;
    }
    const answer = await ask(this.printed, call, { sheet: this.sheet.id, slot: 'printed' });
    if (!answer) return;
    this.tell(isDone(answer) ? '' : answer.messages);
    if (!isDone(answer)) this.printed.replaceChildren();
  }

  /// Faults stand at their fields and files; what has no place of its own stands below.
  tell(messages) {
    const own = [this.files, this.rules, this.blank, this.blankLadder];
    const rest = this.method.tell(messages, {
      files: own.flatMap((entry) => entry.places()),
      options: [...this.groups.flatMap((group) => group.places()), ['declared', (lines) => tellAt(this.declared, lines.join(' '))],
        ...[['rules', this.rules], ['blank', this.blank], ['blank-ladder', this.blankLadder]].map(([option, entry]) => [option, (lines) => entry.tellOf('', lines)])] });
    this.notes.replaceChildren(...(rest.length > 0 ? [refusal(rest.join('\n'))] : []));
  }
}

export function showPurity(view, sheet) {
  const work = new PuritySheet(view, sheet);
  return () => work.sheet.isDirty && work.sheet.save();
}
