// A structure drawn while its SMILES is typed, and whether the library holds it already.
import { h, settled } from '/dom.js';
import { resultsOf, runVerb } from '/api.js';
import { isDone } from '/answer.js';
import { compoundLink } from '/library_words.js';

let previews = 0;

/// What the answer of `predict` says of the structure itself.
function structureOf(html) {
  const page = new DOMParser().parseFromString(html, 'text/html');
  const drawn = page.querySelector('figure.structure');
  drawn?.querySelector('figcaption')?.remove();
  const rows = new Map([...page.querySelectorAll('section table tr')].map((row) => [row.cells[0].textContent, row.cells[1].textContent]));
  return { drawn: drawn && document.adoptNode(drawn), formula: rows.get('Formula'), mass: rows.get('Molar mass'), key: rows.get('InChIKey') };
}

/// The compound of the library with this name, number or key, or nothing.
export async function heldCompound(name, slot) {
  const answer = await runVerb({ verb: 'show', arguments: [name] }, { slot }).catch(() => null);
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
      this.fault.textContent = answer.messages.trim().split('\n')[0].replace(/^cospot: (command line: )?/, '');
      this.place.classList.add('former');
      return;
    }
    this.fault.textContent = '';
    this.place.classList.remove('former');
    const structure = structureOf(answer.output);
    const held = h('p', {});
    this.place.replaceChildren(structure.drawn ?? '', h('p', { class: 'small' }, [structure.formula, structure.mass].filter(Boolean).join(', ')), held);
    const compound = structure.key && await heldCompound(structure.key, `${this.slot}-held`);
    if (compound && smiles === this.wanted) held.append('The library holds this structure as ', compoundLink(compound.compound), '.');
  }
}
