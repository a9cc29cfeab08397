// What the pages ask the program for.

export class Refused extends Error {
  constructor(status, body) {
    super(body.error ?? `The program answered ${status}.`);
    this.status = status;
    this.body = body;
  }
}

async function ask(method, path, body, type = 'application/json') {
  let response;
  try {
    response = await fetch(path, { method, body, headers: { 'X-Cospot-Desk': '1', 'Content-Type': type } });
  } catch {
    throw new Refused(0, { error: 'The program does not answer: was it ended? What was entered up to now is kept.' });
  }
  const json = (response.headers.get('Content-Type') ?? '').startsWith('application/json');
  const answer = json ? await response.json() : { error: (await response.text()).trim() };
  if (!response.ok) throw new Refused(response.status, answer);
  return answer;
}

export const get = (path) => ask('GET', path);
export const post = (path, json) => ask('POST', path, JSON.stringify(json));
export const put = (path, json) => ask('PUT', path, JSON.stringify(json));
export const remove = (path) => ask('DELETE', path);
export const upload = (path, bytes) => ask('PUT', path, bytes, 'application/octet-stream');

/// Which library this is, and who asks: {library, exists, role: 'owner' or 'visitor', name, class}.
export const about = { role: 'owner' };
export async function askAbout() {
  return Object.assign(about, await get('/api/library'));
}

/// Two pages that look at the library at once do not stop each other's work.
const kPage = Math.random().toString(36).slice(2, 10);
const placeOf = (sheet, slot) => (sheet ? `/api/sheets/${sheet}/run/${slot}` : `/api/library/run/${slot}-${kPage}`);

/// Calls a verb: {verb, arguments, options, form, files}. Only the newest call of a slot is answered;
/// an older one comes back as {stopped: true}. `onProgress` hears how far long work is.
export async function runVerb(call, { sheet = null, slot = 'work', onProgress = null } = {}) {
  const path = placeOf(sheet, slot);
  let timer = 0;
  if (onProgress) {
    timer = setInterval(async () => {
      const state = await get(path).catch(() => ({ runs: false }));
      if (state.runs && timer) onProgress(state.progress);
    }, 700);
  }
  try {
    return await post(path, call);
  } finally {
    clearInterval(timer);
    timer = 0;
  }
}

export const stopVerb = ({ sheet = null, slot = 'work' } = {}) => remove(placeOf(sheet, slot));

/// The results of a verb that was asked for JSON: an object a line.
export function resultsOf(answer) {
  return answer.output.split('\n').filter((line) => line !== '').map((line) => JSON.parse(line));
}

/// The systems of the library, in the order of their names.
export async function librarySystems() {
  return resultsOf(await runVerb({ verb: 'list', arguments: ['systems'] }, { slot: `systems-${counter += 1}` }));
}
let counter = 0;
