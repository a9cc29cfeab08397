// The library in the browser: found, added to, corrected and looked through, by what a reader sees.
//   node desk_library_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { launchedChromium } from './chromium.mjs';
import { hostileName } from './invented_laboratory.mjs';
import { faintTexts, overflowing } from './measures.mjs';

const [cospot, modules] = process.argv.slice(2);
const demo = new URL('../../tools/demo-data/', import.meta.url).pathname;

const folder = mkdtempSync(join(tmpdir(), 'cospot-desk-library-'));
const library = join(folder, 'invented.db');
const run = (...words) => execFileSync(cospot, ['--library', library, ...words], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
const results = (...words) => run('--json', ...words).split('\n').filter(Boolean).map((line) => JSON.parse(line));

let browser, desk, address, page;
const heard = [];

/** The address that the desk prints. */
function opened(process) {
  return new Promise((found, failed) => {
    let said = '';
    process.stderr.on('data', (text) => {
      said += text;
      const at = said.match(/http:\S+/);
      if (at) found(at[0]);
    });
    process.on('exit', () => failed(new Error(said)));
  });
}

async function pageOf(options = {}) {
  const context = await browser.newContext(options);
  const one = await context.newPage();
  one.on('console', (message) => heard.push(message.text()));
  one.on('pageerror', (error) => heard.push(String(error)));
  await one.goto(address);
  return one;
}

const go = (place) => page.evaluate((hash) => { location.hash = hash; }, `#/library${place}`);
const heading = (text) => page.getByRole('heading', { level: 1, name: text }).waitFor();
const found = () => page.locator('.count-found');

before(async () => {
  run('init');
  run('learn', '--systems', join(demo, 'systems.csv'), join(demo, 'library.csv'));
  const hostile = join(folder, 'hostile.csv');
  writeFileSync(hostile, `compound,smiles\n"${hostileName}",CCCCCCCCCCCCCCCC\n50 % acid/base,CCCCCCCCCCCCCCCCC\n`);
  run('learn', hostile);
  browser = await launchedChromium(modules);
  desk = spawn(cospot, ['--library', library, 'desk', '--no-browser'], { stdio: ['ignore', 'ignore', 'pipe'] });
  address = await opened(desk);
  page = await pageOf({ viewport: { width: 1280, height: 900 } });
});
after(async () => {
  await browser?.close();
  if (desk) {
    const ended = new Promise((done) => desk.on('exit', done));
    desk.kill('SIGTERM');
    await ended;
  }
  rmSync(folder, { recursive: true });
});

test('a compound is found while its name is typed, and Enter opens its card', async () => {
  await page.getByRole('link', { name: 'Library' }).click();
  await found().filter({ hasText: '70 compounds.' }).waitFor();
  await page.getByLabel('part of a name').focus();
  await page.keyboard.type('carvone');
  await found().filter({ hasText: '2 compounds.' }).waitFor();
  await page.keyboard.press('Home');
  await page.keyboard.type('(R)-');
  await found().filter({ hasText: '1 compound.' }).waitFor();
  await page.keyboard.press('Enter');
  await heading('(R)-carvone');
  await page.goBack();
  await found().filter({ hasText: '1 compound.' }).waitFor(); // what was looked for is still there
  await page.getByLabel('part of a name').fill('108-88-3');
  await page.getByRole('link', { name: 'toluene' }).waitFor(); // by its registry number
  await page.getByLabel('part of a name').fill('');
});

test('mass, substructure and system narrow the search, and a wrong pattern is said', async () => {
  await go('');
  await page.getByLabel('substructure (SMARTS)').fill('c1ccccc1[OX2H]');
  const phenols = results('list', '--substructure', 'c1ccccc1[OX2H]').length;
  assert.ok(phenols > 1);
  await found().filter({ hasText: `${phenols} compounds.` }).waitFor();
  await page.getByLabel('mass from, Da').fill('150,0');
  await page.getByLabel('to, Da').fill('150.2');
  await found().filter({ hasText: '1 compound.' }).waitFor();
  await page.getByRole('link', { name: 'thymol' }).waitFor();
  await page.getByLabel('measured on').selectOption('paper-BAW415');
  await found().filter({ hasText: 'No compound.' }).waitFor();
  await page.getByLabel('measured on').selectOption('');
  await page.getByLabel('substructure (SMARTS)').fill('c1cc(');
  await page.getByRole('search').getByRole('alert').filter({ hasText: 'expected a SMARTS pattern' }).waitFor();
  for (const label of ['substructure (SMARTS)', 'mass from, Da', 'to, Da']) await page.getByLabel(label).fill('');
});

test('a structure is drawn as it is typed, kept over a reload, and added by the keyboard alone', async () => {
  await go('');
  await page.locator('.add-compound summary').focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('name', { exact: true }).focus();
  await page.keyboard.type('anisole');
  await page.getByText('The library holds this name').waitFor();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('guaiacol');
  await page.keyboard.press('Tab');
  await page.keyboard.type('COc1ccccc1');
  await page.getByText('The library holds this structure as anisole').waitFor();
  await page.keyboard.type('O');
  await page.locator('.structure-preview').getByText('C7H8O2').waitFor();
  assert.equal(await page.locator('.structure-preview svg').count(), 1);
  await page.keyboard.type('(');
  await page.locator('.adding [role=alert]').filter({ hasText: 'found' }).waitFor();
  const kept = page.waitForResponse((answer) => answer.request().method() === 'PUT' && answer.ok());
  await page.keyboard.press('Backspace');
  await page.locator('.structure-preview:not(.former)').getByText('C7H8O2').waitFor();
  await kept;
  await page.reload();
  await page.locator('.structure-preview').getByText('C7H8O2').waitFor();
  assert.equal(await page.getByLabel('name', { exact: true }).inputValue(), 'guaiacol');
  await page.getByLabel('structure (SMILES)').focus();
  await page.keyboard.press('Enter');
  await page.getByText('Added: guaiacol').waitFor();
  assert.equal(results('show', 'guaiacol')[0].formula, 'C7H8O2');
  assert.equal(await page.getByLabel('structure (SMILES)').inputValue(), '');
  await found().filter({ hasText: '71 compounds.' }).waitFor();
});

test('a structure that is none is refused where it stands, and nothing is stored', async () => {
  const before = results('list').length;
  await page.getByLabel('name', { exact: true }).fill('nonsense');
  await page.getByLabel('structure (SMILES)').fill('C1CC');
  await page.getByRole('button', { name: 'add to the library' }).click();
  await page.locator('.refusal').filter({ hasText: /compound\.csv:2, column smiles: found "C1CC"/ }).waitFor();
  assert.equal(results('list').length, before);
  await page.getByLabel('name', { exact: true }).fill('');
  await page.getByLabel('structure (SMILES)').fill('');
});

test('a molfile says what it would add before it is added', async () => {
  const molfile = '\n  invented\n\n  3  2  0  0  0  0  0  0  0  0999 V2000\n' +
    ['C', 'C', 'S'].map((atom, i) => `    ${i}.0000    0.0000    0.0000 ${atom}   0  0  0  0  0  0  0  0  0  0  0  0\n`).join('') +
    '  1  2  1  0\n  2  3  1  0\nM  END\n';
  await page.getByLabel('or a molfile').setInputFiles({ name: 'ethanethiol.mol', mimeType: 'chemical/x-mdl-molfile', buffer: Buffer.from(molfile) });
  await page.getByText('Dry run: nothing was stored.').waitFor();
  await page.getByRole('button', { name: /^add what ethanethiol\.sdf holds/ }).press('Enter');
  await found().filter({ hasText: '72 compounds.' }).waitFor();
  assert.equal(results('show', 'ethanethiol')[0].smiles, 'CCS');
});

test('structures of a dropped SD file are drawn before they are added', async () => {
  const record = (name, last) => `${name}\n  invented\n\n  3  2  0  0  0  0  0  0  0  0999 V2000\n` +
    ['C', 'C', last].map((atom, i) => `    ${i}.0000    0.0000    0.0000 ${atom}   0  0  0  0  0  0  0  0  0  0  0  0\n`).join('') +
    '  1  2  1  0\n  2  3  1  0\nM  END\n$$$$\n';
  const before = results('list').length;
  const drop = (name, text) => page.locator('.adding').evaluate((form, given) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([given.text], given.name));
    form.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
  }, { name, text });
  await drop('two.sdf', record('sulfur compound', 'S') + record('bromoethane', 'Br'));
  const drawn = page.locator('.drawn-file .structure-preview');
  await drawn.nth(1).waitFor();
  assert.equal(await drawn.locator('svg').count(), 2);
  assert.match(await drawn.nth(0).innerText(), /sulfur compound\s+C2H6S/);
  assert.match(await drawn.nth(1).innerText(), /bromoethane\s+C2H5Br/);
  await drawn.nth(0).getByText('The library holds this structure as ethanethiol').waitFor();
  await drop('eight.sdf', Array.from({ length: 8 }, (_, i) => record(`copy ${i}`, 'S')).join(''));
  await drawn.nth(5).getByText('copy 5').waitFor();
  assert.equal(await drawn.count(), 6);
  await drop('broken.sdf', record('broken', 'S').replace('  2  3  1', '  2  9  1'));
  await page.locator('.add-compound .refusal').waitFor();
  assert.equal(await drawn.count(), 0);
  assert.equal(results('list').length, before);
});

