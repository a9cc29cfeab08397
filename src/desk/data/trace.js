// A recorded trace as a report draws it, to be pointed into: a time, a peak, a border that is dragged.
import { svg } from '/dom.js';
import { enliven } from '/report.js';

/// The picture of the trace in an answer.
export function traceIn(html) {
  const figure = new DOMParser().parseFromString(html, 'text/html').querySelector('figure:has(svg.trace)');
  return figure ? document.adoptNode(figure) : null;
}

/// `on.time(minutes)` when a place is pointed at, `on.peak(key)` when a peak is, `on.border(from, to)` when a
/// border of the chosen peak was dragged.
export class TraceView {
  constructor(place, on) {
    this.place = place;
    this.on = on;
    this.blank = null;
  }

  get trace() { return this.place.querySelector('svg.trace'); }
  isEmpty() { return !this.trace; }
  clear() { this.place.replaceChildren(); }

  /// Shows `figure`, zoomed as the one before; `span` are the first and the last minute of the trace.
  show(figure, span) {
    const zoomed = this.trace?.dataset.window;
    this.span = span;
    const trace = figure.querySelector('svg.trace');
    if (zoomed) trace.dataset.window = zoomed;
    this.place.replaceChildren(figure);
    this.picture = trace.parentElement.closest('svg');
    const axes = [...this.picture.querySelectorAll(':scope > line.axis')].filter((line) => line.getAttribute('y1') === line.getAttribute('y2'));
    const lowest = axes.sort((a, b) => b.getAttribute('y1') - a.getAttribute('y1'))[0];
    this.from = Number(lowest.getAttribute('x1'));
    this.to = Number(lowest.getAttribute('x2'));
    this.base = Number(lowest.getAttribute('y1'));
    this.height = trace.viewBox.baseVal.height;
    this.hand = svg('g', { class: 'hand' });
    trace.append(this.hand);
    enliven(this.place);
    this.picture.addEventListener('click', (event) => this.clicked(event));
    this.picture.addEventListener('focusin', (event) => {
      const mark = event.target.closest('.mark[data-key]');
      if (mark && mark.matches(':focus-visible')) this.on.peak(mark.dataset.key);
    });
    trace.addEventListener('zoomed', () => this.showBlank());
    this.showBlank();
  }

  x(minutes) {
    const [first, last] = this.span;
    return this.from + (minutes - first) / (last - first) * (this.to - this.from);
  }

  minutesUnder(event) {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.hand.getScreenCTM().inverse());
    const [first, last] = this.span;
    const minutes = first + (at.x - this.from) / (this.to - this.from) * (last - first);
    return Math.round(Math.min(Math.max(minutes, first), last) * 1000) / 1000;
  }

  clicked(event) {
    if (this.hasDragged) {
      this.hasDragged = false;
      return;
    }
    const mark = event.target.closest?.('.mark[data-key]');
    if (mark) this.on.peak(mark.dataset.key);
    else this.on.time(this.minutesUnder(event));
  }

  /// Draws the time that is meant and the borders of the chosen peak.
  mark({ minutes, peak }) {
    if (this.isEmpty()) return;
    this.hand.replaceChildren(
      ...(Number.isFinite(minutes) ? [this.line('meant', minutes)] : []),
      ...(peak ? [peak.start, peak.end].filter((at) => at !== undefined).map((at) => this.border(at)) : []));
    for (const one of this.picture.querySelectorAll('[data-key]')) one.classList.toggle('chosen', one.dataset.key === peak?.peak);
  }

  line(kind, minutes, properties = {}) {
    return svg('line', { class: kind, x1: this.x(minutes), x2: this.x(minutes), y1: -1000 * this.height, y2: this.base, ...properties });
  }

  border(minutes) {
    const seen = this.line('border', minutes);
    const grip = this.line('border-grip', minutes);
    grip.addEventListener('pointerdown', (event) => {
      if (event.button !== 0) return;
      event.preventDefault();
      event.stopPropagation();
      let to = minutes;
      const moved = (next) => {
        to = this.minutesUnder(next);
        for (const line of [seen, grip]) for (const end of ['x1', 'x2']) line.setAttribute(end, this.x(to));
      };
      const up = () => {
        removeEventListener('pointermove', moved);
        removeEventListener('pointerup', up);
        this.hasDragged = true; // the click that follows is no pointing
        setTimeout(() => { this.hasDragged = false; });
        if (to !== minutes) this.on.border(minutes, to);
      };
      addEventListener('pointermove', moved);
      addEventListener('pointerup', up);
    });
    return svg('g', {}, svg('title', {}, `border at ${minutes.toFixed(3)} min: drag it`), seen, grip);
  }

  /// The blank as a faint line below, at the same times, on a scale of its own.
  setBlank(figure) {
    this.blank = figure;
    this.showBlank();
  }

  showBlank() {
    this.place.querySelector('.blank')?.remove();
    const signal = this.blank?.querySelector('svg.trace .signal');
    if (!signal || this.isEmpty()) return;
    const [left, width] = (this.trace.dataset.window ?? `0 ${this.trace.viewBox.baseVal.width}`).split(' ').map(Number);
    const { width: whole } = this.picture.viewBox.baseVal;
    const inner = svg('svg', { class: 'trace-below', width: whole, height: 70, viewBox: `${left} 0 ${width} ${this.height}`, preserveAspectRatio: 'none' });
    inner.append(signal.cloneNode());
    const highest = this.blank.querySelector('figcaption').textContent.match(/highest signal [^.;]*(?:\.\d[^.;]*)?/)?.[0];
    const strip = svg('svg', { class: 'blank', width: whole, height: 88, viewBox: `0 0 ${whole} 88`, role: 'img' },
      svg('title', {}, 'the blank'), inner, svg('text', { class: 'tick', x: this.from, y: 84 }, `blank, on a scale of its own${highest ? `: ${highest}` : ''}`));
    this.picture.after(strip);
  }
}
