// A sheet: what was entered, kept by the program as it is typed, and the frame around it.
import { h, button, field, say, settled } from '/dom.js';
import { about, get, post, put, remove, Refused } from '/api.js';
import { ask, refusal } from '/answer.js';

export const kinds = {
  plate: 'A plate', run: 'A run', many: 'Many at once', purity: 'Purity', table: 'A table', column: 'A column',
};

export class Sheet {
  constructor(data) {
    this.data = data;
    this.data.entered ??= {};
    this.problem = null; // called with a text where saving fails
    this.saving = null;
    this.store = settled(() => this.save(), 300);
  }

  static async load(id) {
    return new Sheet(await get(`/api/sheets/${id}`));
  }

  static async create(kind, title, entered = {}) {
    return new Sheet(await post('/api/sheets', { kind, title, state: 'open', entered }));
  }

  get id() { return this.data.id; }
  get entered() { return this.data.entered; }
  file(name) { return `/api/sheets/${this.id}/files/${encodeURIComponent(name)}`; }

  /// Something was entered: it is stored as soon as the hand rests.
  changed() {
    this.isDirty = true;
    if (this.data.state === 'kept') this.data.state = 'changed since it was kept';
    this.store();
  }

  async save() {
    if (this.saving) {
      await this.saving;
      return this.isDirty ? this.save() : undefined;
    }
    this.saving = this.put();
    try { await this.saving; } finally { this.saving = null; }
    return undefined;
  }

  async put() {
    this.isDirty = false;
    try {
      const { revision } = await put(`/api/sheets/${this.id}?revision=${this.data.revision}`, this.data);
      this.data.revision = revision;
      this.problem?.('');
    } catch (error) {
      this.isDirty = true;
      this.problem?.(error instanceof Refused && error.status === 409
        ? 'Another page changed this sheet meanwhile. Reload to see it; what you entered since is not stored.'
        : error.message);
    }
  }
}

/// The frame of a sheet: title, state and what can be done with it; `call` says which verb makes its
/// printed page, null where there is none. Returns the element, with a place for the work.
export function sheetFrame(sheet, call) {
  const state = h('span', { class: 'state' }, sheet.data.state);
  const trouble = h('p', { class: 'trouble', role: 'alert' });
  sheet.problem = (text) => { trouble.textContent = text; state.textContent = sheet.data.state; };
  const title = h('input', { class: 'title', value: sheet.data.title, 'aria-label': 'title of the sheet',
    oninput: () => { sheet.data.title = title.value; sheet.changed(); } });
  const person = h('input', { value: sheet.data.person ?? '', size: '14',
    oninput: () => { sheet.data.person = person.value; sheet.changed(); } });
  const outcome = h('div', { class: 'outcome' });
  async function keep() {
    const wanted = call();
    if (!wanted) {
      outcome.replaceChildren(refusal('There is nothing to keep yet.'));
      return;
    }
    const answer = await ask(outcome, { ...wanted, form: 'page' }, { sheet: sheet.id, slot: 'page' });
    if (!answer || answer.code > 1) return;
    outcome.replaceChildren();
    sheet.data.state = 'kept';
    sheet.data.kept = new Date().toISOString();
    await sheet.save();
    state.textContent = 'kept';
    say('The sheet is kept.');
    printed.hidden = false;
  }
  async function submit() {
    sheet.data.state = 'submitted';
    await sheet.save();
    if (sheet.data.state !== 'submitted' || sheet.isDirty) return;
    outcome.replaceChildren(h('p', { class: 'verdict', role: 'status' }, 'Submitted. It is changed no more.'));
    state.textContent = 'submitted';
    frame.classList.add('submitted');
  }
  const printed = h('a', { class: 'action', href: `/api/sheets/${sheet.id}/page`, target: '_blank',
    hidden: !sheet.data.kept }, 'print');
  async function putAway() {
    await remove(`/api/sheets/${sheet.id}`);
    location.hash = '#/sheets';
  }
  const work = h('div', { class: 'work' });
  const frame = h('article', { class: 'paper' },
    h('header', { class: 'sheet-head' }, title,
      h('p', { class: 'about' }, h('span', {}, kinds[sheet.data.kind] ?? sheet.data.kind), ' · ',
        h('time', {}, sheet.data.created.slice(0, 10)), ' · ', state),
      h('div', { class: 'actions' }, about.role === 'visitor' ? button('submit', submit, { class: 'main' })
        : [field('by', person), ...(call ? [button('keep', keep), printed] : []), button('put away', putAway)])),
    trouble, outcome, work);
  return { frame, work };
}