test('the card draws each value on its day, and what contradicts is marked', async () => {
  await go('/compound/methyl%20benzoate');
  await heading('methyl benzoate');
  const values = results('show', 'methyl benzoate').slice(1);
  await page.locator('.value-dot').first().waitFor();
  assert.equal(await page.locator('.value-dot').count(), values.length);
  assert.equal(await page.locator('.value-row').count(), new Set(values.map((one) => one.system)).size);
  await page.locator('.found-here').getByText('lies far from the median').waitFor();
  const odd = results('show', 'methyl benzoate').slice(1).find((one) => one.system === 'C18-WA6040' && one.value === 889.7);
  await page.locator(`.value-dot.suspect[data-id="${odd.id}"]`).waitFor();
  await page.locator('.history-of').getByText('learn', { exact: true }).waitFor();
  await page.locator('.value-row').getByRole('link', { name: 'silica-DM201' }).click();
  await heading('silica-DM201');
});

test('a value is chosen in the drawing and withdrawn with a reason by the keyboard, and counts again', async () => {
  await go('/compound/methyl%20benzoate');
  await page.locator('.value-dot').first().focus();
  await page.keyboard.press('ArrowRight');
  const id = await page.evaluate(() => Number(document.activeElement.dataset.id));
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'withdraw 1 chosen value' }).press('Enter');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Enter'); // the button has the focus again
  await page.keyboard.type('the label was read wrongly');
  await page.keyboard.press('Enter');
  await page.locator('.outcome').getByText('1 value retired').waitFor();
  await page.locator(`.value-dot.withdrawn[data-id="${id}"]`).waitFor();
  const held = results('show', 'methyl benzoate', '--all').find((one) => one.id === id);
  assert.equal(held.state, 'retired');
  assert.match(held.withdrawn.detail, /the label was read wrongly/);
  await page.getByRole('checkbox', { name: `choose value ${id}`, exact: true }).check();
  await page.getByRole('button', { name: 'let 1 chosen value count again' }).click();
  await page.getByLabel('why?').fill('the label was right');
  await page.keyboard.press('Enter');
  await page.locator('.outcome').getByText('counts again').waitFor();
  assert.equal(results('show', 'methyl benzoate', '--all').find((one) => one.id === id).state, 'held');
});

