// What the program's messages say of lines of tables: "FILE:LINE, column NAME: found ...; expected ...".

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
      marks.push({ file: found[1], line: Number(found[2]), column: found[3] ?? '', text: inPageWords(found[4]), isFault: found[4].startsWith('found ') });
    } else if (!heading) {
      rest.push(line);
    } else if (heading[2]) {
      all = Number(heading[1]);
    }
  }
  return { marks, rest, all };
}
