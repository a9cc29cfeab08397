// The plate to scale. Spots, start and front are moved with the pointer or the arrow keys.
import { svg } from '/dom.js';
import { addLane, addSpot, frontDistance, laneName, spotName } from '/plate_model.js';

const kScale = 6; // units of the drawing per mm
const kLeft = 34, kTop = 16, kBelow = 40;
const kReach = 3.5; // half width of a lane, mm

const tenth = (mm) => Math.round(mm * 10) / 10;

/// Draws `plate` anew in `place`. `on.changed()` is called when something moved, `on.selected(spot)`
/// when a spot is looked at.
export class PlateDrawing {
  constructor(place, plate, on) {
    this.place = place;
    this.plate = plate;
    this.on = on;
    this.selected = null;
    this.names = new Map(); // what stands beside each spot
    this.photo = null;
    this.draw();
  }

  x(mm) { return kLeft + mm * kScale; }
  y(mm) { return kTop + (this.plate.height - mm) * kScale; }

  /// Millimetres on the plate under a pointer.
  under(event) {
    const matrix = this.picture.getScreenCTM().inverse();
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
    return { x: tenth((at.x - kLeft) / kScale), y: tenth(this.plate.height - (at.y - kTop) / kScale) };
  }

  draw() {
    const focused = document.activeElement?.dataset?.spot;
    const { plate } = this;
    const width = kLeft * 2 + plate.width * kScale;
    const height = kTop + kBelow + plate.height * kScale;
    this.picture = svg('svg', { class: 'plate drawn', viewBox: `0 0 ${width} ${height}`, width, height,
      role: 'group', 'aria-label': 'the plate, to scale' },
    svg('rect', { class: 'layer', x: this.x(0), y: this.y(plate.height), width: plate.width * kScale, height: plate.height * kScale,
      onclick: (event) => this.clicked(event) }),
    this.photo ? svg('image', { href: this.photo, x: this.x(0), y: this.y(plate.height), width: plate.width * kScale,
      height: plate.height * kScale, preserveAspectRatio: 'none', class: 'under' }) : null,
    this.ruler(), this.line('start'), this.line('front'), plate.lanes.map((lane) => this.lane(lane)));
    this.place.replaceChildren(this.picture);
    if (focused) this.picture.querySelector(`[data-spot="${focused}"]`)?.focus();
  }

  ruler() {
    const marks = [];
    for (let mm = 0; mm <= this.plate.height; mm += 10) {
      marks.push(svg('line', { class: 'axis', x1: kLeft - 5, x2: kLeft, y1: this.y(mm), y2: this.y(mm) }),
        svg('text', { class: 'tick', x: kLeft - 8, y: this.y(mm) + 4, 'text-anchor': 'end' }, String(mm)));
    }
    return svg('g', { 'aria-hidden': 'true' }, marks);
  }

  line(which) {
    const { plate } = this;
    const name = which === 'start' ? 'start line' : 'solvent front';
    const move = (mm) => {
      const low = which === 'start' ? 0 : plate.start + 5;
      const high = which === 'start' ? plate.front - 5 : plate.height;
      plate[which] = tenth(Math.min(Math.max(mm, low), high));
      plate.measured = { ...plate.measured, [which]: true };
      this.changed();
    };
    const handle = svg('g', { class: `line ${which}`, tabindex: 0, role: 'slider', 'data-spot': which, 'aria-label': `${name}, mm above the lower edge`,
      'aria-valuenow': plate[which], 'aria-valuemin': 0, 'aria-valuemax': plate.height,
      onkeydown: (event) => this.step(event, (by) => move(plate[which] + by)) },
    svg('title', {}, `${name}: ${plate[which]} mm above the lower edge`),
    svg('line', { class: which, x1: this.x(0), x2: this.x(plate.width), y1: this.y(plate[which]), y2: this.y(plate[which]) }),
    svg('line', { class: 'grip', x1: this.x(0), x2: this.x(plate.width), y1: this.y(plate[which]), y2: this.y(plate[which]),
      onclick: (event) => this.clicked(event) }),
    svg('text', { class: 'tick', x: this.x(plate.width) + 4, y: this.y(plate[which]) + 4 }, which));
    this.drag(handle, (at) => move(at.y));
    return handle;
  }

