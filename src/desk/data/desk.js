// From the address to what is shown.
import { h } from '/dom.js';
import { askAbout } from '/api.js';
import { refusal } from '/answer.js';
import { Sheet } from '/sheet.js';
import { showBench, showEntry, showSheets } from '/start.js';
import { showPlate } from '/plate.js';
import { showRun } from '/run.js';
import { showMany } from '/many.js';
import { showPurity } from '/purity.js';
import { showTable } from '/table.js';
import { showColumn } from '/column.js';
import { showLibrary } from '/library.js';

const works = { plate: showPlate, run: showRun, many: showMany, purity: showPurity, table: showTable, column: showColumn };

const view = document.getElementById('view');
let leave = null; // what the last view does when it is left

async function showSheet(id) {
  const sheet = await Sheet.load(id);
  document.title = `${sheet.data.title} – cospot`;
  return works[sheet.data.kind](view, sheet);
}

async function route() {
  leave?.();
  leave = null;
  const [place = '', ...rest] = location.hash.replace(/^#\/?/, '').split('/').map(decodeURIComponent);
  for (const link of document.querySelectorAll('nav.top a')) {
    const is = link.dataset.place === (place === '' ? 'bench' : place);
    if (is) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  }
  document.title = 'cospot';
  try {
    if (place === 'sheet') leave = await showSheet(rest[0]) ?? null;
    else if (place === 'sheets') await showSheets(view);
    else if (place === 'library') leave = await showLibrary(view, rest) ?? null;
    else await showBench(view);
  } catch (error) {
    view.replaceChildren(h('h1', {}, 'This cannot be shown'), refusal(error.message));
  }
  view.focus({ preventScroll: true });
}

async function begin() {
  try {
    const library = await askAbout();
    document.getElementById('which').textContent = library.role === 'visitor' ? `${library.library}, ${library.name}` : library.library;
    document.querySelector('[data-place="library"]').hidden = library.role === 'visitor';
  } catch (error) {
    if (error.body?.enter) {
      showEntry(view, begin);
      return;
    }
  }
  route();
}

addEventListener('hashchange', route);
begin();
