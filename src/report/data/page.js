// Without this script the page is complete; it adds sorting, and ties pictures to tables.
'use strict';

const keyed = [...document.querySelectorAll('main [data-key]')];

const scope = (element) => element.closest('[data-scope]');

function light(origin, isLit) {
  for (const element of keyed) {
    if (element.dataset.key === origin.dataset.key && scope(element) === scope(origin)) {
      element.classList.toggle('lit', isLit);
    }
  }
}

// Each row and each mark of a picture that bear the same key light up together, within one sample
// where the page has several.
for (const element of keyed) {
  for (const begin of ['mouseenter', 'focusin']) element.addEventListener(begin, () => light(element, true));
  for (const end of ['mouseleave', 'focusout']) element.addEventListener(end, () => light(element, false));
}

// The marks of a picture are one stop of the tabulator key; the arrow keys go from mark to mark.
for (const picture of document.querySelectorAll('main svg')) {
  const marks = [...picture.querySelectorAll('.mark')];
  if (marks.length === 0) continue;
  picture.setAttribute('role', 'group');
  marks.forEach((mark, i) => {
    mark.setAttribute('role', 'img');
    mark.setAttribute('aria-label', mark.querySelector('title').textContent);
    mark.setAttribute('tabindex', i === 0 ? '0' : '-1');
    mark.addEventListener('keydown', (event) => {
      const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
      const next = step && marks[i + step];
      if (!next) return;
      event.preventDefault();
      mark.setAttribute('tabindex', '-1');
      next.setAttribute('tabindex', '0');
      next.focus();
    });
  });
}

function value(row, column) {
  const cell = row.cells[column];
  return 'value' in cell.dataset ? Number(cell.dataset.value) : cell.textContent;
}

function compare(a, b) {
  return typeof a === 'number' && typeof b === 'number'
    ? a - b : String(a).localeCompare(String(b), 'en', { numeric: true });
}

for (const table of document.querySelectorAll('table.sortable')) {
  const headings = [...table.tHead.rows[0].cells];
  headings.forEach((heading, column) => {
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = heading.textContent;
    heading.replaceChildren(button);
    button.addEventListener('click', () => {
      const sign = heading.getAttribute('aria-sort') === 'ascending' ? -1 : 1;
      headings.forEach((other) => other.removeAttribute('aria-sort'));
      heading.setAttribute('aria-sort', sign === 1 ? 'ascending' : 'descending');
      const body = table.tBodies[0];
      const rows = [...body.rows];
      rows.sort((a, b) => sign * compare(value(a, column), value(b, column)));
      body.append(...rows);
    });
  });
}
