// Without this script the page is complete; it adds sorting, and ties pictures to tables.
'use strict';

function enliven(root) {
  const keyed = [...root.querySelectorAll('[data-key]')];

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
  for (const picture of root.querySelectorAll('svg')) {
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

  // A recorded trace zooms: by buttons, by the keys + - and arrows on them, by the wheel with Ctrl.
  // The trace lies in an inner picture of its own scale; what stands around it is moved along.
  for (const trace of root.querySelectorAll('svg.trace')) {
    const picture = trace.parentElement.closest('svg');
    const frame = picture.closest('figure') ?? picture.parentElement;
    const whole = { x: 0, y: 0, width: trace.viewBox.baseVal.width, height: trace.viewBox.baseVal.height };
    const base = Number(picture.querySelector('line.axis')?.getAttribute('y1') ?? whole.height);
    // `height`: how many times the signal is drawn. A picture may bring along how far it is zoomed.
    let [left, width, height] = (trace.dataset.window ?? `${whole.x} ${whole.width} 1`).split(' ').map(Number);
    const around = [...picture.children].filter((one) => one !== trace && one.tagName !== 'title' && one.tagName !== 'desc');

    function move() {
      left = Math.min(Math.max(left, whole.x), whole.width - width);
      trace.setAttribute('viewBox', `${left} ${base - base / height} ${width} ${whole.height / height}`);
      const scale = whole.width / width;
      for (const one of around) {
        const box = one.getBBox();
        if (box.width > whole.width * 0.8) continue; // the axis of times, which stays
        if (one.matches('line.axis') && box.height === 0) { // that of indices, which ends where the ladder does
          one.setAttribute('transform', `matrix(${scale} 0 0 1 ${-left * scale} 0)`);
          continue;
        }
        const middle = box.x + box.width / 2;
        one.setAttribute('transform', `translate(${(middle - left) * scale - middle} 0)`);
        const seen = middle >= left && middle <= left + width;
        one.style.visibility = seen ? '' : 'hidden';
      }
      // Marks stand above the trace only where its height is as drawn.
      picture.classList.toggle('raised', height > 1);
      trace.dataset.window = `${left} ${width} ${height}`;
      trace.dispatchEvent(new Event('zoomed'));
    }
    if (trace.dataset.window) move();
    function zoom(factor, middle = left + width / 2) {
      const before = width;
      width = Math.min(whole.width, Math.max(whole.width / 500, width / factor));
      left = middle - (middle - left) * width / before;
      move();
    }
    const acts = {
      '+': () => zoom(1.5), '-': () => zoom(1 / 1.5),
      ArrowLeft: () => { left -= width / 5; move(); }, ArrowRight: () => { left += width / 5; move(); },
      ArrowUp: () => { height = Math.min(height * 2, 1024); move(); },
      ArrowDown: () => { height = Math.max(height / 2, 1); move(); },
      0: () => { left = whole.x; width = whole.width; height = 1; move(); },
    };
    const bar = document.createElement('div');
    bar.className = 'zoom';
    bar.setAttribute('role', 'group');
    bar.setAttribute('aria-label', 'zoom of the trace');
    for (const [key, label, name] of [['+', '+', 'shorter time'], ['-', '−', 'longer time'],
      ['ArrowLeft', '←', 'earlier'], ['ArrowRight', '→', 'later'],
      ['ArrowUp', '↑', 'signal higher'], ['ArrowDown', '↓', 'signal lower'], ['0', 'all', 'the whole trace']]) {
      const button = document.createElement('button');
      button.type = 'button';
      button.dataset.label = label; // seen, but no text of the page
      button.setAttribute('aria-label', name);
      button.title = `${name} (key ${key === '0' ? '0' : label})`;
      button.addEventListener('click', acts[key]);
      bar.append(button);
    }
    bar.addEventListener('keydown', (event) => {
      if (!(event.key in acts)) return;
      event.preventDefault();
      acts[event.key]();
    });
    picture.addEventListener('wheel', (event) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      const box = picture.getBoundingClientRect();
      zoom(event.deltaY < 0 ? 1.25 : 0.8, left + width * (event.clientX - box.left) / box.width);
    }, { passive: false });
    frame.append(bar);
  }

  function value(row, column) {
    const cell = row.cells[column];
    return 'value' in cell.dataset ? Number(cell.dataset.value) : cell.textContent;
  }

  function compare(a, b) {
    return typeof a === 'number' && typeof b === 'number'
      ? a - b : String(a).localeCompare(String(b), 'en', { numeric: true });
  }

  for (const table of root.querySelectorAll('table.sortable')) {
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
}

const main = document.querySelector('main');
if (main) enliven(main);
