// A structure drawn while its SMILES is typed, and whether the library holds it already.
import { h, settled } from '/dom.js';
import { resultsOf, runVerb } from '/api.js';
import { isDone } from '/answer.js';
import { messageLines } from '/faults.js';
import { inPageWords } from '/option_words.js';
import { compoundLink } from '/library_words.js';

let previews = 0;

/// What the answer of `predict` says of the structures themselves.
function structuresOf(html) {
  const page = new DOMParser().parseFromString(html, 'text/html');
  return [...page.querySelectorAll('section')].filter((section) => section.querySelector('figure.structure')).map((section) => {
    const drawn = document.adoptNode(section.querySelector('figure.structure'));
    drawn.querySelector('figcaption')?.remove();
    const rows = new Map([...section.querySelectorAll('table tr')].map((row) => [row.cells[0].textContent, row.cells[1].textContent]));
    return { name: section.querySelector('h2')?.textContent, drawn, formula: rows.get('Formula'), mass: rows.get('Molar mass'), key: rows.get('InChIKey') };
  });
}

/// A structure with its formula and whether the library holds it.
function drawnStructure({ drawn, formula, mass, key }, slot) {
  const held = h('p', {});
  if (key) {
    heldCompound(key, slot).then((compound) => compound && held.append('The library holds this structure as ', compoundLink(compound.compound), '.'));
  }
  return [drawn, h('p', { class: 'small' }, [formula, mass].filter(Boolean).join(', ')), held];
}

const kMostOfFile = 6; // structures of a file that are drawn
const kMostRead = 2e6; // bytes of it

/// The first structures of an SD file, drawn; none where one of them cannot be read, which its check says.
export async function drawnFile(file, sheet) {
  const text = typeof file === 'string' ? file : await file.slice(0, kMostRead).text();
  const records = text.split(/^\$\$\$\$[^\S\n]*\r?\n/m).filter((one) => /^M {2}END/m.test(one)).slice(0, kMostOfFile);
  const content = records.map((one) => `${one.trimEnd()}\n$$$$\n`).join('');
  const answer = await runVerb({ verb: 'predict', form: 'html', arguments: ['drawn.sdf'], options: { 'structure-only': true }, files: { 'drawn.sdf': content } },
    { sheet: sheet.id, slot: 'drawn' }).catch(() => null);
  if (!answer || answer.stopped || !isDone(answer)) return [];
  return structuresOf(answer.output).map((one, i) => h('figure', { class: 'structure-preview' }, h('figcaption', {}, one.name), drawnStructure(one, `drawn-${i}`)));
}

/// The compound of the library with this name, number or key, or nothing.
export async function heldCompound(name, slot) {
  const answer = await runVerb({ verb: 'show', arguments: [name], options: { top: '1' } }, { slot }).catch(() => null);
  const held = answer && !answer.stopped && isDone(answer) ? resultsOf(answer)[0] : null;
  return held?.inchikey === undefined ? null : held;
}

export class StructurePreview {
  constructor() {
    this.slot = `structure-${previews += 1}`;
    this.place = h('div', { class: 'structure-preview', 'aria-live': 'polite' });
    this.fault = h('small', { class: 'fault', role: 'alert' });
    this.draw = settled((smiles) => this.drawNow(smiles.trim()), 120);
  }

  async drawNow(smiles) {
    this.wanted = smiles;
    if (smiles === '') {
      this.fault.textContent = '';
      this.place.replaceChildren();
      return;
    }
    const answer = await runVerb({ verb: 'predict', form: 'html', arguments: [smiles], options: { 'structure-only': true } }, { slot: this.slot })
      .catch((error) => ({ code: 2, messages: error.message }));
    if (answer.stopped || smiles !== this.wanted) return;
    if (!isDone(answer)) { // the last structure stays while the next is being typed
      this.fault.textContent = inPageWords(messageLines(answer.messages)[0] ?? '');
      this.place.classList.add('former');
      return;
    }
    this.fault.textContent = '';
    this.place.classList.remove('former');
    const [structure] = structuresOf(answer.output);
    this.place.replaceChildren(...(structure ? drawnStructure(structure, `${this.slot}-held`) : []));
  }
}
