// Files of a sheet: chosen, dropped or pasted. What is wrong with them stands below them.
import { h, button, field } from '/dom.js';
import { upload } from '/api.js';

const kMostText = 300000; // longer files are not shown as text

/// The name of a file as sheets take it.
export function safeName(name) {
  const safe = name.normalize('NFKD').replace(/[^A-Za-z0-9 ._-]/g, '').replace(/^[.\- ]+/, '').slice(-100);
  return safe === '' || safe === 'sheet.json' || safe === 'page.html' ? `file ${safe}` : safe;
}

/// The text of a file of the sheet; nothing where it is long, or no UTF-8.
export async function textOf(sheet, name) {
  const response = await fetch(sheet.file(name), { headers: { 'X-Cospot-Desk': '1' } });
  const bytes = response.ok ? await response.arrayBuffer() : null;
  if (!bytes || bytes.byteLength > kMostText) return null;
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return text.includes('\0') ? null : text;
  } catch {
    return null;
  }
}

/// `names` (a list that is kept in what was entered) are the files of this entry; `taken()` are names
/// that other entries of the sheet use. `changed()` is called when the files are others.
export class FileEntry {
  constructor({ sheet, label, names, pastedName, changed, several = false, taken = () => [] }) {
    Object.assign(this, { sheet, names, pastedName, changed, several, taken });
    this.found = new Map();
    this.faults = h('div', { class: 'file-faults', role: 'alert' });
    this.list = h('ul', { class: 'files' });
    this.input = h('input', { type: 'file', multiple: several, onchange: () => this.take([...this.input.files]) });
    this.text = h('textarea', { rows: 7, cols: 44, spellcheck: false, 'aria-label': `${label}: text`,
      onchange: () => this.takeText(), onpaste: () => setTimeout(() => this.takeText()) });
    this.pasted = h('details', { class: 'pasted-text', ontoggle: () => this.pasted.open && this.showText() },
      h('summary', {}, 'as text: paste, type or correct'), this.text);
    this.element = h('div', { class: 'drop file-entry',
      ondragover: (event) => event.preventDefault(),
      ondrop: (event) => {
        event.preventDefault();
        this.take([...event.dataTransfer.files]);
      } },
    field(label, this.input, several ? 'Choose files, or drop them here.' : 'Choose a file, or drop it here.'),
    this.list, this.pasted, this.faults);
    this.show();
  }

  show() {
    this.list.replaceChildren(...this.names.map((name) => h('li', {}, h('b', {}, name), ' ',
      this.several ? button('as text', () => { this.shown = name; this.pasted.open = true; this.showText(); }, { 'aria-label': `${name} as text` }) : null, ' ',
      button('take away', () => this.drop(name), { 'aria-label': `take away ${name}` }))));
  }

  drop(name) {
    this.names.splice(this.names.indexOf(name), 1);
    this.tellOf(name, []);
    if (this.shown === name) this.shown = null;
    this.text.value = '';
    this.input.value = '';
    this.show();
    this.changed();
  }

  /// A name that no other entry of the sheet has.
  free(name) {
    const others = this.taken();
    const [, stem, ending] = name.match(/^(.*?)(\.[^.]*)?$/);
    let candidate = name;
    for (let number = 2; others.includes(candidate); number += 1) candidate = `${stem} ${number}${ending ?? ''}`;
    return candidate;
  }

  async put(name, content) {
    try {
      await upload(this.sheet.file(name), content);
    } catch (error) {
      this.tell([error.message]);
      return false;
    }
    if (!this.several) this.names.length = 0;
    if (!this.names.includes(name)) this.names.push(name);
    return true;
  }

  async take(files) {
    this.found.clear();
    this.tell([]);
    for (const file of this.several ? files : files.slice(0, 1)) {
      const name = this.free(safeName(file.name));
      if (await this.put(name, file)) this.shown = name;
    }
    this.show();
    if (this.pasted.open) await this.showText();
    this.changed();
  }

  async showText() {
    const name = this.several ? this.shown : this.names[0];
    if (!name || !this.names.includes(name)) return;
    const text = await textOf(this.sheet, name);
    this.text.disabled = text === null;
    this.text.value = text ?? 'This file is too long to be shown, or no plain text.';
  }

  async takeText() {
    const text = this.text.value;
    if (text.trim() === '') return;
    const held = this.several ? this.shown : this.names[0];
    const name = held ?? this.free(this.several ? `${this.pastedName} ${this.names.length + 1}.csv` : `${this.pastedName}.csv`);
    if (!await this.put(name, text)) return;
    this.shown = name;
    this.show();
    this.changed();
  }

  /// What is wrong, and the lines of the text that it is about.
  async tell(lines) {
    const telling = Symbol('newest');
    this.telling = telling;
    this.element.classList.toggle('with-faults', lines.length > 0);
    this.faults.replaceChildren(...lines.map((line) => h('p', { class: 'fault' }, line)));
    for (const name of this.names) {
      const numbers = new Set(lines.filter((line) => line.startsWith(`${name}:`)).map((line) => parseInt(line.slice(name.length + 1), 10)).filter((line) => line > 0));
      const rows = numbers.size > 0 ? (await textOf(this.sheet, name))?.split(/\r?\n/) : null;
      if (this.telling !== telling) return;
      if (rows) this.faults.append(h('pre', { class: 'faulty-rows' }, [...numbers].slice(0, 12).map((line) => `${line}  ${(rows[line - 1] ?? '').slice(0, 200)}`).join('\n')));
    }
  }

  /// Told of one file, or of what stands for it.
  tellOf(what, lines) {
    this.found.set(what, lines);
    this.tell([...this.found.values()].flat());
  }

  /// Where faults of these files are told.
  places() {
    return this.names.map((name) => [name, (lines) => this.tellOf(name, lines)]);
  }
}
