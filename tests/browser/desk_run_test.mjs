// A run on the desk: from a trace or a table to a kept page, with peaks changed by hand.
//   node desk_run_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { looksRight } from './desk_browser.mjs';
import { drop, files, newSheet, openedDesk, signal, type } from './opened_desk.mjs';

const [cospot, modules] = process.argv.slice(2);
const desk = await openedDesk(cospot, modules);
const { page, heard, lab } = desk;

const write = (name, text) => {
  const file = join(lab.folder, name);
  writeFileSync(file, text);
  return file;
};
/// The demo's muscle rub and its ladder, as a recorder would have drawn them.
const numbers = (name) => readFileSync(join(lab.demo, name), 'utf8').trim().split('\n').slice(1).map((row) => row.split(',').map(Number));
const rub = numbers('hplc_peaks.csv').map(([, time, area, width]) => [time, area / width / 100, width]);
const ketones = numbers('hplc_ladder.csv').map(([, time]) => [time, 800, 0.025 * time]);
const trace = write('rub.txt', signal(rub, { end: 16 }));
const ladder = signal(ketones, { end: 22 });
const unsaid = write('unsaid.txt', signal(rub, { end: 16, heading: 'x\ty' }));
const blank = write('blank.txt', signal([[2, 30, 0.05]], { end: 16 }));

const rows = () => page.locator('.peak-list tbody tr');
/// The row of the peak at this time.
const row = (minutes) => rows().filter({ hasText: minutes });
const answered = (minutes, name) => row(minutes).filter({ hasText: name }).waitFor();
const changes = () => page.locator('.changes li');
const system = () => page.getByLabel(/^system/);
const pointAt = async (minutes, move = null) => {
  const picture = page.locator('.trace-picture svg.chromatogram');
  await picture.scrollIntoViewIfNeeded();
  const box = await picture.boundingBox();
  // From 24 to 936 of 960 units lie the times from 0 to the last point.
  const x = (at) => box.x + (24 + 912 * at / 15.995) * box.width / 960;
  const y = box.y + box.height / 2;
  if (move === null) return page.mouse.click(x(minutes), y);
  await page.mouse.move(x(minutes), y);
  await page.mouse.down();
  await page.mouse.move(x(move), y, { steps: 4 });
  return page.mouse.up();
};
/// Until all that was asked is shown.
const settled = () => page.locator('.work[aria-busy="false"]').waitFor();
const reason = async (text) => {
  await page.getByLabel('reason').fill(text);
  await page.keyboard.press('Enter');
};

test('a trace shows its peaks, and candidates once system and ladder are there', async () => {
  await newSheet(desk, 'A run');
  await files(page, 'The run:').setInputFiles(trace);
  await page.locator('svg.trace').first().waitFor();
  await row('6.140').waitFor();
  await system().selectOption('C18-WA6040');
  await page.getByText('expected “the ladder run with it”').waitFor(); // beside the ladder
  await drop(page, 'The ladder', 'kétones (2).txt', ladder);
  await page.getByText('a trace as the ladder').waitFor();
  await type(page, /^carbon number of its first homologue/, '8');
  await answered('6.140', 'methyl salicylate');
  await settled();
  assert.equal(await page.locator('.file-faults .fault').count(), 0);
  assert.match(await page.locator('.trace-picture').textContent(), /retention index/);
  // Hatching lies on a peak that no listed compound fits.
  assert.equal(await page.evaluate(() => Boolean(document.querySelector('#hatch').closest('.as-printed'))), true);
});

test('the chosen peak has its candidates beside it', async () => {
  await row('3.363').getByRole('button').focus();
  await page.keyboard.press('Enter');
  assert.match(await page.locator('.panel').textContent(), /3\.363 min.*ethylparaben.*none of the listed compounds/s);
  assert.equal(await page.locator('.trace-picture .hand .border').count(), 2);
});

test('a typed time splits a peak, its reason stays, and undo takes it back', async () => {
  const before = await rows().count();
  await page.getByLabel('time, min', { exact: true }).fill('13,35');
  await page.keyboard.press('Tab');
  await page.getByRole('button', { name: /^split peak/ }).press('Enter');
  await page.keyboard.press('Enter'); // no reason yet
  assert.equal(await changes().count(), 0);
  await reason('the second injection shows two');
  await changes().filter({ hasText: 'peak split at 13.35 min: the second injection shows two' }).waitFor();
  await page.waitForFunction((count) => document.querySelectorAll('.peak-list tbody tr').length === count, before + 1);
  await page.locator('.as-printed').getByText('Reason: the second injection shows two').first().waitFor();
  await page.getByRole('button', { name: /^undo: peak split/ }).press('Enter');
  await page.waitForFunction((count) => document.querySelectorAll('.peak-list tbody tr').length === count, before);
});

