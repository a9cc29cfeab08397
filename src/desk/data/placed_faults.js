// What the program refused, told beside the field or the file that it is about.
import { h } from '/dom.js';
import { messageLines } from '/faults.js';
import { inPageWords } from '/option_words.js';

/// The faults of a refusal, without how many there are.
export const faultLines = (messages) => messageLines(messages).filter((line) => !/^\d+ faults$/.test(line));

/// Says `text` below the field in `element`; nothing where it is empty.
export function tellAt(element, text) {
  element.querySelector('.fault')?.remove();
  if (text) element.append(h('small', { class: 'fault', role: 'alert' }, text));
  for (const input of element.querySelectorAll('input, select, textarea')) {
    input.classList.toggle('faulty', Boolean(text));
    if (text) input.setAttribute('aria-invalid', 'true');
    else input.removeAttribute('aria-invalid');
  }
}

/// The option that a line is about: that of the command line, else the first that it asks for.
function optionIn(line, options) {
  const about = line.match(/^command line, --([a-z-]+):/)?.[1];
  if (about && options.has(about)) return about;
  const asked = [...(line.split('; expected')[1] ?? '').matchAll(/--([a-z-]+)/g)].map((match) => match[1]);
  return asked.find((name) => options.has(name));
}

/// Tells each line of `messages` at its place: `options` are functions that say a text at the field of
/// an option, `files` the same for the files of the sheet. Returns the lines that have none, and tells
/// all places that nothing is wrong there any more.
export function placeFaults(messages, { options, files }) {
  const told = new Map([...options.values(), ...files.values()].map((tell) => [tell, []]));
  const rest = [];
  for (const line of faultLines(messages)) {
    const option = optionIn(line, options);
    const file = [...files.keys()].find((name) => line.startsWith(`${name}:`) || line.startsWith(`${name},`));
    const tell = option ? options.get(option) : files.get(file);
    if (tell) told.get(tell).push(inPageWords(option ? line.replace(/^command line(, --[a-z-]+)?: /, '') : line));
    else rest.push(inPageWords(line));
  }
  for (const [tell, lines] of told) tell(lines);
  return rest;
}