test('a compound is renamed, its structure corrected, and it is withdrawn and taken back', async () => {
  await go('/compound/50%20%25%20acid%2Fbase');
  await heading('50 % acid/base');
  await page.getByRole('button', { name: 'rename' }).click();
  await page.getByLabel('new name').fill('heptadecane');
  await page.getByLabel('why?').fill('its name');
  await page.keyboard.press('Enter');
  await heading('heptadecane');
  await page.locator('.outcome').getByText('is now "heptadecane"').waitFor();
  assert.match(page.url(), /compound\/heptadecane$/);
  await page.getByRole('button', { name: 'correct the structure' }).click();
  await page.getByLabel('structure (SMILES)').fill('CC(C)CCCCCCCCCCCCCC');
  await page.locator('.corrections .structure-preview').getByText('C17H36').waitFor();
  await page.getByLabel('why?').fill('branched');
  await page.keyboard.press('Enter');
  await page.locator('.outcome').getByText('is corrected; its values stay').waitFor();
  assert.equal(results('show', 'heptadecane')[0].smiles, 'CCCCCCCCCCCCCCC(C)C');
  await page.getByRole('button', { name: 'withdraw the compound' }).click();
  await page.getByLabel('why?').fill('not ours');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'let it count again' }).click();
  assert.equal(results('show', 'heptadecane')[0].retired, true);
  await page.getByLabel('why?').fill('ours again');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'withdraw the compound' }).waitFor();
  assert.equal(results('show', 'heptadecane')[0].retired, false);
  assert.deepEqual(results('history', 'heptadecane').map((one) => one.verb), ['retire --undo', 'retire', 'rename', 'rename', 'learn']);
});

