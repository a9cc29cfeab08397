// Names of compounds and systems as links to their cards.
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
