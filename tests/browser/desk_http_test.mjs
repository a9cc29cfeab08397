// What the desk answers to those who are no page of its own, and that it stays up meanwhile.
//   node desk_http_test.mjs COSPOT
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { request } from 'node:http';
import { connect } from 'node:net';
import { readdirSync } from 'node:fs';
import { after, test } from 'node:test';
import { newFolder, openDesk } from './desk_program.mjs';

const [cospot] = process.argv.slice(2);
const lab = newFolder(cospot);
const desk = await openDesk(cospot, lab.library);
after(async () => {
  await desk.end();
  lab.clear();
});

const cookie = `cospot_desk_${desk.port}=${desk.key}`;

function ask(path, { method = 'GET', headers = {}, body = null, own = true } = {}) {
  const given = own ? { Cookie: cookie, 'X-Cospot-Desk': '1' } : {};
  return new Promise((done, fail) => {
    const one = request({ host: '127.0.0.1', port: desk.port, path, method, headers: { ...given, ...headers } }, (answer) => {
      let text = '';
      answer.on('data', (part) => { text += part; });
      answer.on('end', () => done({ status: answer.statusCode, headers: answer.headers, text }));
    });
    one.on('error', fail);
    one.end(body);
  });
}

/// Sends a head and then a byte of the body each second; resolves to the seconds until the desk hangs up.
function dribble() {
  const start = performance.now();
  return new Promise((done) => {
    const socket = connect(desk.port, '127.0.0.1', () => socket.write(
      `POST /api/sheets HTTP/1.1\r\nHost: 127.0.0.1:${desk.port}\r\nCookie: ${cookie}\r\nX-Cospot-Desk: 1\r\nContent-Length: 1000\r\n\r\n`));
    const timer = setInterval(() => socket.write(' '), 1000);
    socket.on('data', () => {});
    socket.on('error', () => {});
    socket.on('close', () => { clearInterval(timer); done((performance.now() - start) / 1000); });
  });
}
const hungUp = dribble(); // meanwhile the other tests ask

const call = (json, slot = 'work') => ask(`/api/library/run/${slot}`, { method: 'POST', body: JSON.stringify(json) });

test('only the printed address opens the desk, once for all', async () => {
  assert.equal((await ask('/', { own: false })).status, 401);
  assert.equal((await ask('/?key=0123', { own: false })).status, 401);
  const entry = await ask(`/?key=${desk.key}`, { own: false });
  assert.equal(entry.status, 303);
  assert.equal(entry.headers.location, '/');
  assert.match(entry.headers['set-cookie'][0], /HttpOnly; SameSite=Strict/);
  const page = await ask('/');
  assert.equal(page.status, 200);
  assert.match(page.headers['content-security-policy'], /default-src 'none'/);
  assert.equal(page.headers['x-content-type-options'], 'nosniff');
});

test('other hosts, pages and forms are refused', async () => {
  assert.equal((await ask('/', { headers: { Host: 'evil.example' } })).status, 421);
  assert.equal((await ask('/api/sheets', { headers: { Origin: 'http://evil.example' } })).status, 403);
  assert.equal((await ask('/api/sheets', { headers: { 'Sec-Fetch-Site': 'cross-site' } })).status, 403);
  assert.equal((await ask('/api/end', { method: 'POST', headers: { 'X-Cospot-Desk': '' } })).status, 403);
});

test('it listens on this computer only', () => {
  const listening = execFileSync('sh', ['-c', 'cat /proc/net/tcp']).toString()
    .split('\n').filter((line) => line.split(/\s+/)[4] === '0A').map((line) => line.split(/\s+/)[2]);
  const port = desk.port.toString(16).toUpperCase().padStart(4, '0');
  assert.deepEqual(listening.filter((place) => place.endsWith(`:${port}`)), [`0100007F:${port}`]);
});

test('a verb answers as on the command line', async () => {
  const answer = JSON.parse((await call({ verb: 'list', arguments: ['systems'] })).text);
  assert.equal(answer.code, 0);
  assert.equal(answer.output, execFileSync(cospot, ['--library', lab.library, '--json', 'list', 'systems']).toString());
});

test('a body that is too large or never ends is given up', async () => {
  const large = await ask('/api/sheets', { method: 'POST', headers: { 'Content-Length': 1e12 } }).catch((error) => ({ status: error.code }));
  assert.equal(large.status, 413);
  const chunked = await ask('/api/sheets', { method: 'POST', headers: { 'Transfer-Encoding': 'chunked' }, body: Buffer.alloc(9 << 20, 32) })
    .catch((error) => ({ status: error.code }));
  assert.ok([413, 'EPIPE', 'ECONNRESET'].includes(chunked.status), String(chunked.status));
  assert.equal((await ask('/')).status, 200);
});

test('what is no HTTP is closed', async () => {
  for (const text of ['\0\x01\x02\r\n\r\n', 'GET / HTTP/9.9\r\n\r\n', `GET / HTTP/1.1\r\nX: ${'a'.repeat(20000)}\r\n\r\n`]) {
    await new Promise((done) => {
      const socket = connect(desk.port, '127.0.0.1', () => socket.write(text));
      socket.on('data', () => {});
      socket.on('close', done);
      socket.on('error', done);
    });
  }
  assert.equal((await ask('/')).status, 200);
});

test('200 connections at once, and as many that say nothing', async () => {
  const silent = Array.from({ length: 200 }, () => connect(desk.port, '127.0.0.1'));
  const answers = await Promise.all(Array.from({ length: 50 }, () => ask('/api/library')));
  assert.deepEqual([...new Set(answers.map((one) => one.status))], [200]);
  silent.forEach((socket) => socket.destroy());
  const many = await Promise.all(Array.from({ length: 200 }, () => ask('/desk.css')));
  assert.deepEqual([...new Set(many.map((one) => one.status))], [200]);
});

