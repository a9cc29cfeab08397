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

async function showSheet(place, id) {
  const sheet = await Sheet.load(id);
  document.title = `${sheet.data.title} – cospot`;
  return works[sheet.data.kind](place, sheet);
}

/// The parts of the address; a part that no browser would write stays as it is.
function addressParts() {
  return location.hash.replace(/^#\/?/, '').split('/').map((part) => {
    try {
      return decodeURIComponent(part);
    } catch {
      return part;
    }
  });
}

function show(page, place, rest) {
  if (place === 'sheet') return showSheet(page, rest[0]);
  if (place === 'sheets') return showSheets(page);
  return place === 'library' ? showLibrary(page, rest) : showBench(page);
}

async function route() {
  leave?.();
  leave = null;
  const [place = '', ...rest] = addressParts();
  for (const link of document.querySelectorAll('nav.top a')) {
    const is = link.dataset.place === (place === '' ? 'bench' : place);
    if (is) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  }
  document.title = 'cospot';
  const page = h('div', {}); // its own, so that what comes late does not stand over the next view
  view.replaceChildren(page);
  view.focus({ preventScroll: true });
  try {
    const leaving = await show(page, place, rest) ?? null;
    if (page.isConnected) leave = leaving;
    else leaving?.();
  } catch (error) {
    page.replaceChildren(h('h1', {}, 'This cannot be shown'), refusal(error.message));
  }
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
