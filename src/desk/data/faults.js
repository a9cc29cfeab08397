// What the program's messages say of lines of tables: "FILE:LINE, column NAME: found ...; expected ...",
// with "(and in lines 7, 9)" behind it where others are alike.

import { inPageWords } from '/option_words.js';

/// The lines that say something, without what precedes each on a terminal.
export function messageLines(messages) {
  return messages.split('\n').map((line) => line.replace(/^cospot: /, '').trim()).filter((line) => line !== '');
}

/// {marks: [{file, line, column, text, isFault}] about lines of `files`, rest: the other lines, all: how
/// many faults there are where messages tell only the first of them}.
export function faultsIn(messages, files) {
  const marks = [];
  const rest = [];
  let all = 0;
  for (const line of messageLines(messages)) {
    const found = /^(.+?):(\d+)(?:, column (.+?))?: (.+)$/.exec(line);
    const heading = /^(\d+) faults(, the first \d+)?$/.exec(line);
    if (found && files.includes(found[1])) {
      const [, text, more] = /^(.+?)(?: \(and in lines? ([\d, ]+)\))?$/.exec(found[4]);
      for (const at of [found[2], ...(more ?? '').split(', ').filter((number) => number !== '')]) {
        marks.push({ file: found[1], line: Number(at), column: found[3] ?? '', text: inPageWords(text), isFault: text.startsWith('found ') });
      }
    } else if (!heading) {
      rest.push(line);
    } else if (heading[2]) {
      all = Number(heading[1]);
    }
  }
  return { marks, rest, all };
}
