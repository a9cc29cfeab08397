// A field for the name of a compound, with names of the library proposed as one types.
import { h, settled } from '/dom.js';
import { runVerb, resultsOf } from '/api.js';

let count = 0;

/// An input and its proposals.
export function compoundInput(properties) {
  count += 1;
  const id = `compounds-${count}`;
  const proposed = h('datalist', { id });
  const propose = settled(async () => {
    const part = input.value.trim();
    if (part === '') return;
    const answer = await runVerb({ verb: 'list', options: { name: part, top: '12' } }, { slot: id }).catch(() => null);
    if (!answer || answer.stopped || answer.code !== 0) return;
    proposed.replaceChildren(...resultsOf(answer).map((one) => h('option', { value: one.compound ?? one.name })));
  }, 200);
  const input = h('input', { ...properties, list: null, autocomplete: 'off', oninput: propose });
  input.setAttribute('list', id);
  return { input, proposed };
}