  lane(lane) {
    const { plate } = this;
    const number = plate.lanes.indexOf(lane) + 1;
    return svg('g', { class: 'lane' },
      svg('line', { class: 'origin', x1: this.x(lane.at) - 8, x2: this.x(lane.at) + 8, y1: this.y(plate.start), y2: this.y(plate.start) }),
      svg('text', { class: 'lane', x: this.x(lane.at), y: this.y(0) + 16, 'text-anchor': 'middle' }, String(number)),
      svg('text', { class: 'tick', x: this.x(lane.at), y: this.y(0) + 31, 'text-anchor': 'middle' },
        laneName(plate, lane).slice(0, this.letters(lane))),
      lane.spots.map((spot) => this.spot(lane, spot)));
  }

  /// How many letters fit below a lane, between its neighbours.
  letters(lane) {
    const places = this.plate.lanes.map((one) => Math.abs(one.at - lane.at)).filter((mm) => mm > 0);
    return Math.max(3, Math.floor(Math.min(...places, 20) * kScale / 6));
  }

  spot(lane, spot) {
    const { plate } = this;
    const name = `${laneName(plate, lane)}, spot ${spotName(lane, spot)}`;
    const id = `${plate.lanes.indexOf(lane)}-${lane.spots.indexOf(spot)}`;
    const move = (mm) => {
      spot.mm = tenth(Math.min(Math.max(mm, 0), frontDistance(plate)));
      delete spot.uncertainty; // that of the photo
      this.changed();
    };
    const said = this.names.get(spot) ?? '';
    const kind = lane.role === 'standard' ? 'standard' : said.startsWith('?') ? 'unlisted' : 'listed';
    const mark = svg('g', { class: `spot ${kind}${spot === this.selected ? ' lit mark' : ''}`, tabindex: 0, role: 'slider', 'data-spot': id,
      'aria-label': name, 'aria-valuenow': spot.mm, 'aria-valuemin': 0, 'aria-valuemax': frontDistance(plate),
      'aria-valuetext': `${spot.mm} mm from the start${said ? `, ${said}` : ''}`,
      onfocus: () => this.select(spot),
      onkeydown: (event) => {
        if (event.key === 'Delete') this.drop(lane, spot);
        else this.step(event, (by) => move(spot.mm + by));
      } },
    svg('title', {}, `${name}: ${spot.mm} mm`),
    svg('ellipse', { cx: this.x(lane.at), cy: this.y(plate.start + spot.mm), rx: 11, ry: 8 }),
    svg('text', { class: 'label', x: this.x(lane.at) + 14, y: this.y(plate.start + spot.mm) + 4 }, said));
    this.drag(mark, (at) => move(at.y - plate.start), () => {
      lane.spots.sort((a, b) => a.mm - b.mm);
      this.changed();
    });
    return mark;
  }

  select(spot) {
    if (this.selected === spot) return;
    this.selected = spot;
    for (const other of this.picture.querySelectorAll('.spot.lit')) other.classList.remove('lit', 'mark');
    document.activeElement?.closest?.('.spot')?.classList.add('lit', 'mark');
    this.on.selected(spot);
  }

  drop(lane, spot) {
    lane.spots.splice(lane.spots.indexOf(spot), 1);
    this.selected = null;
    this.changed();
    this.on.selected(null);
  }

  changed() {
    this.draw();
    this.on.changed();
  }

  step(event, move) {
    const by = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 }[event.key];
    if (!by) return;
    event.preventDefault();
    move(by * (event.shiftKey ? 1 : 0.1));
  }

  /// Drawing anew replaces the elements, so moves are heard by the window.
  drag(handle, move, end = () => {}) {
    handle.addEventListener('pointerdown', (event) => {
      if (event.button !== 0) return;
      handle.focus();
      let hasMoved = false;
      const moved = (next) => {
        hasMoved = true;
        move(this.under(next));
      };
      const up = () => {
        removeEventListener('pointermove', moved);
        removeEventListener('pointerup', up);
        if (hasMoved) end();
      };
      addEventListener('pointermove', moved);
      addEventListener('pointerup', up);
      event.preventDefault();
    });
  }

  /// On the start line: a new lane. Above it: a spot on the lane there, or on a new one.
  clicked(event) {
    const at = this.under(event);
    const { plate } = this;
    const near = plate.lanes.filter((lane) => Math.abs(lane.at - at.x) <= kReach)
      .sort((a, b) => Math.abs(a.at - at.x) - Math.abs(b.at - at.x))[0];
    const lane = near ?? addLane(plate, at.x);
    if (at.y > plate.start + 1.5 && at.y <= plate.front) {
      this.selected = addSpot(plate, lane, at.y - plate.start);
      this.on.selected(this.selected);
    }
    this.changed();
  }
}
