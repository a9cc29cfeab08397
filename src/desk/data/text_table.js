// A table as a text: its encoding, its records and the lines on which they stand, as the program reads them.

/// The text of a file in UTF-8, UTF-16 or Windows-1252.
export function decoded(bytes) {
  const [first, second] = new Uint8Array(bytes.slice(0, 2));
  if (first === 0xff && second === 0xfe) return { text: new TextDecoder('utf-16le').decode(bytes), encoding: 'UTF-16' };
  if (first === 0xfe && second === 0xff) return { text: new TextDecoder('utf-16be').decode(bytes), encoding: 'UTF-16' };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'UTF-8' };
  } catch {
    return { text: new TextDecoder('windows-1252').decode(bytes), encoding: 'Windows-1252' };
  }
}

/// What divides the fields of the line that begins at `from`: what it holds most often outside quotes.
function delimiterOf(text, from) {
  const outside = text.slice(from, lineEnd(text, from).at).replace(/"[^"]*"/g, '');
  const counts = [',', ';', '\t'].map((sign) => [sign, outside.split(sign).length]);
  return counts.reduce((best, one) => (one[1] > best[1] ? one : best))[0];
}

function lineEnd(text, from) {
  const found = /\r\n|\n|\r/g;
  found.lastIndex = from;
  const end = found.exec(text);
  return end ? { at: end.index, next: end.index + end[0].length } : { at: text.length, next: text.length };
}

/// Reads the record that begins at `from`: its fields, where it ends, and where the next begins.
function record(text, from, delimiter) {
  const line = lineEnd(text, from);
  const plain = text.slice(from, line.at);
  if (!plain.includes('"')) return { fields: plain.split(delimiter), to: line.at, next: line.next };
  const fields = [];
  let at = from;
  while (true) {
    let field = '';
    if (text[at] === '"') {
      at += 1;
      while (at < text.length && !(text[at] === '"' && text[at + 1] !== '"')) {
        field += text[at];
        at += text[at] === '"' ? 2 : 1;
      }
      at += 1;
    }
    const begin = at;
    while (at < text.length && text[at] !== delimiter && text[at] !== '\n' && text[at] !== '\r') at += 1;
    fields.push(field + text.slice(begin, at));
    if (text[at] !== delimiter) return { fields, to: Math.min(at, text.length), next: lineEnd(text, at).next };
    at += 1;
  }
}

/// All records that are not empty; `delimiter` says what divides the one that begins at a place.
function recordsFrom(text, { from = 0, line = 1, most = Infinity, delimiter }) {
  const records = [];
  let at = from;
  let number = line;
  while (at < text.length && records.length < most) {
    const sign = delimiter(text, at);
    const read = record(text, at, sign);
    if (read.fields.some((field) => field.trim() !== '')) records.push({ line: number, from: at, to: read.to, fields: read.fields, delimiter: sign });
    number += text.slice(at, read.next).split(/\r\n|\n|\r/).length - 1;
    at = read.next;
  }
  return records;
}

const kMostAbove = 20; // lines among which the program looks for the header

/// The first records of a text, each divided by its own sign: one of them is the header.
export const firstRecords = (text) => recordsFrom(text.replace(/^\ufeff/, ''), { most: kMostAbove, delimiter: delimiterOf });

/// The records of a text; `score` says how much a record looks like a header, whose delimiter holds
/// for all that follows.
export function parsed(text, score) {
  const plain = text.replace(/^\ufeff/, '');
  const first = firstRecords(plain);
  if (first.length === 0) return { text: plain, above: [], header: null, rows: [] };
  const scores = first.map((one) => score(one.fields));
  const at = scores.indexOf(Math.max(...scores));
  const [header, ...rows] = recordsFrom(plain, { from: first[at].from, line: first[at].line, delimiter: () => first[at].delimiter });
  return { text: plain, above: first.slice(0, at), header, rows };
}

function written(field, delimiter) {
  return field.includes(delimiter) || /["\n\r]/.test(field) ? `"${field.replaceAll('"', '""')}"` : field;
}

/// The text with one field of a record changed.
export function withField(table, row, index, value) {
  const fields = row.fields.map((field, i) => (i === index ? value : field));
  return table.text.slice(0, row.from) + fields.map((field) => written(field, row.delimiter)).join(row.delimiter) + table.text.slice(row.to);
}
