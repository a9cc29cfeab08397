// A run: its trace or its peaks, what was changed by hand, and what each peak may be.
import { h, button, percent, settled } from '/dom.js';
import { runVerb, resultsOf } from '/api.js';
import { ask, isDone, refusal, show } from '/answer.js';
import { sheetFrame } from '/sheet.js';
import { candidatePanel } from '/candidates.js';
import { FileEntry } from '/file_entry.js';
import { Method } from '/method.js';
import { PeakChanges, changeOptions, peakAt } from '/peak_changes.js';
import { TraceView, traceIn } from '/trace.js';

/// A table of peaks has such a heading; a trace has times and signals only.
const kTableOfPeaks = /(^|[,;\t"])\s*(peak|tR)\b/im;

class RunSheet {
  constructor(view, sheet) {
    this.sheet = sheet;
    sheet.data.entered = { system: '', files: [], shown: '', blank: [], changes: [], ...sheet.entered };
    this.run = sheet.data.entered;
    this.peaks = []; // of the trace, as the program found them
    this.features = []; // as it answered
    this.chosen = null;
    const { frame, work } = sheetFrame(sheet, () => this.keptCall());
    const changed = () => this.changed();
    this.file = new FileEntry({ sheet, label: 'The run: a recorded trace, or a table of its peaks', names: this.run.files, pastedName: 'run', changed: () => this.otherFile(), taken: () => [...this.method.ladder.held.names, ...this.run.blank] });
    this.method = new Method({ sheet, entered: this.run, changed, tables: () => this.run.files });
    this.blank = new FileEntry({ sheet, label: 'A blank, to be subtracted', names: this.run.blank, pastedName: 'blank', changed, taken: () => [...this.run.files, ...this.method.ladder.held.names] });
    this.blankEntry = h('details', { class: 'blank-entry', open: this.run.blank.length > 0 }, h('summary', {}, 'with a blank'), this.blank.element);
    const picture = h('div', { class: 'trace-picture' });
    this.trace = new TraceView(picture, { time: (at) => this.pointed(at), peak: (key) => this.choose(key), border: (at, to) => this.changes.ask({ kind: 'move', at, to }) });
    this.changes = new PeakChanges(this.run.changes, { tried: (list) => this.tried(list), time: (at) => this.mark(at),
      changed: ({ isRedrawn = false } = {}) => (isRedrawn ? this.mark(this.changes.at) : this.changed()) });
    this.measures = h('div', {});
    this.traceWork = h('section', { class: 'trace-work', 'aria-label': 'the trace', hidden: true }, picture,
      h('p', { class: 'hint' }, 'Click into the trace for a time, or type it; borders of the chosen peak can be dragged. Each change asks for its reason.'),
      this.changes.element, h('details', { class: 'measures' }, h('summary', {}, 'measures of the peaks'), this.measures));
    this.notes = h('div', { class: 'notes-of-run' });
    this.list = h('div', { class: 'peak-list' });
    this.panel = h('aside', { class: 'panel', 'aria-live': 'polite', 'aria-label': 'candidates of the peak' });
    this.beside = h('div', { class: 'plate-work' }, this.list, this.panel);
    this.printed = h('section', { class: 'as-printed', 'aria-label': 'as it will print' });
    work.append(h('div', { class: 'entries' }, this.file.element, this.method.ladder.element), this.method.element, this.blankEntry,
      this.notes, this.traceWork, this.beside, this.printed);
    this.work = work;
    work.setAttribute('aria-busy', 'true');
    view.replaceChildren(frame);
    this.answerSoon = settled(() => this.answer(), 30);
    this.showPeaks();
    this.answerSoon();
  }

  changed() {
    this.sheet.changed();
    this.work.setAttribute('aria-busy', 'true');
    this.answerSoon();
  }

  /// Changes by hand belong to the trace in which they were made: they are laid aside until it comes back.
  otherFile() {
    const { run } = this;
    const [name = ''] = run.files;
    if (name !== run.shown) {
      run.laidAside = { ...run.laidAside, [run.shown]: [...run.changes] };
      this.changes.replace(run.laidAside[name] ?? []);
      run.shown = name;
      this.changes.setTime(NaN);
    }
    this.trace.clear();
    this.chosen = null;
    this.changed();
  }

  /// The call of `peaks` with these changes; nothing without a file.
  peaksCall(changes = this.run.changes) {
    const [name] = this.run.files;
    const [blank] = this.run.blank;
    return name ? { verb: 'peaks', arguments: [name], form: 'json',
      options: { ...this.method.readingOptions(), ...(blank ? { minus: blank } : {}), ...changeOptions(changes) } } : null;
  }

  identifyCall() {
    const [name] = this.run.files;
    if (!name || !this.run.system) return null;
    const { options, files } = this.method.call();
    const [blank] = this.run.blank;
    return { verb: 'identify', arguments: [name], files,
      options: { ...options, ...(this.isTrace && blank ? { minus: blank } : {}), ...(this.isTrace ? changeOptions(this.run.changes) : {}) } };
  }

  keptCall() { return this.identifyCall() ?? (this.isTrace ? this.peaksCall() : null); }

  async tried(changes) {
    const answer = await runVerb(this.peaksCall(changes), { sheet: this.sheet.id, slot: 'tried' }).catch((error) => ({ code: 2, messages: error.message }));
    return isDone(answer) ? '' : answer.messages || 'Stopped before it was done.';
  }

  /// Is the file a trace? Then its peaks.
  async findPeaks() {
    const call = this.peaksCall();
    if (!call) {
      this.peaks = [];
      this.isTrace = false;
      return { code: 2, messages: '' };
    }
    const answer = await runVerb(call, { sheet: this.sheet.id, slot: 'peaks' }).catch((error) => ({ code: 2, messages: error.message }));
    if (answer.stopped) return answer;
    if (isDone(answer)) {
      this.peaks = resultsOf(answer);
      this.summary = this.peaks.pop();
      this.isTrace = true;
      return answer;
    }
    this.peaks = [];
    this.isTrace = !/found no trace;/.test(answer.messages) && !(/without a unit/.test(answer.messages) && await this.isTable());
    return answer;
  }

  async isTable() {
    const response = await fetch(this.sheet.file(this.run.files[0]), { headers: { 'X-Cospot-Desk': '1' } });
    return response.ok && kTableOfPeaks.test((await response.text()).slice(0, 4000));
  }

  /// Looks at what was entered; a newer look makes this one end early.
  async answer() {
    const look = Symbol('look');
    this.look = look;
    await this.lookAt();
    if (this.look === look) this.work.setAttribute('aria-busy', 'false');
  }

  async lookAt() {
    const found = await this.findPeaks();
    if (found.stopped) return;
    this.traceWork.hidden = !this.isTrace || (this.trace.isEmpty() && !isDone(found) && this.run.changes.length === 0);
    this.blankEntry.hidden = !this.isTrace && this.run.blank.length === 0;
    this.changes.setPeaks(this.peaks);
    this.features = [];
    if (this.isTrace && !isDone(found)) this.tell(found.messages);
    else await this.answerAbout(found);
    this.showPeaks();
  }

  async answerAbout(found) {
    if (this.isTrace) await this.showTrace();
    else this.trace.clear();
    const call = this.identifyCall();
    if (!call) {
      this.tell('');
      this.printed.replaceChildren();
      return;
    }
    const answer = await runVerb(call, { sheet: this.sheet.id, slot: 'live' }).catch((error) => ({ code: 2, messages: error.message }));
    if (answer.stopped) return;
    this.tell(isDone(answer) ? '' : answer.messages);
    if (!isDone(answer)) {
      this.printed.replaceChildren();
      return;
    }
    this.features = resultsOf(answer);
    this.showPeaks();
    await this.print(call);
  }

  /// Faults stand at their fields and files; what has no place of its own stands below.
  tell(messages) {
    const rest = this.method.tell(messages, { files: [...this.file.places(), ...this.blank.places()], options: [['minus', (lines) => this.blank.tellOf('', lines)]] });
    this.notes.replaceChildren(...(rest.length > 0 ? [refusal(rest.join('\n'))] : []));
    if (messages) this.printed.replaceChildren();
  }

  async showTrace() {
    const answer = await runVerb({ ...this.peaksCall(), form: 'html' }, { sheet: this.sheet.id, slot: 'trace' }).catch(() => null);
    if (!answer || answer.stopped || !isDone(answer)) return;
    show(this.measures, answer);
    this.measures.querySelector('svg.defs')?.remove(); // folded away, its hatching would hatch nothing
    // The picture of the answer, which has the ruler of the ladder, follows at once where there is one.
    if (this.trace.isEmpty() || !this.identifyCall()) this.drawTrace(answer.output);
    await this.showBlank();
  }

  async showBlank() {
    const [blank] = this.run.blank;
    if (!blank) {
      this.trace.setBlank(null);
      return;
    }
    const answer = await runVerb({ verb: 'peaks', arguments: [blank], options: this.method.readingOptions(), form: 'html' }, { sheet: this.sheet.id, slot: 'blank' }).catch(() => null);
    if (answer && !answer.stopped && isDone(answer)) this.trace.setBlank(traceIn(answer.output));
  }

  drawTrace(html) {
    const figure = traceIn(html);
    if (!figure) return;
    this.traceWork.hidden = false;
    this.trace.show(figure, [this.summary.first_min, this.summary.last_min]);
    this.mark(this.changes.at);
  }

  async print(call) {
    const answer = await ask(this.printed, call, { sheet: this.sheet.id, slot: 'printed' });
    if (answer && isDone(answer) && this.isTrace) this.drawTrace(answer.output);
  }

  peakOf(key) { return this.peaks.find((one) => one.peak === key); }

  /// A place in the trace: the time for changes, and the peak there.
  pointed(at) {
    this.changes.setTime(at);
    this.mark(at);
  }

  mark(at) {
    const peak = Number.isFinite(at) ? peakAt(this.peaks, at) : this.peakOf(this.chosen);
    if (peak && peak.peak !== this.chosen) {
      this.chosen = peak.peak;
      this.showPeaks();
    }
    this.trace.mark({ minutes: at, peak });
  }

  choose(key) {
    this.chosen = key;
    const peak = this.peakOf(key);
    if (peak) this.changes.setTime(peak.tR);
    this.trace.mark({ minutes: peak ? peak.tR : NaN, peak });
    this.showPeaks();
  }

  /// Peaks as they stand in the list: those with an answer, and those that are named.
  listed() {
    const named = (peak) => this.run.changes.findLast((one) => one.kind === 'name' && peakAt(this.peaks, one.at) === peak)?.name;
    if (!this.isTrace) return this.features.map((feature) => ({ key: feature.feature, tR: feature.tR, feature }));
    return this.peaks.map((peak) => ({ key: peak.peak, tR: peak.tR, feature: this.features.find((one) => one.feature === peak.peak), name: named(peak) }));
  }

  showPeaks() {
    const all = this.listed();
    this.beside.hidden = all.length === 0;
    this.list.replaceChildren(h('table', {}, h('thead', {}, h('tr', {}, h('th', { scope: 'col' }, 'Peak'), h('th', { scope: 'col', class: 'number' }, 'tR, min'),
      h('th', { scope: 'col' }, 'Most likely'), h('th', { scope: 'col', class: 'number' }, 'Probability'))),
    h('tbody', {}, all.map((one) => this.row(one)))));
    const one = all.find((peak) => peak.key === this.chosen);
    this.panel.replaceChildren(candidatePanel({ title: one ? `Peak ${one.key}: ${one.tR.toFixed(3)} min` : '', feature: one?.feature, missing: this.missing(one) }));
  }

  row({ key, tR, feature, name }) {
    const [best] = feature?.candidates ?? [];
    const isListed = best && best.probability >= feature.unlisted;
    const words = name ? `named ${name}` : !feature ? '' : !best ? 'nothing to compare with' : isListed ? best.compound : 'none of the listed compounds';
    const probability = name || !best ? '' : percent(isListed ? best.probability : feature.unlisted);
    const doubt = feature?.warnings.length > 0 ? h('span', { class: 'warning', title: feature.warnings.join('; ') }, ' !') : null;
    return h('tr', { class: key === this.chosen ? 'lit' : null, onclick: () => this.choose(key) },
      h('th', { scope: 'row' }, button(key, () => {}, { 'aria-pressed': String(key === this.chosen), 'aria-label': `peak ${key}` })),
      h('td', { class: 'number' }, tR.toFixed(3)), h('td', {}, words, doubt), h('td', { class: 'number' }, probability));
  }

  /// Why there is no answer.
  missing(one) {
    if (!this.run.system) return 'Choose the system on which it was run.';
    if (one?.name) return `Named by hand: ${one.name}. It is a standard of this run.`;
    return one ? 'No answer yet.' : 'Choose a peak to see what it may be.';
  }
}

export function showRun(view, sheet) {
  const work = new RunSheet(view, sheet);
  return () => work.sheet.isDirty && work.sheet.save();
}
