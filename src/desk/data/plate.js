// A plate: drawn, typed or photographed; candidates beside the spot that is looked at.
import { h, button, choice, field, number, settled, say } from '/dom.js';
import { about, runVerb, resultsOf } from '/api.js';
import { ask, isDone, refusal } from '/answer.js';
import { sheetFrame } from '/sheet.js';
import { systemChooser } from '/systems.js';
import { PlateDrawing } from '/plate_drawing.js';
import { addLane, emptyPlate, hasSample, hasStandard, laneName, nextPlace, plateTable, roles, spotName, spotsOf } from '/plate_model.js';
import { candidatePanel } from '/candidates.js';
import { photoEntry } from '/photo.js';

const kTable = 'plate.csv';

class PlateSheet {
  constructor(view, sheet) {
    this.sheet = sheet;
    sheet.data.entered = { ...emptyPlate(), ...sheet.entered };
    this.plate = sheet.data.entered;
    this.features = new Map(); // of spots, as the program answered
    const { frame, work } = sheetFrame(sheet, () => this.identifyCall());
    this.lanes = h('div', { class: 'lanes' });
    this.panel = h('aside', { class: 'panel', 'aria-live': 'polite', 'aria-label': 'candidates of the spot' });
    this.learning = button('keep the standards in the library', () => this.learn(), { hidden: true });
    this.notes = h('div', { class: 'notes-of-plate' });
    this.printed = h('section', { class: 'as-printed', 'aria-label': 'as it will print' });
    const drawn = h('div', { class: 'drawing' });
    const system = h('div', {});
    work.append(h('div', { class: 'given' }, system, ...this.measures()),
      photoEntry(this), h('div', { class: 'plate-work' }, drawn, this.panel),
      h('p', { class: 'hint' }, 'Click on the start line for a lane, above it for a spot; drag, or use the arrow keys (with Shift a whole millimetre) and Delete.'),
      this.lanes, h('p', {}, button('add a lane', () => this.addLaneBelow()), ' ', this.learning), this.notes, this.printed);
    view.replaceChildren(frame);
    this.drawing = new PlateDrawing(drawn, this.plate, {
      changed: () => this.changed({ isDrawn: true }), selected: (spot) => this.showCandidates(spot) });
    systemChooser(system, { sheet, planar: true, chosen: this.plate.system,
      onchange: (name) => { this.plate.system = name; this.changed(); } });
    this.answerSoon = settled(() => this.answer(), 30);
    this.printSoon = settled(() => this.print(), 700);
    this.listLanes();
    this.showLearning();
    this.showCandidates(null);
    this.answerSoon();
    this.printSoon();
  }

  measures() {
    return [['width', 'width, mm'], ['height', 'height, mm'], ['start', 'start above the edge, mm'], ['front', 'front above the edge, mm']]
      .map(([name, label]) => {
        const input = h('input', { inputmode: 'decimal', size: '6', value: String(this.plate[name]), 'data-measure': name,
          onchange: () => {
            const value = number(input.value);
            if (value > 0 && value <= 400) {
              this.plate[name] = value;
              this.plate.measured = { ...this.plate.measured, [name]: true };
            }
            input.value = String(this.plate[name]);
            this.changed();
          } });
        return field(label, input);
      });
  }

  /// Something of the plate is other than it was, but for what the drawing or the list shows already.
  changed({ isDrawn = false, isListed = false } = {}) {
    this.sheet.changed();
    if (!isDrawn) this.drawing.draw();
    if (!isListed) this.listLanes();
    this.showLearning();
    for (const name of ['width', 'height', 'start', 'front']) {
      const input = document.querySelector(`[data-measure="${name}"]`);
      if (input !== document.activeElement) input.value = String(this.plate[name]);
    }
    this.answerSoon();
    this.printSoon();
  }

  showLearning() {
    this.learning.hidden = about.role === 'visitor' || !(this.plate.system && hasStandard(this.plate));
  }

  laneRow(lane, i) {
    const changed = () => this.changed({ isListed: true });
    const label = h('input', { value: lane.label, 'aria-label': `what is on lane ${i + 1}`,
      onchange: () => { lane.label = label.value.trim(); changed(); } });
    const fault = h('small', { class: 'fault', role: 'alert' });
    const spots = h('input', { value: lane.spots.map((spot) => spot.mm).join('  '), inputmode: 'decimal',
      'aria-label': `distances of the spots on lane ${i + 1}, mm`,
      onchange: () => {
        const typed = spotsOf(spots.value, this.plate);
        fault.textContent = typed.fault;
        spots.classList.toggle('faulty', typed.fault !== '');
        lane.spots = typed.spots;
        changed();
      } });
    const drop = () => {
      this.plate.lanes.splice(this.plate.lanes.indexOf(lane), 1);
      this.changed();
    };
    return h('tr', {}, h('th', { scope: 'row' }, String(i + 1)), h('td', {}, label),
      h('td', {}, choice(roles, lane.role, (role) => { lane.role = role; changed(); })),
      h('td', {}, spots, fault), h('td', {}, button('remove', drop, { 'aria-label': `remove lane ${i + 1}` })));
  }

