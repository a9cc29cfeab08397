// A compound added by name and structure: a SMILES typed, or a file of structures dropped.
import { h, button, field, settled } from '/dom.js';
import { get, upload } from '/api.js';
import { ask, isDone, refusal } from '/answer.js';
import { Sheet } from '/sheet.js';
import { csv } from '/systems.js';
import { compoundLink } from '/library_words.js';
import { StructurePreview, drawnFile, heldCompound } from '/structure_preview.js';

const kTitle = 'Compounds added by hand'; // the sheet that keeps what is entered here
const kStructures = /\.(sdf|sd|mol|smi|csv|tsv)$/i;

async function findSheet() {
  const sheets = await get(`/api/sheets?words=${encodeURIComponent(kTitle)}`);
  const held = sheets.find((one) => one.kind === 'table' && one.title === kTitle);
  return held ? Sheet.load(held.id) : null;
}

/// A molfile as the only record of an SDF; `name` where it has none.
export function asSdf(molfile, name) {
  const lines = molfile.replaceAll('\r\n', '\n').split('\n');
  if (lines[0].trim() === '') lines[0] = name;
  const text = lines.join('\n').trimEnd();
  return text.endsWith('$$$$') ? `${text}\n` : `${text}\n$$$$\n`;
}

/// A name that a sheet takes for a file.
function fileName(name) {
  const plain = name.replace(/\.(mol|sd)$/i, '.sdf').replaceAll(/[^A-Za-z0-9 _.-]/g, '-').replace(/^[-. ]+/, '');
  return plain.slice(-100) || 'structures.sdf';
}

class CompoundForm {
  constructor(added) {
    this.added = added;
    this.draft = { name: '', smiles: '', cas: '', synonyms: '' };
    this.preview = new StructurePreview();
    this.outcome = h('div', {});
    this.drawn = h('div', { class: 'drawn-file' });
    this.trouble = h('p', { class: 'trouble', role: 'alert' });
    this.nameHeld = h('small', { class: 'fault' });
    this.checkName = settled(() => this.lookUpName(), 250);
    this.inputs = Object.fromEntries([['name', '22'], ['smiles', '30'], ['cas', '12'], ['synonyms', '22']].map(([key, size]) =>
      [key, h('input', { size, autocomplete: 'off', spellcheck: 'false', 'data-entered': key, oninput: () => this.enter(key) })]));
    const file = h('input', { type: 'file', accept: '.sdf,.sd,.mol,.smi,.csv,.tsv', onchange: () => this.take(file.files[0]) });
    this.inputs.smiles.addEventListener('paste', (event) => this.paste(event));
    const form = h('form', { class: 'adding', onsubmit: (event) => { event.preventDefault(); this.add(); } },
      h('div', { class: 'entry-of-compound' },
        h('div', { class: 'given' }, h('div', {}, field('name', this.inputs.name), this.nameHeld),
          h('div', {}, field('structure (SMILES)', this.inputs.smiles), this.preview.fault),
          field('registry number, if known', this.inputs.cas), field('further names, parted by |', this.inputs.synonyms),
          h('button', { type: 'submit', class: 'main' }, 'add to the library')),
        this.preview.place),
      h('div', { class: 'drop' }, field('or a molfile, an SDF or a table of structures', file, 'drop it here, or paste a molfile as the structure')));
    form.addEventListener('dragover', (event) => event.preventDefault());
    form.addEventListener('drop', (event) => {
      event.preventDefault();
      if (event.dataTransfer.files.length) this.take(event.dataTransfer.files[0]);
    });
    this.element = h('details', { class: 'add-compound', ontoggle: () => this.element.open && this.begin() },
      h('summary', {}, 'Add a compound'), form, this.trouble, this.drawn, this.outcome);
    findSheet().then((sheet) => this.resume(sheet), () => {});
  }

  /// Goes on with what was entered before.
  resume(sheet) {
    if (!sheet || this.sheet) return;
    this.watch(sheet);
    if (Object.values(this.draft).some((text) => text !== '')) return; // typed meanwhile
    Object.assign(this.draft, sheet.entered.compound);
    for (const [key, input] of Object.entries(this.inputs)) input.value = this.draft[key];
    if (this.draft.name || this.draft.smiles) this.element.open = true;
    this.preview.draw(this.draft.smiles);
  }