test('a change that cannot be made is refused where it was asked for', async () => {
  await page.getByLabel('time, min', { exact: true }).fill('3.363');
  await page.keyboard.press('Tab');
  await page.getByRole('button', { name: /^add another peak/ }).press('Enter');
  await reason('try');
  await page.locator('.changes-by-hand .refusal').waitFor();
  assert.equal(await changes().count(), 0);
  await page.getByRole('button', { name: 'leave as it is' }).press('Enter');
});

test('pointing into the trace drops a peak and drags a border', async () => {
  await settled();
  await pointAt(10.121);
  assert.match(await page.getByLabel('time, min', { exact: true }).inputValue(), /^10\.1[12]/);
  await page.getByRole('button', { name: /^drop peak/ }).click();
  await reason('a ghost');
  await changes().filter({ hasText: 'dropped: a ghost' }).waitFor();
  await row('10.121').waitFor({ state: 'detached' });
  await settled();
  await pointAt(6.14);
  const end = await page.locator('.trace-picture .hand title').last().textContent();
  const from = Number(end.match(/border at ([\d.]+) min/)[1]);
  await pointAt(from, from - 0.1);
  await page.getByText(/^Move the border at/).waitFor();
  await reason('tail of the solvent');
  await changes().filter({ hasText: /border at .* moved to .*: tail of the solvent/ }).waitFor();
});

test('a zoomed trace stays zoomed when peaks are changed, and its ruler follows', async () => {
  const picture = page.locator('.trace-picture');
  await settled();
  await picture.getByRole('button', { name: 'shorter time' }).click();
  const zoomed = await picture.locator('svg.trace').getAttribute('viewBox');
  await page.getByLabel('time, min', { exact: true }).fill('6.14');
  await page.keyboard.press('Tab');
  await page.getByRole('button', { name: /^name peak/ }).click();
  await page.locator('.changes-by-hand').getByLabel('compound').fill('methyl salicylate');
  await reason('its standard ran beside it');
  await answered('6.140', 'named methyl salicylate');
  await settled();
  assert.equal(await picture.locator('svg.trace').getAttribute('viewBox'), zoomed);
  assert.match(await picture.locator('line.axis[y1="36"][y2="36"]').getAttribute('transform'), /^matrix\(1\.5/);
});

test('a blank is subtracted and drawn below', async () => {
  await page.getByText('with a blank').click();
  await files(page, 'A blank').setInputFiles(blank);
  await page.locator('.trace-picture svg.blank .signal').waitFor();
  await page.locator('.as-printed').getByText('less blank.txt').first().waitFor();
});

test('all is there again after a reload; the kept page has the reasons', async () => {
  await page.waitForTimeout(600);
  await page.reload();
  await answered('6.140', 'named methyl salicylate');
  assert.equal(await changes().count(), 3);
  await settled();
  await page.getByRole('button', { name: 'keep', exact: true }).click();
  await page.getByText('kept', { exact: true }).waitFor();
  const kept = await page.evaluate(async (path) => (await fetch(path)).text(), await page.getByRole('link', { name: 'print' }).getAttribute('href'));
  assert.match(kept, /Reason: at 10\.1\d+ min: a ghost; at [\d.]+ min: tail of the solvent/);
});

test('nothing is wider than the window, and text stands out in light and dark', async () => {
  await looksRight(page);
});

test('a trace without a unit asks for it; changes of another trace are laid aside', async () => {
  await files(page, 'The run:').setInputFiles(unsaid);
  await page.getByText('found times without a unit').waitFor();
  assert.equal(await changes().count(), 0);
  await page.getByLabel(/^unit of the times/).selectOption('min');
  await row('6.140').waitFor();
  await files(page, 'The run:').setInputFiles(trace);
  await changes().filter({ hasText: 'a ghost' }).waitFor();
});

test('a pasted table: faults with their lines, own headings, a typed ladder', async () => {
  await newSheet(desk, 'A run');
  await system().selectOption('C18-WA6040');
  await page.getByText('as text: paste, type or correct').first().click();
  const text = page.getByLabel(/^The run.*: text$/);
  await text.fill('peak,tR,area\n1,3.363,100\n2,4.8x6,200\n');
  await page.getByText('or type it', { exact: true }).click();
  for (const [i, [member, minutes]] of [['8', '3,168'], ['9', '4,702'], ['10', '7,375']].entries()) {
    await type(page, `carbon number or name, row ${i + 1}`, member);
    await type(page, `minutes, row ${i + 1}`, minutes);
  }
  await page.getByText('column tR: found "4.8x6"').waitFor();
  assert.equal(await page.locator('.faulty-rows').textContent(), '3  2,4.8x6,200');
  await text.fill('Nr;Ret. Time [min];Fl\n1;3,363;100\n2;4,876;200\n');
  await page.keyboard.press('Tab');
  await page.getByRole('button', { name: '“Ret. Time [min]” is tR' }).click();
  await answered('3.363', 'ethylparaben');
  assert.equal(await page.locator('.fault').count(), 0);
  assert.deepEqual(heard, []);
});
