// What the audit of the library finds about one compound or one system.
import { h } from '/dom.js';
import { resultsOf } from '/api.js';
import { ask, isDone } from '/answer.js';

function item(finding) {
  return h('li', {}, h('span', { class: `badge ${finding.severity}` }, finding.severity), ' ', h('strong', {}, finding.subject), `: ${finding.text}`,
    h('br', {}), h('small', {}, `To do: ${finding.advice}`));
}

let looks = 0; // a card that is left does not stop the work of the next

/// The findings that have a value or the structure of `subject`, {compound} or {system}, in `place`;
/// `suspected` hears the ids of the values that they suspect.
export async function showContradictions(place, subject, suspected = () => {}) {
  looks += 1;
  const answer = await ask(place, { verb: 'audit', form: 'json', options: subject }, { slot: `contradictions-${looks}` });
  if (!answer || !isDone(answer)) return;
  const found = resultsOf(answer);
  place.replaceChildren(found.length === 0 ? h('p', { class: 'faint' }, 'Nothing was found.') : h('ul', { class: 'found-here' }, found.map(item)),
    h('p', { class: 'small' }, h('a', { href: '#/library/audit' }, 'All that needs a look in the library')));
  suspected(new Set(found.flatMap((finding) => finding.rows.filter((row) => row.suspect).map((row) => row.measurement))));
}
