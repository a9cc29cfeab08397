// What one spot or peak may be, from the program's answer: names, probabilities, why, what next.
import { h, percent } from '/dom.js';

function bar(probability) {
  return h('meter', { min: 0, max: 1, value: probability, 'aria-hidden': 'true' });
}

function line(name, probability, because) {
  return h('li', {}, h('div', { class: 'candidate' }, h('strong', {}, name), h('span', { class: 'number' }, percent(probability))),
    bar(probability), because.length ? h('details', {}, h('summary', {}, 'why'), h('ul', {}, because.map((text) => h('li', {}, text)))) : null);
}

/// Candidates that no measurement here tells apart stand together.
function together(feature) {
  const grouped = (feature.groups ?? []).filter((group) => group.compounds.length > 1);
  return grouped.map((group) => h('p', { class: 'small' }, `Not told apart here: ${group.compounds.join(', ')} (together ${percent(group.probability)}).`));
}

export function candidatePanel({ title, feature, missing }) {
  if (!feature) return h('div', {}, title ? h('h3', {}, title) : null, h('p', { class: 'faint' }, missing));
  const candidates = feature.candidates.filter((one) => one.probability >= 0.01).slice(0, 6);
  const near = (feature.standards ?? []).slice(0, 3).map((one) => h('li', {}, one.words));
  return h('div', {}, h('h3', {}, title),
    (feature.warnings ?? []).map((text) => h('p', { class: 'warning', role: 'alert' }, text)),
    h('ol', { class: 'candidates' }, candidates.map((one) => line(one.compound, one.probability, one.because ?? [])),
      line('none of the listed compounds', feature.unlisted, [])),
    together(feature),
    near.length ? [h('p', { class: 'what' }, 'Beside the standards'), h('ul', {}, near)] : null,
    feature.next?.length ? [h('p', { class: 'what' }, 'To be surer'), h('ul', {}, feature.next.map((text) => h('li', {}, text)))] : null,
    h('p', { class: 'small' }, feature.level));
}
