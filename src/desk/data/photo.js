// A photo of the plate: what the program finds on it becomes the drawing, to be corrected there.
import { inPageWords } from '/option_words.js';
import { h, button, field, choice } from '/dom.js';
import { runVerb, resultsOf, upload } from '/api.js';
import { isDone, refusal } from '/answer.js';
import { addLane } from '/plate_model.js';

const lights = [['', 'told from the photo'], ['white', 'white light'], ['uv254', '254 nm'], ['uv366', '366 nm']];

/// The straightened plate in the program's answer.
function straightened(html) {
  return new DOMParser().parseFromString(html, 'text/html').querySelector('svg.plate-photo image')?.getAttribute('href') ?? null;
}

const tenth = (mm) => Math.round(mm * 10) / 10;

/// Lanes and spots of the photo instead of those drawn; names of lanes at the same place stay.
function takeOver(plate, found, summary) {
  const before = plate.lanes;
  plate.lanes = [];
  if (summary.start) plate.start = tenth(summary.start.middle_mm);
  if (summary.front) plate.front = tenth(summary.front.middle_mm);
  plate.width = tenth(summary.plate_width_mm);
  plate.height = tenth(summary.plate_height_mm);
  for (const at of summary.lanes_mm) {
    const lane = addLane(plate, tenth(at));
    const named = before.find((one) => Math.abs(one.at - at) < 3);
    if (named) Object.assign(lane, { label: named.label, role: named.role });
  }
  for (const spot of found) {
    const lane = plate.lanes[Number(spot.lane) - 1];
    const mm = tenth(spot.y_mm - plate.start);
    if (!lane || mm < 0 || mm > plate.front - plate.start) continue;
    const seen = spot.uv254 === undefined ? {} : { uv254: spot.uv254 ? 'yes' : 'no' };
    lane.spots.push({ mm, ...seen, ...(spot.uncertainty ? { uncertainty: spot.uncertainty } : {}) });
  }
}

export function photoEntry(work) {
  const { plate, sheet } = work;
  const outcome = h('div', { class: 'photo-outcome', role: 'status' });
  const input = h('input', { type: 'file', accept: 'image/*', onchange: () => input.files[0] && take(input.files[0]) });

  async function take(file) {
    const name = file.type === 'image/png' ? 'plate.png' : 'plate.jpg';
    outcome.replaceChildren('The photo is being read.');
    await upload(sheet.file(name), file);
    plate.photo = { ...plate.photo, name, corners: null };
    await find();
  }

  function call(form) {
    const { photo } = plate;
    const given = plate.measured ?? {}; // lines that a person placed; the others are looked for
    return { verb: 'photo', arguments: [photo.name], form, options: { 'plate-mm': `${plate.width}x${plate.height}`,
      ...(given.start ? { 'start-mm': String(plate.start) } : {}), ...(given.front ? { 'front-mm': String(plate.front) } : {}),
      ...(photo.light ? { light: photo.light } : {}), ...(photo.corners ? { corners: photo.corners } : {}) } };
  }

  async function find() {
    const answer = await runVerb(call('json'), { sheet: sheet.id, slot: 'photo' });
    if (answer.stopped) return;
    if (!isDone(answer)) {
      outcome.replaceChildren(refusal(answer.messages), cornersEntry());
      return;
    }
    const results = resultsOf(answer);
    const summary = results.pop();
    takeOver(plate, results, summary);
    outcome.replaceChildren(h('ul', { class: 'notes' }, summary.notes.map((text) => h('li', {}, inPageWords(text)))), cornersEntry());
    work.changed();
    await underlay();
  }

  async function underlay() {
    if (!plate.photo?.name) return;
    const answer = await runVerb(call('html'), { sheet: sheet.id, slot: 'underlay' });
    if (!isDone(answer)) return;
    work.drawing.photo = straightened(answer.output);
    work.drawing.draw();
  }

  /// The photo itself, on which the four corners are clicked in order.
  function cornersEntry() {
    const corners = [];
    const names = ['upper left', 'upper right', 'lower right', 'lower left'];
    const asked = h('p', { role: 'status' }, `Click the ${names[0]} corner of the plate.`);
    const picture = h('img', { src: `${sheet.file(plate.photo.name)}?${Date.now()}`, alt: 'the photo of the plate', class: 'photo',
      onclick: (event) => {
        const box = picture.getBoundingClientRect();
        corners.push([event.clientX - box.left, event.clientY - box.top].map((value, i) =>
          Math.round(value * (i === 0 ? picture.naturalWidth / box.width : picture.naturalHeight / box.height))));
        if (corners.length < 4) {
          asked.textContent = `Click the ${names[corners.length]} corner.`;
          return;
        }
        plate.photo.corners = corners.map((corner) => corner.join(',')).join(' ');
        find();
      } });
    const typed = h('input', { value: plate.photo.corners ?? '', size: '36', placeholder: 'X,Y X,Y X,Y X,Y',
      onchange: () => { plate.photo.corners = typed.value.trim() || null; find(); } });
    return h('details', { open: false }, h('summary', {}, 'correct the corners'), asked, picture,
      field('corners in pixels', typed, 'upper left, upper right, lower right, lower left'));
  }

  const dropped = h('div', { class: 'drop',
    ondragover: (event) => event.preventDefault(),
    ondrop: (event) => {
      event.preventDefault();
      const file = event.dataTransfer.files[0];
      if (file) take(file);
    } },
  field('A photo of the plate: choose it, or drop it here', input, 'Its size in mm stands above; start and front as well where they cannot be seen.'),
  field('light', choice(lights, plate.photo?.light ?? '', (light) => { plate.photo = { ...plate.photo, light }; work.sheet.changed(); })),
  plate.photo?.name ? button('read the photo again', find) : null, outcome);
  if (plate.photo?.name) queueMicrotask(underlay);
  return h('details', { class: 'photo-entry', open: Boolean(plate.photo?.name) }, h('summary', {}, 'From a photo'), dropped);
}