  watch(sheet) {
    this.sheet = sheet;
    sheet.problem = (text) => { this.trouble.textContent = text; };
  }

  begin() {
    if (document.activeElement === this.element.querySelector('summary')) this.inputs.name.focus();
  }

  async openSheet() {
    this.opening ??= (async () => { if (!this.sheet) this.watch(await findSheet() ?? await Sheet.create('table', kTitle)); })();
    await this.opening;
    return this.sheet;
  }

  async enter(key) {
    this.draft[key] = this.inputs[key].value;
    if (key === 'smiles') this.preview.draw(this.draft.smiles);
    if (key === 'name') {
      this.nameHeld.replaceChildren();
      this.checkName();
    }
    const sheet = await this.openSheet();
    sheet.entered.compound = { ...this.draft };
    sheet.changed();
  }

  async lookUpName() {
    const name = this.draft.name.trim();
    const held = name && await heldCompound(name, 'name-held');
    this.nameHeld.replaceChildren(...(held ? ['The library holds this name: ', compoundLink(held.compound)] : []));
  }

  async add() {
    const row = ['name', 'smiles', 'cas', 'synonyms'].map((key) => this.draft[key].trim());
    const missing = this.inputs[row[0] === '' ? 'name' : 'smiles'];
    for (const input of Object.values(this.inputs)) input.classList.toggle('faulty', input === missing && missing.value.trim() === '');
    if (row[0] === '' || row[1] === '') {
      this.outcome.replaceChildren(refusal('A compound needs a name and a structure.'));
      missing.focus();
      return;
    }
    if (await this.learn('compound.csv', { 'compound.csv': csv(['compound', 'smiles', 'cas', 'synonyms'], [row]) })) {
      this.outcome.prepend(h('p', {}, 'Added: ', compoundLink(row[0])));
      for (const [key, input] of Object.entries(this.inputs)) { input.value = ''; this.draft[key] = ''; }
      await this.enter('smiles');
      this.nameHeld.replaceChildren();
      this.inputs.name.focus();
    }
  }

  async learn(file, files, options = {}) {
    const sheet = await this.openSheet();
    const answer = await ask(this.outcome, { verb: 'learn', arguments: [file], options, files }, { sheet: sheet.id, slot: 'learn' });
    const done = Boolean(answer) && isDone(answer);
    if (done && !options['dry-run']) this.added();
    return done;
  }

  paste(event) {
    const text = event.clipboardData.getData('text');
    if (!/^M {2}END/m.test(text)) return;
    event.preventDefault();
    this.takeText('pasted.sdf', asSdf(text, this.draft.name.trim() || 'pasted structure'));
  }

  async take(file) {
    if (!file) return;
    if (!kStructures.test(file.name)) {
      this.outcome.replaceChildren(refusal(`${file.name}: found a file of another kind; expected .mol, .sdf, .smi or a table (.csv) with the columns compound, smiles`));
      return;
    }
    const isMolfile = /\.mol$/i.test(file.name);
    const name = this.draft.name.trim() || file.name.replace(/\.[^.]*$/, '');
    await this.takeText(fileName(file.name), isMolfile ? asSdf(await file.text(), name) : file);
  }

  /// Says what a file would add; it is added when that is what was meant.
  async takeText(name, content) {
    const sheet = await this.openSheet();
    await upload(sheet.file(name), content);
    sheet.entered.file = name;
    sheet.changed();
    this.drawn.replaceChildren();
    const [isGood, structures] = await Promise.all([this.learn(name, undefined, { 'dry-run': true }), /\.sdf$/i.test(name) ? drawnFile(content, sheet) : []]);
    this.drawn.replaceChildren(...structures);
    if (!isGood) return;
    const yes = button(`add what ${name} holds to the library`, () => { this.drawn.replaceChildren(); this.learn(name); }, { class: 'main' });
    this.outcome.append(h('p', {}, yes));
    yes.focus();
  }
}

/// The form for a new compound; `added` is called when the library holds more.
export function addCompound(added) {
  const form = new CompoundForm(added);
  return { element: form.element, leave: () => form.sheet?.isDirty && form.sheet.save() };
}
