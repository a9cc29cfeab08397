// Which system was run: one of the library's, or a new one named here.
import { h, button, choice, field } from '/dom.js';
import { about, librarySystems, runVerb } from '/api.js';
import { isDone, refusal } from '/answer.js';

const kNew = '\n'; // no system is called so
const techniques = [['tlc', 'thin-layer chromatography'], ['paper', 'paper chromatography'],
  ['hplc', 'liquid chromatography'], ['gc', 'gas chromatography'], ['column', 'column chromatography']];
const scales = [['', 'none'], ['n-alkane', 'n-alkanes'], ['alkyl aryl ketone', 'alkyl aryl ketones'],
  ['fatty acid methyl ester', 'fatty acid methyl esters']];

export function csvField(text) {
  const plain = String(text ?? '');
  return /[",\n\r]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}

export function csv(columns, rows) {
  return [columns, ...rows].map((row) => row.map(csvField).join(',')).join('\n') + '\n';
}

/// Fields for a new system; `done` is called with its name once the library holds it.
export function newSystemForm(planar, done, cancel) {
  const name = h('input', { required: true });
  const phase = h('input', { placeholder: planar ? 'silica gel' : 'octadecylsilica (C18)' });
  const mobile = h('input', { placeholder: planar ? 'hexane:ethyl acetate 4:1' : 'water:acetonitrile 60:40' });
  const programme = h('input', { placeholder: 'isocratic' });
  const technique = choice(techniques.filter(([value]) => planar === ['tlc', 'paper'].includes(value)), planar ? 'tlc' : 'hplc', () => {});
  const scale = choice(scales, '', () => {});
  const outcome = h('div', {});
  async function create(event) {
    event.preventDefault();
    const row = [name.value, technique.value, phase.value, mobile.value, planar ? '' : scale.value, planar ? '' : programme.value];
    const table = csv(['system', 'technique', 'stationary_phase', 'mobile_phase', 'scale', 'programme'], [row]);
    const answer = await runVerb({ verb: 'learn', options: { systems: 'new-system.csv' }, files: { 'new-system.csv': table } },
      { sheet: newSystemForm.sheet, slot: 'learn' });
    if (isDone(answer)) done(name.value);
    else outcome.replaceChildren(refusal(answer.messages));
  }
  return h('form', { class: 'small-form', onsubmit: create }, h('p', { class: 'what' }, 'A new system'),
    field('name', name), field('technique', technique), field('stationary phase', phase), field('mobile phase', mobile),
    planar ? null : field('oven or gradient programme', programme), planar ? null : field('index scale', scale),
    h('p', {}, h('button', { type: 'submit', class: 'main' }, 'add to the library'), ' ', button('cancel', cancel)), outcome);
}

/// A choice among the library's systems of these techniques, in `place`.
export async function systemChooser(place, { sheet, planar, chosen, onchange, label = 'system' }) {
  newSystemForm.sheet = sheet.id;
  const all = (await librarySystems()).filter((one) => ['tlc', 'paper'].includes(one.technique) === planar);
  const again = (name) => systemChooser(place, { sheet, planar, chosen: name, onchange, label });
  const options = [['', all.length === 0 ? 'none in the library yet' : 'choose'],
    ...all.map((one) => [one.system, `${one.system}: ${[one.stationary_phase, one.mobile_phase, one.programme].filter(Boolean).join(', ')}`]),
    ...(about.role === 'visitor' ? [] : [[kNew, 'a new system …']])];
  function pick(value) {
    if (value !== kNew) {
      onchange(value);
      return;
    }
    place.replaceChildren(newSystemForm(planar, (name) => { onchange(name); again(name); }, () => again(chosen)));
    place.querySelector('input').focus();
  }
  place.replaceChildren(field(label, choice(options, chosen ?? '', pick)));
}
