// A system as the line on which its compounds stand, the first to leave on top.
import { h, svg, button, field, number } from '/dom.js';
import { compoundLink, median, shownValue } from '/library_words.js';

const kMost = 60; // names that are read at once
const kRow = 24, kAxis = 74, kWidth = 160;

/// The quantity of which a system has most values.
export function quantitiesOf(values) {
  const counts = new Map();
  for (const value of values) counts.set(value.quantity, (counts.get(value.quantity) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1]).map(([quantity]) => quantity);
}

/// Each compound once, in the order in which they leave: {compound, middle, low, high, count}.
export function inOrder(values, quantity) {
  const held = new Map();
  for (const value of values) {
    if (value.quantity !== quantity || (value.state && value.state !== 'held')) continue;
    if (!held.has(value.compound)) held.set(value.compound, []);
    held.get(value.compound).push(value.value);
  }
  const places = [...held].map(([compound, all]) => {
    all.sort((a, b) => a - b);
    return { compound, middle: median(all), low: all[0], high: all.at(-1), count: all.length };
  });
  const sign = quantity === 'Rf' ? -1 : 1;
  return places.sort((a, b) => sign * (a.middle - b.middle) || a.compound.localeCompare(b.compound, 'en'));
}

function roundSteps(low, high, most) {
  const rough = (high - low) / most || 1;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((one) => one * power).find((one) => one >= rough);
  const ticks = [];
  for (let at = Math.ceil(low / step); at * step <= high; at += 1) ticks.push(Number((at * step).toPrecision(10)));
  return ticks;
}

export class SystemLine {
  constructor(values, quantity) {
    this.quantity = quantity;
    this.places = inOrder(values, quantity);
    this.first = 0;
    this.drawn = h('div', { class: 'system-line' });
    this.around = h('input', { size: '8', inputmode: 'decimal', onchange: () => this.moveTo(number(this.around.value)) });
    this.name = h('input', { type: 'search', size: '16', oninput: () => this.moveToName(this.name.value.trim().toLowerCase()) });
    this.earlier = button('earlier', () => this.move(-kMost + 5));
    this.later = button('later', () => this.move(kMost - 5));
    this.where = h('span', { class: 'small', role: 'status' });
    const moves = this.places.length > kMost
      ? h('div', { class: 'given' }, field(`around ${quantity}`, this.around), field('a compound', this.name), this.earlier, this.later, this.where) : null;
    this.element = h('figure', { class: 'line-of-system' }, moves, this.drawn,
      h('figcaption', {}, `${this.places.length.toLocaleString('en')} compounds by their median ${quantity}, the first to leave on top; the bars reach from the lowest to the highest value.`));
    this.draw();
  }

  move(by) {
    this.first = Math.max(0, Math.min(this.places.length - kMost, this.first + by));
    this.draw();
  }

  moveTo(value) {
    if (!Number.isFinite(value)) return;
    const nearest = this.places.reduce((best, place, i) =>
      (Math.abs(place.middle - value) < Math.abs(this.places[best].middle - value) ? i : best), 0);
    this.first = nearest - kMost / 2;
    this.move(0);
  }

  moveToName(words) {
    const at = words === '' ? -1 : this.places.findIndex((place) => place.compound.toLowerCase().includes(words));
    this.looked = at;
    if (at >= 0) {
      this.first = at - kMost / 2;
      this.move(0);
    } else {
      this.draw();
    }
  }

  draw() {
    const some = this.places.slice(this.first, this.first + kMost);
    if (some.length === 0) {
      this.drawn.replaceChildren(h('p', { class: 'faint' }, 'No compound stands here yet.'));
      return;
    }
    this.earlier.disabled = this.first === 0;
    this.later.disabled = this.first + kMost >= this.places.length;
    this.where.textContent = `${(this.first + 1).toLocaleString('en')} to ${(this.first + some.length).toLocaleString('en')} of ${this.places.length.toLocaleString('en')}`;
    const names = h('ol', { class: 'names-on-line' }, some.map((place, i) => h('li', { class: this.first + i === this.looked ? 'lit' : null },
      compoundLink(place.compound), h('span', { class: 'number' }, shownValue(this.quantity, place.middle)))));
    this.drawn.replaceChildren(this.places.length > kMost ? this.whole() : '', this.picture(some), names);
  }

  /// The whole line beside the part whose names are read.
  whole() {
    const height = kMost * kRow;
    const place = this.scale(this.places, height);
    const path = this.places.map((one) => `M 8 ${place(one.middle).toFixed(1)} h 14`).join('');
    const [from, to] = [this.places[this.first], this.places[Math.min(this.places.length, this.first + kMost) - 1]].map((one) => place(one.middle));
    const click = (event) => {
      const box = event.currentTarget.getBoundingClientRect();
      this.moveTo(place.back((event.clientY - box.top) * height / box.height));
    };
    return svg('svg', { class: 'whole-line', width: 34, height, viewBox: `0 0 34 ${height}`, 'aria-hidden': 'true', onclick: click },
      svg('rect', { class: 'reach', x: 0, y: 0, width: 34, height }), svg('path', { class: 'ticks', d: path }),
      svg('path', { class: 'window', d: `M 26 ${from} h 5 V ${Math.max(to, from + 2)} h -5` }));
  }

  /// From a value to its height in the drawing, the first to leave on top; `back` the other way.
  scale(some, height) {
    const ends = [some[0].middle, some.at(-1).middle];
    const isWholePlate = this.quantity === 'Rf' && some.length === this.places.length;
    const [top, bottom] = isWholePlate ? [1, 0] : ends[0] === ends[1] ? [ends[0] - 1, ends[0] + 1] : ends;
    const place = (value) => kRow / 2 + (height - kRow) * (value - top) / (bottom - top);
    place.back = (y) => top + (bottom - top) * (y - kRow / 2) / (height - kRow);
    place.range = [Math.min(top, bottom), Math.max(top, bottom)];
    return place;
  }

  picture(some) {
    const height = some.length * kRow;
    const place = this.scale(some, height);
    const inside = (value) => Math.max(0, Math.min(height, place(value)));
    return svg('svg', { class: 'order', width: kWidth, height, viewBox: `0 0 ${kWidth} ${height}`, 'aria-hidden': 'true' },
      svg('line', { class: 'axis', x1: kAxis, x2: kAxis, y1: 0, y2: height }),
      roundSteps(...place.range, Math.max(2, height / 60)).map((value) => [
        svg('line', { class: 'axis', x1: kAxis - 5, x2: kAxis, y1: place(value), y2: place(value) }),
        svg('text', { class: 'tick', x: kAxis - 9, y: place(value) + 4, 'text-anchor': 'end' }, String(value))]).flat(),
      some.map((one, i) => [
        svg('path', { class: 'leader', d: `M ${kAxis + 17} ${place(one.middle)} L ${kWidth - 18} ${(i + 0.5) * kRow} H ${kWidth - 4}` }),
        svg('line', { class: 'reach-of-values', x1: kAxis + 6 + 4 * (i % 3), x2: kAxis + 6 + 4 * (i % 3), y1: inside(one.low), y2: inside(one.high) }),
        svg('circle', { class: 'point', cx: kAxis, cy: place(one.middle), r: 3 })]).flat());
  }
}
