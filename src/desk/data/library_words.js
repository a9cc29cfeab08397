// Names of compounds and systems as links to their cards, and values as they are shown.
import { h } from '/dom.js';

export const compoundAddress = (name) => `#/library/compound/${encodeURIComponent(name)}`;
export const systemAddress = (name) => `#/library/system/${encodeURIComponent(name)}`;
export const compoundLink = (name) => h('a', { href: compoundAddress(name) }, name);
export const systemLink = (name) => h('a', { href: systemAddress(name) }, name);

const linksOf = { Compound: compoundLink, System: systemLink };

/// Makes links of the names that stand below the headings "Compound" and "System" of an answer's tables.
export function linkNames(root) {
  for (const table of root.querySelectorAll('table')) {
    const headings = table.tHead ? [...table.tHead.rows[0].cells] : [];
    headings.forEach((heading, column) => {
      const link = linksOf[heading.textContent];
      if (!link) return;
      for (const row of table.tBodies[0].rows) {
        const name = row.cells[column]?.firstChild; // a remark may follow it
        if (name?.nodeType === Node.TEXT_NODE && name.data.trim() !== '') name.replaceWith(link(name.data.trim()));
      }
    });
  }
}

/// A value with the digits that its quantity is read with.
export function shownValue(quantity, value) {
  if (quantity === 'RI') return value.toFixed(1);
  return quantity === 'Rf' ? value.toFixed(3).replace(/0$/, '') : String(Number(value.toPrecision(4)));
}

/// Of values in rising order.
export function median(rising) {
  return (rising[(rising.length - 1) >> 1] + rising[rising.length >> 1]) / 2;
}
