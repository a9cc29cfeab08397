// The tables that the program reads: their columns, and which header usually means which.

const kUnits = { mm: 'length', cm: 'length', m: 'length', um: 'length', min: 'time', s: 'time', sec: 'time', h: 'time',
  minutes: 'time', seconds: 'time', ml: 'volume', l: 'volume', ul: 'volume', mg: 'mass', g: 'mass', kg: 'mass', ug: 'mass' };
const kOffered = { length: ['mm', 'cm', 'm'], time: ['min', 's'], volume: ['mL', 'L', 'uL'], mass: ['mg', 'g', 'ug'] };
const kTimes = ['tR', 'start', 'end', 'width_half']; // columns in minutes, whose names do not say so

const values = ['Rf', 'k', 'RI', 'tR', 'RRT', 'r'];

/// `needs`: sets of columns; a table of the kind has one of each set.
export const tableKinds = {
  values: { name: 'values of compounds', needs: [['compound'], ['system'], ['value', ...values]],
    columns: ['compound', 'smiles', 'system', 'quantity', 'value', ...values, 'cas', 'run', 'date', 'operator', 'instrument', 'source', 'uncertainty', 'note'] },
  compounds: { name: 'compounds and structures', needs: [['compound'], ['smiles']], columns: ['compound', 'smiles', 'cas', 'synonyms'] },
  systems: { name: 'systems', needs: [['system'], ['technique']],
    columns: ['system', 'technique', 'stationary_phase', 'mobile_phase', 'scale', 'reference', 'programme', 'column_length_m', 'column_diameter_mm', 'film_um', 'particle_um', 'note'] },
  plate: { name: 'plates', needs: [['lane'], ['distance_mm', 'Rf', 'hRf']],
    columns: ['plate', 'date', 'lane', 'label', 'lane+label', 'spot', 'distance_mm', 'front_mm', 'Rf', 'hRf', 'role', 'area', 'uv254', 'stain', 'stained', 'system', 'uncertainty'] },
  chromatogram: { name: 'peaks of chromatograms', needs: [['tR']],
    columns: ['run', 'date', 'peak', 'tR', 'area', 'compound', 'role', 'height', 'width_half', 'start', 'end', 'symmetry', 'ppm', 'uncertainty'] },
  features: { name: 'a long table of samples', needs: [['sample'], ['feature'], ['system'], ['quantity'], ['value']],
    columns: ['sample', 'feature', 'system', 'quantity', 'value', 'uncertainty', 'area', 'compound', 'role', 'uv254', 'stain', 'stained', 'molar_mass', 'formula'] },
  responses: { name: 'response factors', needs: [['compound'], ['relative_to'], ['system'], ['response_factor']],
    columns: ['compound', 'relative_to', 'system', 'response_factor', 'date', 'source', 'note'] },
  runs: { name: 'runs of a column', needs: [['column'], ['compound'], ['Rf'], ['start_mL'], ['end_mL']],
    columns: ['column', 'compound', 'Rf', 'start_mL', 'end_mL', 'peak_mL', 'silica_g', 'diameter_mm', 'bed_mm', 'column_volume_mL', 'outside_mL', 'amount_mg', 'load_mL', 'run', 'date', 'source', 'note'] },
  ladder: { name: 'a ladder', needs: [['carbon', 'standard'], ['tR']], columns: ['carbon', 'standard', 'tR'] },
  fractions: { name: 'fractions of a column', needs: [['fraction', 'volume_mL'], ['Rf', 'distance_mm', 'signal']],
    columns: ['fraction', 'Rf', 'distance_mm', 'front_mm', 'plate', 'lane', 'spot', 'role', 'label', 'intensity', 'mass_mg', 'volume_mL', 'signal'] },
};

/// Headers, in lower case and without stops, that usually mean a column; the column's own name in
/// another spelling needs no entry.
const usual = {
  lane: ['bahn', 'track', 'spur', 'lane no'], label: ['probe', 'sample', 'name', 'sample name', 'probenname'],
  distance_mm: ['laufstrecke', 'strecke', 'weg', 'distance', 'distance moved', 'migration'], front_mm: ['laufmittelfront', 'solvent front', 'front', 'front distance'],
  role: ['rolle', 'type', 'typ'], plate: ['platte', 'plate no', 'group', 'gruppe'], spot: ['fleck', 'spot no'], stain: ['reagent', 'reagenz'],
  compound: ['substanz', 'substance', 'verbindung', 'compound name', 'component', 'component name', 'peak name', 'name', 'analyte', 'standard'],
  smiles: ['structure', 'struktur'], cas: ['cas no', 'cas number', 'cas-nr', 'cas nr'], synonyms: ['synonyme', 'other names'],
  value: ['wert', 'messwert', 'result'], quantity: ['größe', 'kind of value'], date: ['datum', 'day', 'tag', 'inj date', 'injection date'],
  operator: ['analyst', 'bearbeiter', 'who', 'by'], instrument: ['gerät', 'device'], source: ['quelle', 'from'], note: ['bemerkung', 'comment', 'notes', 'remark', 'remarks'],
  run: ['lauf', 'sample', 'sample name', 'injection', 'probe', 'batch', 'charge'], sample: ['probe', 'batch'], feature: ['spot', 'peak', 'fleck'],
  tR: ['rt', 'ret time', 'retention time', 'retention', 'retentionszeit'], area: ['peak area', 'fläche', 'peakfläche'],
  height: ['peak height', 'höhe'], peak: ['peak no', 'peak nr', 'peak number'], width_half: ['width', 'half width', 'halbwertsbreite'],
  carbon: ['alkane', 'alkan', 'carbon number', 'carbons'], fraction: ['fraktion', 'tube', 'röhrchen', 'fraction no'], Rf: ['rf value', 'rf-wert', 'r f'],
  mass_mg: ['mass', 'masse', 'weight', 'gewicht'], volume_mL: ['volume', 'volumen'], amount_mg: ['amount', 'menge'],
  stationary_phase: ['plate', 'platte', 'phase', 'column'], mobile_phase: ['eluent', 'laufmittel', 'eluant'], technique: ['technik', 'method'],
};

