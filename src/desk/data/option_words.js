// The program's messages name options and verbs of the command line: on a page these are fields, ticks and places.

const ticks = { accept: 'keep also what seems wrong', partial: 'keep the good rows, leave out the faulty', correct: 'a row replaces what the library says otherwise',
  'create-systems': 'create systems that rows name and the library lacks', extrapolate: 'indices outside the ladder, too',
  'ladder-gaps': 'members of the ladder may be missing', 'no-shoulders': 'only peaks with a maximum of their own',
  'residual-solvents': 'residual solvents instead', 'stored-peaks': 'the peaks of the table in the file itself' };

const fields = { as: 'remember the columns as', 'baseline-period': 'waves of the baseline', 'bed-mm': 'height of the silica', blank: 'what a blank shows',
  'blank-hold-up': 'hold-up time of the blank', 'blank-ladder': 'the ladder run with the blank', column: 'a column of the library', 'column-volume-ml': 'measured hold-up volume',
  compound: 'compound', compounds: 'the table of compounds', confirmed: 'confirmed in these samples', corners: 'the corners on the photo', declared: 'declared to be', detector: 'detector',
  'detection-limit-percent': 'detection limit, % of the area', 'detection-limit-ppm': 'detection limit, ppm', 'diameter-mm': 'inner diameter', 'discarded-ml': 'discarded before tube 1',
  'dose-mg-per-day': 'highest daily dose', eluent: 'eluent', expected: 'impurities that may be in it', for: 'guideline', 'fraction-ml': 'fraction, mL',
  'front-mm': 'front above the edge', 'hold-up': 'hold-up time', ladder: 'the ladder run with it', lanes: 'the lanes of the plate', 'ladder-first': 'carbon number of its first homologue',
  light: 'light', 'load-mg': 'sample, mg', 'load-ml': 'loaded in', 'loaded-mg': 'loaded, mg', name: 'part of a name', 'narrowest-half-width': 'narrowest half width',
  order: 'components leave', 'outside-ml': 'volume outside the bed', overlaps: 'areas of overlapping peaks', 'peak-threshold': 'least height of a peak',
  'plate-mm': 'width and height', plates: 'plate number', quantity: 'quantity', reason: 'why?', 'reference-peak': 'peak of the reference', rules: 'rules of your own', sample: 'only this sample of the file',
  spots: 'the spots of the lane', sheet: 'columns that the library remembers', 'silica-g': 'a cartridge: silica', 'smoothing-period': 'waves of the noise', standards: 'labels of lanes that are standards', 'start-mm': 'start above the edge',
  substructure: 'substructure', system: 'system', systems: 'a new system', target: 'what is wanted', 'time-error-min': 'error of a time', 'time-unit': 'unit of the times',
  tolerance: 'spots of one component differ by up to', trace: 'which trace of the file' };

const places = { audit: 'Library, “What needs a look”', history: 'Library, “Who changed what”', list: 'Library', prove: 'Library, “How far to trust it”',
  retire: 'its card in the Library', rename: 'its card in the Library', show: 'its card in the Library', learn: 'A table' };

const kPlaceholder = '(?: (?:[A-Z]{2,}[A-Za-z]*(?:[:,=][A-Z]{2,})*(?:,?\\.\\.\\.)?)(?![a-z-]))?';

