// A class: others in the room read and submit, and can do no more.
//   node desk_class_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { createServer } from 'node:net';
import { request } from 'node:http';
import { request as encrypted } from 'node:https';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { launchedChromium } from './chromium.mjs';
import { newFolder, openDesk } from './desk_program.mjs';

const [cospot, modules] = process.argv.slice(2);

/// A port that is free now.
function freePort() {
  return new Promise((done) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => done(port));
    });
  });
}

const lab = newFolder(cospot);
const port = await freePort();
const desk = await openDesk(cospot, lab.library, ['--class', '--listen', `127.0.0.1:${port}`]);
const code = desk.said().match(/code (\S+)\./)[1];
const browser = await launchedChromium(modules);
after(async () => {
  await browser.close();
  await desk.end();
  lab.clear();
});

function ask(path, { method = 'GET', cookie = '', json = null, secure = null } = {}) {
  return new Promise((done, fail) => {
    const one = (secure ? encrypted : request)({ host: '127.0.0.1', port: secure?.port ?? port, path, method, rejectUnauthorized: false,
      headers: { Cookie: cookie, 'X-Cospot-Desk': '1' } }, (answer) => {
      let text = '';
      answer.on('data', (part) => { text += part; });
      answer.on('end', () => done({ status: answer.statusCode, headers: answer.headers, text }));
    });
    one.on('error', fail);
    one.end(json === null ? null : JSON.stringify(json));
  });
}

async function visitor(name) {
  const entry = await ask('/api/enter', { method: 'POST', json: { code, name } });
  assert.equal(entry.status, 200);
  return entry.headers['set-cookie'][0].split(';')[0];
}

test('it is said that nothing is encrypted', () => {
  assert.match(desk.said(), /What they send is not encrypted/);
});

test('without the code there is nothing to see', async () => {
  assert.equal((await ask('/api/library')).status, 401);
  assert.equal((await ask('/api/sheets')).status, 401);
  assert.equal((await ask('/api/library/run/x', { method: 'POST', json: { verb: 'list' } })).status, 401);
  assert.equal((await ask('/api/enter', { method: 'POST', json: { code: 'AAAA-AAAA', name: 'x' } })).status, 403);
});

test('who entered reads, but changes nothing', async () => {
  const cookie = await visitor('group 1');
  const about = JSON.parse((await ask('/api/library', { cookie })).text);
  assert.deepEqual([about.role, about.library], ['visitor', 'lab.db'], 'no path of the computer is told');
  const list = await ask('/api/library/run/a', { method: 'POST', cookie, json: { verb: 'list', arguments: ['systems'] } });
  assert.equal(JSON.parse(list.text).code, 0);
  for (const verb of ['learn', 'rename', 'retire', 'prove', 'init', 'export', 'history', 'audit']) {
    assert.equal((await ask('/api/library/run/a', { method: 'POST', cookie, json: { verb } })).status, 403, verb);
  }
  assert.equal((await ask('/api/library/run/a', { method: 'POST', cookie, json: { verb: 'list', options: { as: 'x' } } })).status, 403);
  assert.equal((await ask('/api/end', { method: 'POST', cookie, json: {} })).status, 403);
});

test('sheets are seen by who made them and by who opened the desk', async () => {
  const [one, two] = [await visitor('group 2'), await visitor('group 3')];
  const made = JSON.parse((await ask('/api/sheets', { method: 'POST', cookie: one,
    json: { title: 'ours', owner: 'somebody else', person: 'nobody', state: 'kept', kept: 'now' } })).text);
  assert.deepEqual([made.person, made.state, made.kept], ['group 2', 'open', undefined]);
  const path = `/api/sheets/${made.id}`;
  assert.equal((await ask(path, { cookie: one })).status, 200);
  assert.equal((await ask(path, { cookie: two })).status, 404);
  assert.deepEqual(JSON.parse((await ask('/api/sheets', { cookie: two })).text), []);
  assert.equal((await ask(path, { method: 'DELETE', cookie: one })).status, 403);
  assert.equal((await ask(`${path}?revision=1`, { method: 'PUT', cookie: one, json: { ...made, state: 'submitted' } })).status, 200);
  assert.equal((await ask(`${path}?revision=2`, { method: 'PUT', cookie: one, json: made })).status, 403, 'submitted');
  const owner = { Cookie: `cospot_desk_${desk.port}=${desk.key}` };
  const seen = await (await fetch(`http://127.0.0.1:${desk.port}/api/sheets?words=submitted`, { headers: owner })).json();
  assert.deepEqual(seen.map((sheet) => sheet.id), [made.id]);
});

test('nobody has too much done at once', async () => {
  const cookie = await visitor('group 4');
  const statuses = [];
  for (let i = 0; i < 32; i += 1) {
    statuses.push((await ask('/api/library/run/a', { method: 'POST', cookie, json: { verb: 'show', form: 'nonsense' } })).status);
  }
  assert.equal(statuses.at(-1), 429);
});

test('a plate from the code to its submission, in the browser', async () => {
  const page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${port}/`);
  await page.getByLabel('the code that was told').fill(code.toLowerCase());
  await page.getByLabel('your name').fill('group 5');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'A plate' }).click();
  await page.locator('.given select').selectOption('silica-HEA41');
  await page.getByRole('button', { name: 'add a lane' }).click();
  await page.getByLabel('distances of the spots on lane 1, mm').fill('28,5');
  await page.keyboard.press('Tab');
  await page.locator('.as-printed h1').waitFor();
  assert.equal(await page.getByRole('button', { name: 'keep', exact: true }).count(), 0);
  await page.getByRole('button', { name: 'submit' }).click();
  await page.getByText('Submitted.').waitFor();
  await page.close();
});

test('with a certificate it encrypts', async () => {
  const [certificate, key] = ['class.pem', 'class.key'].map((name) => join(lab.folder, name));
  execFileSync('openssl', ['req', '-x509', '-newkey', 'rsa:2048', '-nodes', '-keyout', key, '-out', certificate,
    '-days', '1', '-subj', '/CN=127.0.0.1'], { stdio: 'ignore' });
  const securePort = await freePort();
  const secure = await openDesk(cospot, lab.library, ['--class', '--listen', `127.0.0.1:${securePort}`,
    '--certificate', certificate, '--key', key]);
  assert.doesNotMatch(secure.said(), /not encrypted/);
  const page = await ask('/', { secure: { port: securePort } });
  assert.equal(page.status, 200);
  const entry = await ask('/api/enter', { method: 'POST', secure: { port: securePort },
    json: { code: secure.said().match(/code (\S+)\./)[1], name: 'x' } });
  assert.match(entry.headers['set-cookie'][0], /; Secure/);
  await assert.rejects(fetch(`http://127.0.0.1:${securePort}/`));
  assert.equal(await secure.end(), 0);
});
