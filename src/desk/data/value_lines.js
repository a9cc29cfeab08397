// The values of a compound as dots, a line for each system: days along it, the median as a hairline.
import { h, svg } from '/dom.js';
import { enliven } from '/report.js';
import { median, shownValue, systemLink } from '/library_words.js';

const kHeight = 64, kLeft = 58, kNoDay = 46, kMargin = 10;

const day = (value) => (value.date ? Date.parse(value.date.length === 4 ? `${value.date}-07-01` : value.date) : NaN);

/// The lines to be drawn: a system and a quantity, with its values.
function linesOf(values) {
  const lines = new Map();
  for (const value of values) {
    const key = `${value.system}\n${value.quantity}`;
    if (!lines.has(key)) lines.set(key, { system: value.system, quantity: value.quantity, values: [] });
    lines.get(key).values.push(value);
  }
  return [...lines.values()];
}

/// Where days stand; years are marked, or months where all lies within one year.
function daysAlong(values, width) {
  const days = values.map(day).filter(Number.isFinite);
  const hasNoDay = days.length < values.length;
  const right = width - kMargin - (hasNoDay ? kNoDay : 0);
  if (days.length === 0) return { at: () => width - kNoDay / 2 - kMargin, ticks: [], right };
  const low = Math.min(...days) - 12 * 864e5, high = Math.max(...days) + 12 * 864e5;
  const place = (time) => kLeft + kMargin + (right - kLeft - kMargin) * (time - low) / (high - low);
  const from = new Date(low).getUTCFullYear(), to = new Date(high).getUTCFullYear();
  const step = Math.max(1, Math.ceil((to - from) / ((right - kLeft) / 60)));
  const ticks = [];
  for (let year = from; year <= to; year += step) ticks.push([Date.UTC(year, 0, 1), String(year)]);
  if (to === from) for (let month = 1; month < 12; month += 3) ticks.push([Date.UTC(from, month, 1), `${from}-${String(month + 1).padStart(2, '0')}`]);
  return { at: (value) => (Number.isFinite(day(value)) ? place(day(value)) : width - kNoDay / 2 - kMargin), right,
    ticks: ticks.filter(([time]) => time >= low && time <= high).map(([time, text]) => [place(time), text]) };
}

function words(value) {
  const end = value.state === 'held' || !value.state ? '' : `, ${value.state === 'retired' ? 'withdrawn' : 'corrected since'}${value.withdrawn?.detail ? `: ${value.withdrawn.detail}` : ''}`;
  return `${value.quantity} ${shownValue(value.quantity, value.value)}, ${value.date || 'no day'}${value.run ? `, run ${value.run}` : ''}, #${value.id}${end}`;
}

function dot(value, x, y, isSuspect) {
  const kind = value.state && value.state !== 'held' ? 'withdrawn' : isSuspect ? 'suspect' : '';
  return svg('g', { class: `mark value-dot ${kind}`, 'data-id': value.id }, svg('title', {}, words(value)),
    svg('circle', { class: 'reach', cx: x, cy: y, r: 11 }), svg('circle', { class: 'point', cx: x, cy: y, r: 4.5 }),
    kind === 'withdrawn' ? svg('path', { class: 'cross', d: `M ${x - 6} ${y + 6} L ${x + 6} ${y - 6}` }) : null);
}

function drawLine(line, along, width, suspects) {
  const counting = line.values.filter((value) => !value.state || value.state === 'held').map((value) => value.value).sort((a, b) => a - b);
  const all = line.values.map((value) => value.value);
  const middle = counting.length ? median(counting) : all[0];
  const least = line.quantity === 'Rf' ? 0.04 : Math.abs(middle) * 0.004; // smaller spreads are not blown up
  const low = Math.min(...all, middle - least), high = Math.max(...all, middle + least);
  const place = (value) => kHeight - 12 - (kHeight - 24) * (value - low) / (high - low || 1);
  const ends = [Math.max(...all), Math.min(...all)].map((value) => [place(value), shownValue(line.quantity, value)]);
  if (Math.abs(ends[0][0] - ends[1][0]) < 14) ends.splice(0, 2, [place(middle), shownValue(line.quantity, middle)]);
  const picture = svg('svg', { class: 'value-line', width, height: kHeight, viewBox: `0 0 ${width} ${kHeight}`, role: 'group',
    'aria-label': `${line.quantity} on ${line.system}` },
    along.ticks.map(([x]) => svg('line', { class: 'grid', x1: x, x2: x, y1: 2, y2: kHeight - 2 })),
    counting.length ? svg('line', { class: 'middle', x1: kLeft, x2: width - kMargin, y1: place(middle), y2: place(middle) }) : null,
    ends.map(([y, text]) => svg('text', { class: 'tick', x: kLeft - 6, y: y + 4, 'text-anchor': 'end' }, text)),
    line.values.map((value) => dot(value, along.at(value), place(value.value), suspects.has(value.id))));
  const count = counting.length === 1 ? '1 value' : `${counting.length} values`;
  return h('div', { class: 'value-row' },
    h('p', {}, systemLink(line.system), h('span', { class: 'faint' }, ` ${line.quantity}, ${count}${counting.length ? `, median ${shownValue(line.quantity, middle)}` : ''}`)), picture);
}

function drawDays(along, width, hasNoDay) {
  return svg('svg', { width, height: 20, viewBox: `0 0 ${width} 20`, 'aria-hidden': 'true' },
    along.ticks.map(([x, text]) => svg('text', { class: 'tick', x, y: 13, 'text-anchor': 'middle' }, text)),
    hasNoDay ? svg('text', { class: 'tick', x: width - kMargin, y: 13, 'text-anchor': 'end' }, 'no day') : null);
}

export class ValueLines {
  /// `tie(id, mark)` is called for each dot whenever they are drawn; `suspects`: ids of values.
  constructor(values, tie) {
    this.values = values;
    this.tie = tie;
    this.suspects = new Set();
    this.element = h('figure', { class: 'value-lines' });
    this.watching = new ResizeObserver(() => this.draw());
    this.watching.observe(this.element);
  }

  mark(suspects) {
    this.suspects = suspects;
    this.width = 0;
    this.draw();
  }

  draw() {
    const width = Math.floor(this.element.clientWidth);
    if (width === 0 || width === this.width) return;
    this.width = width;
    const lines = linesOf(this.values);
    const along = daysAlong(this.values, width);
    const hasNoDay = this.values.some((value) => !Number.isFinite(day(value)));
    const kinds = [this.values.some((one) => one.state === 'retired' || one.state === 'superseded') && 'Struck through: no longer counted.',
      this.suspects.size > 0 && 'In colour: contradicts others.'].filter(Boolean).join(' ');
    this.element.replaceChildren(...lines.map((line) => drawLine(line, along, width, this.suspects)), drawDays(along, width, hasNoDay),
      h('figcaption', {}, `The values of each system by their days, each line on a scale of its own; the hairline is the median. ${kinds}`));
    enliven(this.element);
    for (const mark of this.element.querySelectorAll('.value-dot')) this.tie(Number(mark.dataset.id), mark);
  }

  leave() { this.watching.disconnect(); }
}
