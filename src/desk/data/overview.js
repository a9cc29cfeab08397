// The overview of an answer, a row a lane, run or batch: which of them need a look, what stands behind each.
import { h, button } from '/dom.js';

const kShown = [['all', 'all'], ['look', 'need a look'], ['done', 'done']];

export class Overview {
  /// Arranges the answer of `identify` in `answer`. `seen` holds the keys of the rows that were
  /// looked at; `changed` is called where that changes.
  constructor(answer, { seen, changed }) {
    Object.assign(this, { answer, seen, changed, shown: 'all' });
    const linked = [...answer.querySelectorAll('table.sortable')].filter((table) => table.querySelector('tbody a[href^="#feature-"]'));
    this.tables = linked.filter((table) => !table.querySelector('tbody tr[data-key]'));
    this.features = linked.filter((table) => !this.tables.includes(table)); // a row a spot or peak
    this.rows = this.tables.flatMap((table) => [...table.tBodies[0].rows]).map((row) => this.rowOf(row));
    if (this.rows.length === 0) return;
    this.setApart();
    for (const table of this.tables) this.equip(table);
    this.counts = h('p', { class: 'filters', role: 'group', 'aria-label': 'rows that are shown' });
    this.tables[0].closest('section').before(this.counts);
    this.filter('all');
  }

  rowOf(element) {
    const link = element.querySelector('a[href^="#feature-"]');
    const cells = [...element.cells].map((cell) => cell.textContent.trim());
    const probability = [...element.cells].findLast((cell) => 'value' in cell.dataset)?.dataset.value;
    return { element, link, first: Number(link.hash.slice('#feature-'.length)), key: cells.join(' | '),
      name: link.textContent, place: cells[0], isDoubtful: cells.at(-1) !== '', probability: Number(probability ?? 1) };
  }

  isDone(row) { return !row.isDoubtful || this.seen.includes(row.key); }

  /// What belongs to a row leaves the page until the row is opened.
  setApart() {
    this.details = new Map([...this.answer.querySelectorAll('article[id^="feature-"]')].map((article) =>
      [Number(article.id.slice('feature-'.length)), article]));
    this.pictures = [...this.answer.querySelectorAll('main > .beside, main > figure')].filter((one) => one.querySelector('figure, svg'));
    const sections = new Set([...this.details.values()].map((article) => article.closest('section')));
    for (const part of [...this.pictures, ...this.details.values(), ...sections]) part.remove();
    const gallery = this.answer.querySelector('main .gallery')?.closest('section');
    for (const part of [...this.features.map((table) => table.closest('.wide')), gallery].filter(Boolean)) {
      const folded = h('details', {}, h('summary', {}, part === gallery ? 'Structures of the first candidates' : 'Each spot or peak in one table'));
      part.replaceWith(folded);
      folded.append(part);
    }
    this.answer.addEventListener('click', (event) => this.goTo(event), true);
  }

  equip(table) {
    table.classList.add('overview');
    table.tHead.rows[0].append(h('th', { scope: 'col' }, 'Looked at'));
    // Sorting would part the opened details from their rows.
    table.tHead.addEventListener('click', () => this.close(), true);
    const own = this.rows.filter((row) => row.element.closest('table') === table);
    for (const row of own) {
      const opener = button(row.name, () => this.toggle(row), { 'aria-expanded': 'false', class: 'opener' });
      row.opener = opener;
      row.link.replaceWith(opener);
      row.element.append(h('td', {}, row.isDoubtful ? this.tickOf(row) : ''));
    }
    own.sort((a, b) => Number(b.isDoubtful) - Number(a.isDoubtful) || (a.isDoubtful ? a.probability - b.probability : 0));
    table.tBodies[0].append(...own.map((row) => row.element));
  }

  tickOf(row) {
    const box = h('input', { type: 'checkbox', checked: this.seen.includes(row.key), 'aria-label': `${row.name} was looked at`,
      onchange: () => {
        if (box.checked) this.seen.push(row.key);
        else this.seen.splice(this.seen.indexOf(row.key), 1);
        this.changed();
        this.filter(this.shown);
      } });
    return box;
  }

  filter(shown) {
    this.shown = shown;
    const is = { all: () => true, look: (row) => !this.isDone(row), done: (row) => this.isDone(row) };
    for (const row of this.rows) row.element.hidden = !is[shown](row);
    if (this.opened?.element.hidden) this.close();
    const focused = this.counts.contains(document.activeElement);
    this.counts.replaceChildren(...kShown.map(([name, text]) => button(`${text}: ${this.rows.filter(is[name]).length}`, () => this.filter(name),
      { 'aria-pressed': String(name === shown), class: 'filter' })));
    if (focused) this.counts.querySelector('[aria-pressed="true"]').focus();
  }

  /// What stands behind a row: its picture, and its spots or peaks one by one.
  behind(row) {
    const next = Math.min(...this.rows.map((one) => one.first).filter((first) => first > row.first), Infinity);
    const own = [...this.details].filter(([number]) => number >= row.first && number < next).map(([, article]) => article);
    const keys = own.map((article) => article.id.slice('feature-'.length));
    const pictures = this.pictures.filter((one) => keys.some((key) => one.querySelector(`[data-key="${key}"]`)));
    return [...pictures, ...own];
  }

  /// A link to a spot or peak opens the row that it belongs to.
  goTo(event) {
    const link = event.target.closest('a[href^="#feature-"]');
    if (!link) return;
    const number = Number(link.hash.slice('#feature-'.length));
    const row = this.rows.filter((one) => one.first <= number).sort((a, b) => b.first - a.first)[0];
    if (row.element.hidden) this.filter('all');
    if (this.opened !== row) this.toggle(row);
  }

  close() {
    if (!this.opened) return;
    this.opened.opener.setAttribute('aria-expanded', 'false');
    this.place.remove();
    this.opened = null;
  }

  toggle(row) {
    const isOpen = this.opened === row;
    this.close();
    if (isOpen) return;
    this.opened = row;
    this.place = h('tr', { class: 'behind' }, h('td', { colspan: String(row.element.cells.length) }, h('div', {}, this.behind(row))));
    row.element.after(this.place);
    row.opener.setAttribute('aria-expanded', 'true');
  }
}
