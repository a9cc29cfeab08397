// What the audit of the library finds about one compound or one system.
import { h, button } from '/dom.js';
import { librarySystems, resultsOf, runVerb } from '/api.js';
import { isDone, refusal } from '/answer.js';

const kQuick = 50000; // values; more are looked through only when that is asked for
let findings = null; // of the last audit in this page, until something is changed

export function forgetFindings() { findings = null; }

async function audited() {
  findings ??= (async () => {
    const answer = await runVerb({ verb: 'audit' }, { slot: 'contradictions' });
    if (answer.stopped) return null;
    if (!isDone(answer)) throw new Error(answer.messages);
    return resultsOf(answer);
  })();
  const asked = findings;
  try {
    const found = await asked;
    if (found === null && findings === asked) findings = null;
    return found;
  } catch (error) {
    findings = null;
    throw error;
  }
}

function item(finding) {
  return h('li', {}, h('span', { class: `badge ${finding.severity}` }, finding.severity), ' ', h('strong', {}, finding.subject), `: ${finding.text}`,
    h('br', {}), h('small', {}, `To do: ${finding.advice}`));
}

/// The findings for which `concerns(finding)` holds, in `place`; `suspected` hears the ids of the values
/// that they suspect.
export async function showContradictions(place, concerns, suspected) {
  async function look() {
    place.replaceChildren(h('p', { class: 'waiting' }, 'looking through the library …'));
    try {
      const all = await audited();
      if (all === null) return;
      const found = all.filter(concerns);
      place.replaceChildren(found.length === 0 ? h('p', { class: 'faint' }, 'Nothing was found.') : h('ul', { class: 'found-here' }, found.map(item)),
        h('p', { class: 'small' }, h('a', { href: '#/library/audit' }, 'All that needs a look in the library')));
      suspected(new Set(found.flatMap((finding) => finding.rows.filter((row) => row.suspect).map((row) => row.measurement))));
    } catch (error) {
      place.replaceChildren(refusal(error.message));
    }
  }
  const values = findings ? 0 : (await librarySystems()).reduce((sum, one) => sum + one.values, 0);
  if (values <= kQuick) await look();
  else place.replaceChildren(button(`look through the ${values.toLocaleString('en')} values of the library`, look));
}