/// What is said in other words on a page, from the particular to the general.
const rules = [
  [/or --map COLUMN=HEADER for what your table calls them/g, 'or choose above each column which of them it is'],
  [/--(?:ladder-)?map COLUMN=HEADER \(--map and --as hold for the ladder, too\)/g, 'choose above each column which of them it is'],
  [/--map COLUMN=HEADER with it the first time/g, 'columns that are chosen for it the first time'],
  [/--(?:ladder-)?map COLUMN=HEADER says what your table calls (?:a column|them|it)/g, 'choose above each column what it is'],
  [/--(?:ladder-)?map COLUMN=HEADER/g, 'choose above the column what it is'],
  [/--map (?:standard|sample|cospot|yes|no)=WORD says what your table calls it/g, 'choose below the table what its word means'],
  [/--(?:ladder-)?map (\w+)=[A-Z]{4,}\b(?: says what your table calls it)?/g, 'choose above its column that it is “$1”'],
  [/--(?:ladder-)?map "?([\w ()]+)=(?:"([^"]+)"|([^\s",;]+)"?)/g, (_, column, quoted, bare) => `“${quoted ?? bare}” is ${column}`],
  [/--(?:ladder-)?map\b/g, 'the choice above the column'],
  [/^The library remembers these columns: --as (".*") next time$/, 'The library remembers these columns as $1.'],
  [/; if it is missing, measure its standard and `cospot learn` it first/g, '; if it is missing, add it to the Library'],
  [/ \(--(?:help|json|report|prior|effort)\b[^()]*\)/g, ''],
  [/; --(?:json|top)(?: \d+)? lists (?:them|it)(?: all)?/g, ''],
  [/ ?\(run cospot prove\)/g, ` (${places.prove})`],
  [/; to keep this plate's standards for the next one: cospot learn .*$/g, '; “keep the standards in the library” keeps them for the next plate'],
  [/to keep this plate's standards for the next one: cospot learn .*$/g, '“keep the standards in the library” keeps this plate’s standards for the next one'],
  [/ ?\(create one with: cospot [^)]*\)/g, ' (begin it on the bench)'],
  [/ ?\(cospot (?:peaks|predict) [^)]*\)/g, ''],
  [/\(retire --undo --(?:system|compound) comes first\)/g, '(its card in the Library lets it count again)'],
  [/\(show --all tells[^)]*\)/g, '(its card in the Library)'],
  [/in a table for (?:learn )?--systems/g, 'in a table of systems'],
  [/ ?\(cospot retire --undo[^)]*\)/g, ' (its card in the Library lets it count again)'],
  [/ ?\(cospot (\w+)\b[^)]*\)/g, (whole, verb) => (places[verb] ? ` (${places[verb]})` : whole)],
  [/`cospot (\w+)[^`]*`/g, (whole, verb) => (places[verb] ? `“${places[verb].replace(/[“”]/g, '')}”` : whole)],
  [/\bfound no --([a-z]+(?:-[a-z]+)*)/g, (whole, name) => (ticks[name] ?? fields[name] ? `found nothing in “${ticks[name] ?? fields[name]}”` : whole)],
  [/--([a-z]+(?:-[a-z]+)*)(?= (?:keeps|says|sets|takes)\b)/g, (whole, name) => (ticks[name] ? `“${ticks[name]}”` : whole)],
  [/(?:\b(?:give|with) )?--([a-z]+(?:-[a-z]+)*)/g, (whole, name) => (ticks[name] ? `${whole.startsWith('with') ? 'with' : 'tick'} “${ticks[name]}”` : whole)],
  [new RegExp(`--([a-z]+(?:-[a-z]+)*)${kPlaceholder}`, 'g'), (whole, name) => (fields[name] ? `“${fields[name]}”` : whole)],
  [/; expected cospot \[--library FILE\].*$/, ''],
];

/// The text with the page's own words for what it says of the command line.
export function inPageWords(text) {
  const place = (_, name) => (ticks[name] ?? fields[name] ? `“${ticks[name] ?? fields[name]}”: ` : '');
  return rules.reduce((said, [pattern, words]) => said.replace(pattern, words), text.replace(/^command line(?:, --([a-z-]+))?: /, place));
}

/// The same in all texts of an answer.
export function putInPageWords(root) {
  for (const sentence of root.querySelectorAll('p, li, td')) {
    const walker = document.createTreeWalker(sentence, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      if (/--[a-z]|cospot /.test(node.data)) node.data = inPageWords(node.data);
    }
  }
}
