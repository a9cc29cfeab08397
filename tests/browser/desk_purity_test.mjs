// Purity on the desk: from batches to a page to sign.
//   node desk_purity_test.mjs COSPOT FOLDER_OF_NODE_MODULES
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { test } from 'node:test';
import { looksRight } from './desk_browser.mjs';
import { files, newSheet, openedDesk, type } from './opened_desk.mjs';

const [cospot, modules] = process.argv.slice(2);
const desk = await openedDesk(cospot, modules);
const { page, heard, lab } = desk;
const demo = (name) => join(lab.demo, name);
const verdict = (text) => page.locator('.as-printed').getByText(text).first();

test('what is missing is said, and a wrong name is told at its field', async () => {
  await newSheet(desk, 'Purity');
  await page.getByText('Choose, drop or paste the batches.').waitFor();
  await files(page, 'The batches').setInputFiles([demo('hplc_batch_1.csv'), demo('hplc_batch_2.csv')]);
  await page.getByText('Choose the system').waitFor();
  await page.getByLabel(/^system/).selectOption('C18-WA6040');
  await files(page, 'The ladder run with it').setInputFiles(demo('hplc_ladder.csv'));
  await type(page, /^declared to be/, 'butylparben');
  await page.locator('.field', { hasText: 'declared to be' }).getByText('did you mean "butylparaben"?').waitFor();
  assert.equal(await page.getByLabel(/^declared to be/).getAttribute('aria-invalid'), 'true');
});

test('two batches are judged by own rules with a blank, and followed over time', async () => {
  await type(page, /^declared to be/, 'butylparaben');
  await verdict('Declared butylparaben').waitFor();
  assert.equal(await page.getByLabel(/^declared to be/).getAttribute('aria-invalid'), null);
  await page.getByText('Limits: a guideline or rules of your own').click();
  await files(page, 'Rules of your own').setInputFiles(demo('purity_rules.json'));
  await page.getByText('Blank', { exact: true }).click();
  await files(page, 'What a blank shows').setInputFiles(demo('hplc_blank.csv'));
  await verdict('in the blank too').waitFor();
  assert.match(await page.locator('.as-printed').textContent(), /2 of 2 samples not in order.*broken line: limit 0\.25 %/s);
  assert.equal(await page.locator('.as-printed svg.trend').count(), 3);
});

test('a confirmed name and the detector count', async () => {
  const open = page.locator('.as-printed').getByText(/open until butylparaben is confirmed/);
  await open.first().waitFor();
  await type(page, /^confirmed in these samples/, 'butylparaben');
  await open.first().waitFor({ state: 'detached' });
  await page.getByText('Detector and detection limit').click();
  await page.getByLabel(/^detector/).selectOption('uv');
  await type(page, /^detection limit, %/, '0,02');
  await verdict('0.02').waitFor();
});

test('rules that are none are refused beside their file', async () => {
  await files(page, 'Rules of your own').setInputFiles(demo('hplc_blank.csv'));
  await page.locator('.file-entry', { hasText: 'Rules of your own' }).getByText('malformed JSON').waitFor();
  await files(page, 'Rules of your own').setInputFiles(demo('purity_rules.json'));
  await verdict('Declared butylparaben').waitFor();
});

test('links of the answer stay in the sheet', async () => {
  const address = page.url();
  await page.locator('.as-printed a', { hasText: 'hplc_batch_2' }).first().click();
  assert.equal(page.url(), address);
});

test('a reload shows it again; the kept page has lines to sign for each sample', async () => {
  await page.waitForTimeout(600);
  await page.reload();
  await verdict('Declared butylparaben').waitFor();
  assert.equal(await page.getByLabel(/^confirmed in these samples/).inputValue(), 'butylparaben');
  await page.getByRole('button', { name: 'keep', exact: true }).click();
  await page.getByText('kept', { exact: true }).waitFor();
  const kept = await page.evaluate(async (path) => (await fetch(path)).text(), await page.getByRole('link', { name: 'print' }).getAttribute('href'));
  assert.equal(kept.match(/<table[^>]*>(?:(?!<\/table>).)*Signature/gs)?.length >= 2, true);
});

test('nothing is wider than the window, and text stands out in light and dark', async () => {
  await looksRight(page);
  assert.deepEqual(heard, []);
});