/// A header's name and the unit behind it: "Weg (cm)", "distance_mm".
export function splitUnit(header) {
  const found = /^(.+?)[ _/,([]+([a-zµ]+)[)\]]?$/i.exec(header.trim());
  const unit = found?.[2].replace('µ', 'u');
  return found && kUnits[unit.toLowerCase()] ? { stem: found[1], unit } : { stem: header.trim(), unit: '' };
}

/// The unit of a column's numbers, if it has one.
export const unitOf = (column) => (kTimes.includes(column) ? 'min' : splitUnit(column).unit);
export const unitsLike = (unit) => kOffered[kUnits[unit.toLowerCase()]];
export const stemOf = (column) => (kTimes.includes(column) ? column : splitUnit(column).stem);

/// A column as a reader sees it: "distance (mm)".
export function columnTitle(column) {
  const words = column.split('+').map((one) => stemOf(one).replaceAll('_', ' ')).join(' and ');
  return unitOf(column) ? `${words} (${unitOf(column)})` : words;
}

const inWords = { tR: 'retention time', peak: 'number or name of the peak', role: 'sample or standard', width_half: 'width at half height',
  symmetry: 'symmetry factor', ppm: 'amount, ppm', carbon: 'carbon number (ladder)' };

/// A column as one who does not know its name reads it: "retention time".
export const columnInWords = (column) => inWords[column] ?? columnTitle(column);

const same = (a, b) => a.toLowerCase() === b.toLowerCase();

/// Whether the program takes the header for that column by itself.
export function names(header, column) {
  const { stem, unit } = splitUnit(header);
  const own = unitOf(column);
  return same(header.trim(), column) || (own !== '' && unit !== '' && same(stem, stemOf(column)) && kUnits[unit.toLowerCase()] === kUnits[own.toLowerCase()]);
}

function distance(a, b) {
  let before = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i += 1) {
    const now = [i];
    for (let j = 1; j <= b.length; j += 1) {
      now.push(Math.min(before[j] + 1, now[j - 1] + 1, before[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1)));
    }
    before = now;
  }
  return before[b.length];
}

const plainWords = (text) => text.toLowerCase().replaceAll('.', '').replaceAll('_', ' ').replace(/\s+/g, ' ').trim();

/// How well a header fits a column: 3 by its name, 2 by a usual word, 1 by a slip of the pen, 0 not.
function fit(header, column) {
  if (names(header, column)) return 3;
  const bracket = /[[(]([^)\]]*)[)\]]\s*$/.exec(header)?.[1] ?? '';
  if (bracket === '%') return 0;
  const words = plainWords(splitUnit(header.replace(/\s*[[(][^)\]]*[)\]]\s*$/, '')).stem);
  const own = plainWords(stemOf(column));
  if (words === own || usual[column]?.includes(words)) return 2;
  const shortest = Math.min(words.length, own.length);
  return shortest >= 3 && distance(words, own) <= (shortest >= 7 ? 2 : 1) ? 1 : 0;
}

/// For each header the column that it may mean, or none; each column once, the best fit first.
/// Columns that are `taken` already are left out.
export function proposals(headers, kind, taken = []) {
  const found = new Map();
  const fits = headers.flatMap((header, at) => tableKinds[kind].columns.map((column, order) => ({ header, at, column, order, fit: fit(header, column) })));
  fits.sort((a, b) => b.fit - a.fit || a.order - b.order || a.at - b.at);
  const used = new Set(taken);
  for (const { header, column, fit: good } of fits) {
    if (good === 0 || found.has(header) || used.has(column) || header.trim() === '') continue;
    found.set(header, column);
    used.add(column);
  }
  return found;
}

/// How much a record looks like the header of a kind.
export function headerScore(fields, kind) {
  const named = [...proposals(fields, kind).entries()];
  const columns = named.map(([, column]) => column);
  const needs = tableKinds[kind].needs.filter((set) => set.some((column) => columns.includes(column))).length;
  const own = named.filter(([header, column]) => names(header, column)).length;
  return (needs === tableKinds[kind].needs.length ? 100 : 0) + 10 * needs / tableKinds[kind].needs.length + own + 0.5 * (named.length - own);
}