  listLanes() {
    const headings = ['Lane', 'What is on it', 'Role', 'Spots, mm from the start', ''];
    this.lanes.replaceChildren(h('div', { class: 'wide' }, h('table', { class: 'entry' },
      h('thead', {}, h('tr', {}, headings.map((text) => h('th', { scope: 'col' }, text)))),
      h('tbody', {}, this.plate.lanes.map((lane, i) => this.laneRow(lane, i))))));
  }

  addLaneBelow() {
    addLane(this.plate, nextPlace(this.plate));
    this.changed();
    this.lanes.querySelector('tbody tr:last-child input').focus();
  }

  identifyCall() {
    if (!this.plate.system || !hasSample(this.plate)) return null;
    return { verb: 'identify', arguments: [kTable], options: { system: this.plate.system }, files: { [kTable]: plateTable(this.plate) } };
  }

  async answer() {
    const call = this.identifyCall();
    if (!call) {
      this.features.clear();
      this.showCandidates(this.drawing.selected);
      return;
    }
    const answer = await runVerb(call, { sheet: this.sheet.id, slot: 'live' }).catch((error) => ({ code: 2, messages: error.message }));
    if (answer.stopped) return;
    this.features.clear();
    if (isDone(answer)) {
      const found = resultsOf(answer);
      for (const lane of this.plate.lanes) {
        for (const spot of lane.spots) {
          const feature = found.find((one) => one.plate?.lane === String(this.plate.lanes.indexOf(lane) + 1) && one.feature === spotName(lane, spot));
          if (feature) this.features.set(spot, feature);
        }
      }
      this.notes.replaceChildren();
    } else {
      this.notes.replaceChildren(refusal(answer.messages));
    }
    this.nameSpots();
    this.showCandidates(this.drawing.selected);
  }

  nameSpots() {
    this.drawing.names = new Map([...this.features].map(([spot, feature]) => {
      const [best] = feature.candidates;
      return [spot, !best || feature.unlisted > best.probability ? '?' : best.compound];
    }));
    this.drawing.draw();
  }

  showCandidates(spot) {
    const lane = this.plate.lanes.find((one) => one.spots.includes(spot));
    this.panel.replaceChildren(candidatePanel({
      title: lane ? `${laneName(this.plate, lane)}, spot ${spotName(lane, spot)}: ${spot.mm} mm` : '',
      feature: this.features.get(spot), missing: this.missing(lane) }));
    if (lane && lane.role !== 'standard') this.panel.append(this.evidence(spot));
  }

  /// Why there is no answer.
  missing(lane) {
    if (!this.plate.system) return 'Choose the system on which the plate was run.';
    if (this.plate.lanes.length === 0) return 'Add a lane and its spots, or drop a photo.';
    if (lane?.role === 'standard') return `The standard ${lane.label || 'has no name yet'}.`;
    return lane ? 'No answer yet.' : 'Choose a spot to see what it may be.';
  }

  evidence(spot) {
    const answer = (name, text) => field(text, choice([['', 'not looked at'], ['yes', 'yes'], ['no', 'no']], spot[name] ?? '',
      (value) => { spot[name] = value; this.changed(); }));
    const stain = h('input', { value: this.plate.stain ?? '', onchange: () => { this.plate.stain = stain.value; this.changed(); } });
    return h('details', { class: 'evidence', open: Boolean(spot.uv254 || spot.stained) }, h('summary', {}, 'further evidence'),
      answer('uv254', 'seen at 254 nm'), field('stain', stain, 'such as ninhydrin'), answer('stained', 'seen with the stain'));
  }

  async print() {
    const call = this.identifyCall();
    if (!call) {
      this.printed.replaceChildren();
      return;
    }
    await ask(this.printed, call, { sheet: this.sheet.id, slot: 'printed' });
  }

  async learn() {
    const answer = await ask(this.notes, { verb: 'learn', arguments: ['standards.csv'], options: { system: this.plate.system },
      files: { 'standards.csv': plateTable(this.plate) } }, { sheet: this.sheet.id, slot: 'learn' });
    if (answer && isDone(answer)) {
      say('The standards are kept.');
      this.answerSoon();
    }
  }
}

export function showPlate(view, sheet) {
  const work = new PlateSheet(view, sheet);
  return () => work.sheet.isDirty && work.sheet.save();
}
