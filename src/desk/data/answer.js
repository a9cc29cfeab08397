// What a verb answered, shown as its report shows it.
import { h, button } from '/dom.js';
import { runVerb, stopVerb } from '/api.js';
import { messageLines } from '/faults.js';
import { inPageWords, putInPageWords } from '/option_words.js';
import { enliven } from '/report.js';

/// The body of an answer, which the program made and escaped.
function parts(html) {
  const page = new DOMParser().parseFromString(html, 'text/html');
  return [...page.body.children].map((child) => document.adoptNode(child));
}

/// A refusal: what the program found and what it expected, line by line.
export function refusal(messages) {
  return h('div', { class: 'refusal', role: 'alert' }, h('p', {}, 'Not done:'),
    h('ul', {}, messageLines(messages).map((line) => h('li', {}, inPageWords(line)))));
}

/// Links within an answer go to their place there; the address of the page stays.
function goWithin(event) {
  const address = event.target.closest('a')?.getAttribute('href') ?? '';
  if (!/^#[^/]/.test(address)) return;
  event.preventDefault();
  const goal = event.currentTarget.querySelector(address.replace(/^#(.*)/, (_, id) => `#${CSS.escape(id)}`));
  if (!goal) return;
  goal.setAttribute('tabindex', '-1');
  goal.focus();
  goal.scrollIntoView();
}

export function isDone(answer) {
  return answer.code === 0 || answer.code === 1;
}

/// Shows an answer in `place`: the results, or why there are none.
export function show(place, answer) {
  if (answer.stopped) return;
  if (!isDone(answer)) {
    place.replaceChildren(refusal(answer.messages));
    return;
  }
  const text = answer.output.trimStart().startsWith('<')
    ? parts(answer.output) : [h('pre', { class: 'plain' }, answer.output)];
  place.replaceChildren(h('div', { class: 'answer', onclick: goWithin }, text));
  putInPageWords(place);
  enliven(place);
}

/// Calls a verb and shows its answer in `place`, meanwhile how far it is and a button to stop it.
/// Returns the answer, or nothing where it was stopped.
export async function ask(place, call, { sheet = null, slot = 'work' } = {}) {
  const progress = h('span', {}, 'working');
  const waiting = h('p', { class: 'waiting', role: 'status' }, progress, ' ',
    button('stop', () => stopVerb({ sheet, slot })));
  const timer = setTimeout(() => place.prepend(waiting), 400); // short work needs no announcement
  try {
    const answer = await runVerb({ form: 'html', ...call },
      { sheet, slot, onProgress: (text) => { progress.textContent = text || 'working'; } });
    if (answer.stopped) {
      waiting.replaceChildren('stopped; nothing was changed');
      return null;
    }
    show(place, answer);
    return answer;
  } catch (error) {
    place.replaceChildren(refusal(error.message));
    return null;
  } finally {
    clearTimeout(timer);
  }
}