test('a newer call of a slot stops the older one', async () => {
  const old = call({ verb: 'prove', options: { 'dry-run': true } }, 'slow');
  await new Promise((done) => { setTimeout(done, 150); });
  const young = await call({ verb: 'list' }, 'slow');
  assert.equal(JSON.parse((await old).text).stopped, true);
  assert.equal(JSON.parse(young.text).code, 0);
});

test('long work can be stopped', async () => {
  const work = call({ verb: 'prove', options: { 'dry-run': true } }, 'stopped');
  await new Promise((done) => { setTimeout(done, 150); });
  assert.equal(JSON.parse((await ask('/api/library/run/stopped')).text).runs, true);
  await ask('/api/library/run/stopped', { method: 'DELETE' });
  const answer = JSON.parse((await work).text);
  assert.equal(answer.stopped, true);
  assert.notEqual(answer.code, 0);
});

test('two who write at once: both are heard, and no older page overwrites a newer', async () => {
  const make = (title) => ask('/api/sheets', { method: 'POST', body: JSON.stringify({ title }) });
  const made = (await Promise.all(Array.from({ length: 20 }, (_, i) => make(`sheet ${i}`)))).map((one) => JSON.parse(one.text));
  assert.equal(new Set(made.map((one) => one.id)).size, 20);
  const write = (title) => ask(`/api/sheets/${made[0].id}?revision=1`, { method: 'PUT', body: JSON.stringify({ title }) });
  const statuses = (await Promise.all([write('a'), write('b')])).map((one) => one.status).sort();
  assert.deepEqual(statuses, [200, 409]);
});

test('two libraries in the hands of one: learning at once loses nothing', async () => {
  const rows = (run) => `compound,smiles,system,quantity,value,run\nsalicylaldehyde,O=Cc1ccccc1O,silica-HEA41,Rf,0.5,${run}\n`;
  const sheet = JSON.parse((await ask('/api/sheets', { method: 'POST', body: '{"title":"t"}' })).text).id;
  const learn = (run) => ask(`/api/sheets/${sheet}/run/${run}`, { method: 'POST',
    body: JSON.stringify({ verb: 'learn', arguments: [`${run}.csv`], files: { [`${run}.csv`]: rows(run) } }) });
  const answers = await Promise.all(['W1', 'W2', 'W3', 'W4'].map(learn));
  assert.deepEqual(answers.map((one) => JSON.parse(one.text).code), [0, 0, 0, 0]);
  const shown = execFileSync(cospot, ['--library', lab.library, '--json', 'show', 'salicylaldehyde']).toString();
  assert.deepEqual(['W1', 'W2', 'W3', 'W4'].filter((run) => shown.includes(`"run":"${run}"`)).length, 4);
});

// The values of all compounds that `list --json` printed.
function valuesOf(listed) {
  return listed.trim().split('\n').filter(Boolean).map((line) => JSON.parse(line).values).reduce((sum, count) => sum + count, 0);
}

test('killed amid a change, it has changed nothing or all, and leaves nothing behind', async () => {
  const other = newFolder(cospot);
  const second = await openDesk(cospot, other.library);
  const rows = ['compound,smiles,system,quantity,value,run'];
  for (let i = 0; i < 8000; i += 1) rows.push(`compound ${i},${'C'.repeat(1 + i % 60)}I,silica-HEA41,Rf,0.5,K${i}`);
  const headers = { Cookie: `cospot_desk_${second.port}=${second.key}`, 'X-Cospot-Desk': '1' };
  const body = JSON.stringify({ verb: 'learn', arguments: ['k.csv'], options: { accept: true }, files: { 'k.csv': rows.join('\n') } });
  const send = (path, text) => fetch(`http://127.0.0.1:${second.port}${path}`, { method: 'POST', headers, body: text });
  const sheet = (await (await send('/api/sheets', '{"title":"k"}')).json()).id;
  const lost = send(`/api/sheets/${sheet}/run/learn`, body).catch(() => 'lost');
  await new Promise((done) => { setTimeout(done, 200); });
  assert.equal(await second.end('SIGKILL'), 'SIGKILL');
  assert.equal(await lost, 'lost');
  // The verb itself may live on: what it learns is seen as a whole, or not at all.
  const seen = new Set();
  for (let i = 0; i < 40 && !seen.has(8000); i += 1) {
    const listed = execFileSync(cospot, ['--library', other.library, '--json', 'list', '--name', 'compound '], { stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1 << 28 });
    seen.add(valuesOf(listed.toString()));
    await new Promise((done) => { setTimeout(done, 250); });
  }
  assert.deepEqual([...seen].filter((count) => count !== 0 && count !== 8000), []);
  const again = await openDesk(cospot, other.library);
  assert.ok(readdirSync(`${other.library}.sheets`).includes(sheet), 'the sheet is still there');
  assert.equal(await again.end(), 0);
  other.clear();
});

test('a body that comes byte by byte is given up after half a minute', async () => {
  const seconds = await hungUp;
  assert.ok(seconds > 25 && seconds < 45, `${seconds} s`);
  assert.equal((await ask('/')).status, 200);
});

test('it ends in order', async () => {
  const other = newFolder(cospot, { withLibrary: false });
  const third = await openDesk(cospot, other.library);
  assert.equal(await third.end('SIGINT'), 0);
  other.clear();
});