test('a system is the line of its compounds in the order in which they leave, and is renamed', async () => {
  await go('/system/silica-DM201');
  await heading('silica-DM201');
  const names = page.locator('.names-on-line a');
  await names.first().waitFor();
  const medians = new Map();
  for (const one of results('show', 'silica-DM201').slice(1)) medians.set(one.compound, [...medians.get(one.compound) ?? [], one.value]);
  const middle = (name) => {
    const all = medians.get(name).sort((a, b) => a - b);
    return (all[Math.floor((all.length - 1) / 2)] + all[Math.floor(all.length / 2)]) / 2;
  };
  const order = (await names.allTextContents()).map(middle);
  assert.equal(order.length, medians.size);
  assert.deepEqual(order, [...order].sort((a, b) => b - a));
  await page.getByRole('button', { name: 'rename' }).click();
  await page.getByLabel('new name').fill('silica, 20:1');
  await page.getByLabel('why?').fill('shorter');
  await page.keyboard.press('Enter');
  await heading('silica, 20:1');
  assert.equal(results('list', 'systems').some((one) => one.system === 'silica, 20:1'), true);
});

test('what needs a look leads to the cards; links within an answer stay on the page', async () => {
  await go('/audit');
  await page.locator('.told .verdict').waitFor();
  await page.locator('.told a[href="#finding-1"]').click();
  assert.match(page.url(), /library\/audit$/);
  assert.equal(await page.evaluate(() => document.activeElement.id), 'finding-1');
  await page.locator('#finding-1 h3 a').first().click();
  assert.match(page.url(), /library\/(compound|system)\//);
  await go('/audit');
  assert.equal(await page.locator('.told .verdict').count(), 1); // what was found is still there
});

test('the library says how far to trust it without storing anything', async () => {
  await go('/trust');
  await page.getByRole('button', { name: 'ask, and store nothing' }).click();
  await page.locator('.told').getByText(/questions asked/).waitFor({ timeout: 120000 });
  assert.equal(results('history').some((one) => one.proofs > 0), false);
  await go('/history');
  await page.locator('.told').getByText(/changes of the library/).waitFor();
});

test('a hostile name stays a name', async () => {
  await go(`/compound/${encodeURIComponent(hostileName)}`);
  await heading(hostileName);
  await page.locator('.history-of .answer').waitFor();
  assert.equal(await page.evaluate(() => window.ran), undefined);
});

test('an unknown name is refused in words', async () => {
  await go('/compound/nobody%20knows');
  await page.locator('.refusal').getByText(/found "nobody knows"; expected a compound/).waitFor();
});

test('of many compounds the first are there at once, and more when they are asked for', async () => {
  const many = join(folder, 'many.csv');
  const rows = Array.from({ length: 430 }, (_, i) => `zz ${String(i).padStart(3, '0')},${'C'.repeat(20 + (i % 20))}${['O', 'N', 'S', 'F', 'Cl', 'Br', 'I'][i % 7]}${'C'.repeat(1 + Math.floor(i / 20))}`)
    .filter((row) => !/[FIrl]C/.test(row));
  writeFileSync(many, `compound,smiles\n${rows.join('\n')}\n`);
  run('learn', many);
  const all = results('list').length;
  assert.ok(all > 200 && all < 400);
  await go('/audit');
  await go('');
  await page.getByLabel('part of a name').fill('');
  await found().filter({ hasText: `200 of ${all} compounds.` }).waitFor();
  assert.equal(await page.locator('.found tbody tr').count(), 200);
  await page.getByLabel('part of a name').fill('ZZ');
  const those = results('list', '--name', 'zz').length;
  await found().filter({ hasText: those > 200 ? `200 of ${those} compounds.` : `${those} compounds.` }).waitFor();
  await page.getByLabel('part of a name').fill('');
  await found().filter({ hasText: `200 of ${all} compounds.` }).waitFor();
  await page.getByRole('button', { name: `show ${all - 200} more` }).press('Enter');
  await found().filter({ hasText: `${all} compounds.` }).filter({ hasNotText: ' of ' }).waitFor();
  const names = await page.locator('.found tbody th a').allTextContents();
  assert.deepEqual(names, results('list').map((one) => one.compound));
  assert.equal(await page.evaluate(() => document.activeElement.textContent), names[200]);
  assert.equal(await page.getByRole('button', { name: /^show \d+ more$/ }).count(), 0);
});

test('a compound with very many values shows the first, and all when that is asked for', async () => {
  const values = join(folder, 'repeats.csv');
  writeFileSync(values, `compound,system,quantity,value,run\n${Array.from({ length: 2100 }, (_, i) => `eugenol,silica-HEA41,Rf,${(0.3 + (i % 10) / 1000).toFixed(3)},r${i}`).join('\n')}\n`);
  run('learn', values);
  const all = results('show', 'eugenol', '--all').length - 1;
  await go('/compound/eugenol');
  await heading('eugenol');
  await page.getByText('the first 2,000').waitFor();
  await page.getByRole('button', { name: `list all ${all.toLocaleString('en')} values` }).click();
  await page.locator('.held .answer table tbody tr').nth(all - 1).waitFor({ state: 'attached' });
  await go('/system/silica-HEA41');
  await heading('silica-HEA41');
  await page.getByText('values: the first 2,000 are listed').waitFor();
  await page.getByLabel('of compounds whose name holds').fill('vanillin');
  const some = results('show', 'silica-HEA41', '--all', '--name', 'vanillin').length - 1;
  await page.getByText(`${some} values.`, { exact: true }).waitFor();
});

test('nothing wider than a telephone, readable in light and dark, and nothing complained', async () => {
  for (const colorScheme of ['light', 'dark']) {
    const own = page;
    page = await pageOf({ viewport: { width: 390, height: 800 }, colorScheme });
    for (const [place, ready] of [['', '.found table'], ['/compound/methyl%20benzoate', '.found-here'], ['/system/silica-HEA41', '.names-on-line li'], ['/audit', '.told .verdict'], ['/trust', '.buttons']]) {
      await go(place);
      await page.locator(ready).first().waitFor();
      assert.deepEqual(await page.evaluate(overflowing), [], `${place}, ${colorScheme}`);
      assert.deepEqual(await page.evaluate(faintTexts), [], `${place}, ${colorScheme}`);
    }
    await page.context().close();
    page = own;
  }
  assert.deepEqual(heard, []);
});
